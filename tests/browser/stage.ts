/** The page as a visitor meets it: built into a folder of its own, sent by the real server, opened in a real browser. */
import { readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { chromium, type Page } from "playwright-core";
import { house } from "../../server/house.ts";
import { readPage } from "../../server/page.ts";
import { readTemplates } from "../../server/templates.ts";
import { buildPage } from "../server/built.ts";
import { serveApp, type Served } from "../server/served.ts";
import { newFolder } from "../temporary.ts";
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

/** Flags for a browser without screen that speaks to nobody but the server under test, in few processes: a new one for each visit took longer than the visit. */
const FLAGS = [
  "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
  "--disable-dev-shm-usage", "--font-render-hinting=none", "--renderer-process-limit=1",
];

/** Whoever sends the page that was built into a folder. */
type Sender = (page: string) => Promise<Pick<Served, "url" | "reports" | "close">>;

/** The server from source, on this process's own thread. */
const fromSource: Sender = (page) => serveApp({ templates: readTemplates(join(house(), "scenarios")), page: readPage(page) });

/** Builds the page, starts a server and the browser. */
export async function setStage(serve: Sender = fromSource): Promise<Stage> {
  const folder = newFolder();
  buildPage(join(folder, "page"));
  const server = await serve(join(folder, "page"));
  const url = `${server.url}/`;
  const browser = await chromium.launch({ executablePath: ensureChromium(), headless: true, args: FLAGS });
  // One visitor with many windows: what a window keeps is its own, and the scripts that all of them fetch are fetched and compiled once.
  const visitor = await browser.newContext({ locale: "en-GB" });
  // A window that stays: the process that shows the page ends with the last of them.
  await (await visitor.newPage()).goto(`${url}livez`);

  return {
    url, reports: server.reports, firstLoadBytes: firstLoadOf(join(folder, "page")),
    open: async (hash = "", { width = 1280, height = 900, reducedMotion = false } = {}) => {
      const page = await visitor.newPage();
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ reducedMotion: reducedMotion ? "reduce" : "no-preference" });
      page.setDefaultTimeout(PATIENCE);
      const complaints: string[] = [];
      page.on("console", (message) => { if (["error", "warning"].includes(message.type())) complaints.push(message.text()); });
      page.on("pageerror", (error) => complaints.push(String(error)));
      await page.goto(url + hash);
      if (!hash.includes("sheet=")) {
        await page.locator(".answer[data-keeps]").waitFor();
        await page.locator(".strip svg").waitFor();
      }
      return { page, complaints, close: () => page.close() };
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
