/** The page as a visitor meets it: built into a folder of its own, sent by the real server, opened in a real browser. */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { chromium, type BrowserContext, type Page } from "playwright-core";
import { build } from "vite";
import { house } from "../../server/house.ts";
import { readPage } from "../../server/page.ts";
import { readTemplates } from "../../server/templates.ts";
import { serveApp } from "../server/served.ts";
import { ensureChromium } from "./ensure-chromium.ts";

export interface Stage {
  readonly url: string;
  /** of the page and the scripts and styles that it names, gzipped; fonts and sheets fetched later are left out */ readonly firstLoadBytes: number;
  /** errors that the server called its own fault */ readonly reports: readonly unknown[];
  /** Opens the page at an address (what stands behind the `#`, `#` included) in a window of this width, and waits for the first answer and its drawing where the address names the day. */
  open(hash?: string, options?: { width?: number; height?: number; reducedMotion?: boolean }): Promise<Visit>;
  close(): Promise<void>;
}

export interface Visit {
  readonly page: Page;
  /** everything the console called an error or a warning, and every error of a script */ readonly complaints: string[];
  close(): Promise<void>;
}

/** Every width, every example and every side path in the long run; enough of them to hold the page together in the usual one. */
export const LONG = Boolean(process.env.CLAMPSIDE_LONG);

/** ms that anything about the page may take; a machine with other work to do may be many times slower than an idle one. */
export const PATIENCE = 60_000;

/** Flags for a browser without screen that speaks to nobody but the server under test. */
const FLAGS = [
  "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
  "--disable-dev-shm-usage", "--font-render-hinting=none",
];

/** Builds the page, starts the server and the browser. */
export async function setStage(): Promise<Stage> {
  const folder = mkdtempSync(join(tmpdir(), "clampside-page-"));
  await build({ configFile: join(house(), "vite.config.ts"), root: join(house(), "viz"), logLevel: "error", build: { outDir: join(folder, "page"), emptyOutDir: true } });
  const server = await serveApp({ templates: readTemplates(join(house(), "scenarios")), page: readPage(join(folder, "page")) });
  const url = `${server.url}/`;
  const browser = await chromium.launch({ executablePath: ensureChromium(), headless: true, args: FLAGS });

  return {
    url, reports: server.reports, firstLoadBytes: firstLoadOf(join(folder, "page")),
    open: async (hash = "", { width = 1280, height = 900, reducedMotion = false } = {}) => {
      const context: BrowserContext = await browser.newContext({ viewport: { width, height }, reducedMotion: reducedMotion ? "reduce" : "no-preference", locale: "en-GB" });
      const page = await context.newPage();
      page.setDefaultTimeout(PATIENCE);
      const complaints: string[] = [];
      page.on("console", (message) => { if (["error", "warning"].includes(message.type())) complaints.push(message.text()); });
      page.on("pageerror", (error) => complaints.push(String(error)));
      await page.goto(url + hash);
      if (!hash.includes("sheet=")) {
        await page.locator(".answer[data-keeps]").waitFor();
        await page.locator(".strip svg").waitFor();
      }
      return { page, complaints, close: () => context.close() };
    },
    close: async () => {
      await browser.close();
      await server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Bytes, gzipped, of the page and of every script and style that it names: what is fetched before the first answer. */
function firstLoadOf(folder: string): number {
  const html = readFileSync(join(folder, "index.html"), "utf8");
  const named = [...html.matchAll(/(?:src|href)="\/(assets\/[^"]+\.(?:js|css))"/g)].map(([, name]) => name!);
  return ["index.html", ...named].reduce((sum, name) => sum + gzipSync(readFileSync(join(folder, name))).length, 0);
}
