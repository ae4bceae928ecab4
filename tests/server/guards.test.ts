import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { document } from "../../server/documents.ts";
import { bare, post, serveApp } from "./served.ts";
import type { Served } from "./served.ts";

let served: Served;
beforeAll(async () => { served = await serveApp({ page: new Map([["/", document("<!doctype html>", "text/html; charset=utf-8")]]) }); });
afterAll(() => served.close());

/** A policy as name -> its sources. */
const policyOf = (header: string | null): Map<string, string> =>
  new Map((header ?? "").split(";").map((line) => line.trim()).map((line) => [line.split(" ")[0] ?? "", line.split(" ").slice(1).join(" ")]));

describe("what stands before every route", () => {
  it("keeps the page to itself without asking the browser to turn to HTTPS", async () => {
    const { headers } = await fetch(served.url);
    const policy = policyOf(headers.get("Content-Security-Policy"));
    expect(policy.get("default-src")).toBe("'self'");
    expect(policy.get("script-src") ?? "'self'").toBe("'self'");
    expect(policy.get("frame-ancestors")).toBe("'none'");
    expect(policy.has("upgrade-insecure-requests")).toBe(false);
    expect(headers.has("Strict-Transport-Security")).toBe(false);
    expect(headers.get("X-Content-Type-Options")).toBe("nosniff");
    expect(headers.has("X-Powered-By")).toBe(false);
  });

  it("answers under the machine's own names, whatever the port a tunnel gave them", async () => {
    for (const host of ["127.0.0.1", `localhost:${served.port}`, "LOCALHOST:8080", "[::1]:4717"]) {
      expect((await bare(served.port, "/livez", { Host: host })).status, host).toBe(200);
    }
  });

  it("keeps a quiet connection longer than clients and what stands before it do, so that none asks on one that is just being closed", async () => {
    const kept = (await fetch(`${served.url}/livez`)).headers.get("Keep-Alive");
    // Those who close first lose no question. A minute is usual for what stands before a server; clients keep theirs for seconds.
    expect(Number(/^timeout=(\d+)$/.exec(kept!)![1])).toBeGreaterThan(60);
  });

  it("refuses any other name, so that a page elsewhere cannot have its own name point here", async () => {
    for (const host of ["farm.example", "127.0.0.1.farm.example", "localhost.example:4717", "127.0.0.2", "localhost:", "a@localhost"]) {
      const { status, headers } = await bare(served.port, "/livez", { Host: host });
      expect(status, host).toBe(421);
      expect(headers["content-type"]).toBe("application/problem+json");
    }
  });

  it("refuses what a page of another origin sends, also of another port of this machine, and takes what its own page sends", async () => {
    for (const origin of ["http://farm.example", "null", "https://localhost.example", "file://", `http://localhost:${served.port}`, "http://127.0.0.1:8080", "http://127.0.0.1"]) {
      expect((await bare(served.port, "/livez", { Host: `127.0.0.1:${served.port}`, Origin: origin })).status, origin).toBe(403);
    }
    expect((await bare(served.port, "/livez", { Origin: served.url })).status).toBe(200);
    expect((await bare(served.port, "/livez", { Host: "localhost:8080", Origin: "http://localhost:8080" })).status).toBe(200);
  });

  it("refuses what the browser says crosses sites, but for going to an address", async () => {
    for (const site of ["cross-site", "same-site"]) {
      expect((await bare(served.port, "/api/v1/scenarios", { "Sec-Fetch-Site": site, "Sec-Fetch-Mode": "no-cors" })).status).toBe(403);
      expect((await bare(served.port, "/api/v1/rehearsals", { "Sec-Fetch-Site": site, "Sec-Fetch-Mode": "navigate" }, "POST")).status).toBe(403);
      expect((await bare(served.port, "/", { "Sec-Fetch-Site": site, "Sec-Fetch-Mode": "navigate" })).status).toBe(200);
    }
    for (const site of ["same-origin", "none"]) expect((await bare(served.port, "/api/v1/scenarios", { "Sec-Fetch-Site": site })).status).toBe(200);
  });

  it("slows down whoever asks too often, and says for how long", async () => {
    const hasty = await serveApp({ limits: { perMinute: 2 } });
    const answers: Response[] = [];
    for (let i = 0; i < 3; i += 1) answers.push(await fetch(`${hasty.url}/api/v1/scenarios`));
    expect(answers.map((answer) => answer.status)).toEqual([200, 200, 429]);
    expect(Number(answers[2]?.headers.get("Retry-After"))).toBeGreaterThan(0);
    expect(await answers[2]?.json()).toMatchObject({ status: 429 });
    expect((await fetch(`${hasty.url}/livez`)).status).toBe(200);
    await hasty.close();
  });
});

describe("addresses and methods", () => {
  it("tells a problem for an address that is not there, also for pieces that are to come", async () => {
    for (const path of ["/nothing", "/api/v1", "/api/v1/studies/none", "/api/v1/scenarios/none", "/api/v1/rehearsals/none", "/api/v1/rehearsals/none/log", "/LIVEZ"]) {
      const answer = await fetch(served.url + path);
      expect(answer.status, path).toBe(404);
      expect(answer.headers.get("Content-Type")).toBe("application/problem+json");
      expect(await answer.json()).toMatchObject({ type: "about:blank", title: "Not Found", status: 404 });
    }
  });

  it("finds no file by a path that climbs, and calls a broken escape what it is", async () => {
    for (const path of ["/../package.json", "/%2e%2e/package.json", "/assets/..%2f..%2fpackage.json", "/api/v1/scenarios/..%2f..%2fpackage"]) {
      expect((await bare(served.port, path, {})).status, path).toBe(404);
    }
    expect((await bare(served.port, "/api/v1/scenarios/%ff", {})).status).toBe(400);
  });

  it("names the methods that an address knows", async () => {
    const cases = [
      ["DELETE", "/livez", "GET, HEAD, OPTIONS"], ["POST", "/readyz", "GET, HEAD, OPTIONS"], ["GET", "/api/v1/rehearsals", "POST, OPTIONS"],
      ["POST", "/api/v1/scenarios/one", "GET, HEAD, PUT, DELETE, OPTIONS"], ["DELETE", "/api/v1/rehearsals/one", "GET, HEAD, OPTIONS"], ["PATCH", "/", "GET, HEAD"],
    ] as const;
    for (const [method, path, allowed] of cases) {
      const answer = await fetch(served.url + path, { method });
      expect(answer.status, `${method} ${path}`).toBe(405);
      expect(answer.headers.get("Allow")).toBe(allowed);
    }
    const asked = await fetch(`${served.url}/api/v1/rehearsals`, { method: "OPTIONS" });
    expect([asked.status, asked.headers.get("Allow")]).toEqual([204, "POST, OPTIONS"]);
  });

  it("is ready only when it says so", async () => {
    let ready = false;
    const other = await serveApp({ ready: () => ready });
    expect((await fetch(`${other.url}/livez`)).status).toBe(200);
    expect((await fetch(`${other.url}/readyz`)).status).toBe(503);
    ready = true;
    expect((await fetch(`${other.url}/readyz`)).status).toBe(200);
    await other.close();
  });

  it("tells nothing of its inside when it fails, and reports the failure to its own side once", async () => {
    const failing = await serveApp({ ready: () => { throw new Error("secret: a path in the house"); } });
    const answer = await fetch(`${failing.url}/readyz`);
    const text = await answer.text();
    expect(answer.status).toBe(500);
    expect(JSON.parse(text)).toMatchObject({ status: 500, title: "Internal Server Error" });
    expect(text).not.toMatch(/secret|\.ts|\.js|at /);
    expect(failing.reports.length).toBe(1);
    await failing.close();
  });

  it("has nothing to report after refusals", async () => {
    await post(served.url, "{", "application/json");
    expect(served.reports).toEqual([]);
  });
});

describe("the code of the server and the engine", () => {
  it("has nothing that asks another machine or starts another program, whatever a client sends", () => {
    const root = join(import.meta.dirname, "../..");
    const files = ["server", "sim"].flatMap((room) => readdirSync(join(root, room), { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts")).map((name) => join(root, room, name)));
    const outward = /\bfetch\(|WebSocket|EventSource\(|from "(?:node:)?(?:https|http2|net|tls|dgram|dns|child_process|vm|inspector)(?:\/\w+)?"|\beval\(|new Function\(/;
    const withHttp = files.filter((file) => {
      const text = readFileSync(file, "utf8").replace(/^import type .*$/gm, "");
      expect(outward.exec(text)?.[0], file).toBeUndefined();
      return /import \{[^}]*\b(?:request|get|Agent)\b[^}]*\} from "node:http"|import (?:\* as )?\w+ from "node:http"/.test(text);
    });
    expect(files.length).toBeGreaterThan(100);
    expect(withHttp).toEqual([]);
  });
});
