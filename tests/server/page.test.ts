import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readPage } from "../../server/page.ts";
import { newFolder } from "../temporary.ts";
import { serveApp } from "./served.ts";
import type { Served } from "./served.ts";

let folder: string;
let served: Served;

beforeAll(async () => {
  folder = newFolder();
  mkdirSync(join(folder, "assets"));
  writeFileSync(join(folder, "index.html"), "<!doctype html><title>Clampside</title>");
  writeFileSync(join(folder, "assets", "page-a1b2c3.js"), "export {};");
  writeFileSync(join(folder, "assets", "letters-d4e5f6.woff2"), Buffer.from([0, 1, 2, 255]));
  writeFileSync(join(folder, "notes.bak"), "not for the browser");
  served = await serveApp({ page: readPage(folder) });
});
afterAll(async () => {
  await served.close();
  rmSync(folder, { recursive: true });
});

describe("the page", () => {
  it("is sent at the root and asked for each time", async () => {
    const answer = await fetch(served.url);
    expect(await answer.text()).toBe("<!doctype html><title>Clampside</title>");
    expect(answer.headers.get("Content-Type")).toBe("text/html; charset=utf-8");
    expect(answer.headers.get("Cache-Control")).toBe("no-cache");
    const again = await fetch(served.url, { headers: { "If-None-Match": answer.headers.get("ETag") ?? "" } });
    expect(again.status).toBe(304);
  });

  it("lets the browser keep the files whose names carry a hash", async () => {
    const script = await fetch(`${served.url}/assets/page-a1b2c3.js`);
    expect(script.headers.get("Content-Type")).toBe("text/javascript; charset=utf-8");
    expect(script.headers.get("Cache-Control")).toBe("public, max-age=31536000, immutable");
    const letters = await fetch(`${served.url}/assets/letters-d4e5f6.woff2`);
    expect(letters.headers.get("Content-Type")).toBe("font/woff2");
    expect([...new Uint8Array(await letters.arrayBuffer())]).toEqual([0, 1, 2, 255]);
  });

  it("sends nothing that a browser has no use for", async () => {
    expect((await fetch(`${served.url}/notes.bak`)).status).toBe(404);
    expect((await fetch(`${served.url}/index.html`)).status).toBe(404);
  });

  it("says in one plain sentence what to do when it has not been built", async () => {
    expect(readPage(join(folder, "nowhere"))).toBeNull();
    const bareApp = await serveApp({ page: null });
    const answer = await fetch(bareApp.url);
    expect(answer.status).toBe(404);
    expect(answer.headers.get("Content-Type")).toMatch(/^text\/plain/);
    expect(await answer.text()).toMatch(/has not been built.*npm run build/);
    await bareApp.close();
  });
});
