import { hostname } from "node:os";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { document } from "../../server/documents.ts";
import { addressesOf, ownNames, readHost } from "../../server/names.ts";
import { start } from "../../server/start.ts";
import { cookieFor, isSame, isSoundToken, makeToken } from "../../server/token.ts";
import { Wrongs } from "../../server/wrongs.ts";
import { serveApp } from "./served.ts";
import type { Served } from "./served.ts";

const TOKEN = "a-token-for-the-test";
let served: Served;
beforeAll(async () => { served = await serveApp({ token: TOKEN, page: new Map([["/", document("<!doctype html>the page", "text/html; charset=utf-8")]]) }); });
afterAll(() => served.close());

const LIST = "/api/v1/scenarios";
const get = (path: string, headers: Record<string, string> = {}, server = served) => fetch(server.url + path, { headers, redirect: "manual" });
const enter = (token: string, server = served) =>
  fetch(`${server.url}/enter`, { method: "POST", body: new URLSearchParams({ token }), redirect: "manual", headers: { Accept: "text/html" } });

describe("the door for other machines", () => {
  it("keeps everything shut but the signs of life to whoever shows no token or a wrong one", async () => {
    for (const path of ["/", LIST, "/api/v1/rehearsals/x", "/api/v1/schemas/scenario", "/assets/x.js", "/nothing", "/enter/", "/LIVEZ"]) {
      const answer = await get(path);
      expect([answer.status, answer.headers.get("WWW-Authenticate")], path).toEqual([401, "Bearer"]);
      expect(await answer.json()).toMatchObject({ status: 401 });
    }
    for (const line of ["Bearer", "Bearer ", `Basic ${TOKEN}`, TOKEN, `Bearer ${TOKEN}x`, `Bearer ${TOKEN.slice(1)}`]) {
      expect((await get(LIST, { Authorization: line })).status, line).toBe(401);
    }
    for (const cookie of ["clampside=", `clampside=${TOKEN}`, `other=${cookieFor(TOKEN)}`]) expect((await get(LIST, { Cookie: cookie })).status, cookie).toBe(401);
    for (const method of ["POST", "PUT", "DELETE", "OPTIONS"]) expect((await fetch(served.url + LIST, { method })).status, method).toBe(401);
    for (const path of ["/livez", "/readyz"]) expect((await get(path)).status).toBe(200);
  });

  it("opens to a program that shows the token", async () => {
    expect((await get(LIST, { Authorization: `Bearer ${TOKEN}` })).status).toBe(200);
  });

  it("asks a browser for the token on a page, and lets it in with a cookie that no script reads and that does not tell the token", async () => {
    const asked = await get("/", { Accept: "text/html,*/*" });
    expect([asked.status, asked.headers.get("Content-Type")]).toEqual([401, "text/html; charset=utf-8"]);
    const page = await asked.text();
    expect(page).toContain("<form method=\"post\" action=\"/enter\">");
    expect(page).not.toContain("<script");

    for (const answer of [await enter(TOKEN), await get(`/enter?token=${TOKEN}`)]) {
      expect([answer.status, answer.headers.get("Location")]).toEqual([303, "/"]);
      const line = answer.headers.get("Set-Cookie") ?? "";
      expect(line).toMatch(/^clampside=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict; Max-Age=\d+$/);
      expect(line).not.toContain(TOKEN);
      const cookie = line.split(";")[0] ?? "";
      expect((await get(LIST, { Cookie: `a=b; ${cookie}` })).status).toBe(200);
      expect(await (await get("/", { Cookie: cookie })).text()).toBe("<!doctype html>the page");
    }
    const wrong = await enter("not the token");
    expect([wrong.status, wrong.headers.has("Set-Cookie")]).toEqual([401, false]);
    expect(await wrong.text()).toContain("That was not the token.");
  });

  it("does not even compare for a while after many wrong tokens, and says how long", async () => {
    const wary = await serveApp({ token: TOKEN, limits: { wrongTokens: 3 } });
    for (let i = 0; i < 3; i += 1) expect((await get(LIST, { Authorization: "Bearer wrong" }, wary)).status).toBe(401);
    for (const answer of [await get(LIST, { Authorization: `Bearer ${TOKEN}` }, wary), await enter(TOKEN, wary)]) {
      expect(answer.status).toBe(429);
      expect(Number(answer.headers.get("Retry-After"))).toBeGreaterThan(0);
    }
    // Whoever was let in before is not shut out by another's guesses.
    expect((await get(LIST, { Cookie: `clampside=${cookieFor(TOKEN)}` }, wary)).status).toBe(200);
    await wary.close();
  });

  it("takes no large form", async () => {
    expect((await enter("x".repeat(2_000))).status).toBe(413);
  });

  it("is there whenever the server can be reached by others", async () => {
    await expect(start({ host: "0.0.0.0", port: 0, instead: false, token: null, folder: "/nowhere", report: () => {} })).rejects.toThrow(/needs a token/);
  });
});

describe("tokens", () => {
  it("are made of 128 bits of chance, each another", () => {
    const tokens = Array.from({ length: 100 }, makeToken);
    expect(new Set(tokens).size).toBe(100);
    for (const token of tokens) expect([token.length, isSoundToken(token)]).toEqual([22, true]);
  });

  it("of one's own are long and plain", () => {
    for (const token of ["", "short", "x".repeat(15), "a blank in between it", "semicolon;semicolon;", "ümlautümlautümlaut"]) expect(isSoundToken(token), token).toBe(false);
    expect(isSoundToken("x".repeat(16))).toBe(true);
  });

  it("are compared whole, whatever their length", () => {
    expect(isSame("one", "one")).toBe(true);
    for (const other of ["", "o", "onf", "one ", "One", "one".repeat(1_000)]) expect(isSame("one", other), other).toBe(false);
  });

  it("that are wrong are counted by address, for a time, and no address is remembered for ever", () => {
    const wrongs = new Wrongs(2, 1_000);
    wrongs.add("a", 0);
    expect(wrongs.waitOf("a", 1)).toBe(0);
    wrongs.add("a", 10);
    expect([wrongs.waitOf("a", 100), wrongs.waitOf("b", 100), wrongs.waitOf("a", 1_000)]).toEqual([900, 0, 0]);
    wrongs.add("a", 1_001);
    expect(wrongs.waitOf("a", 1_002)).toBe(0);
    wrongs.add("a", 1_003);
    for (let i = 0; i < 10_000; i += 1) wrongs.add(`c${i}`, 1_004);
    expect(wrongs.waitOf("a", 1_005)).toBe(0);
  });
});

describe("names", () => {
  it("are read from a Host line, and from nothing that is none", () => {
    expect(readHost("Farm.local:80")).toEqual({ name: "farm.local", port: "80" });
    expect(readHost("[FE80::1]:4717")).toEqual({ name: "fe80::1", port: "4717" });
    expect(readHost("127.0.0.1")).toEqual({ name: "127.0.0.1", port: "" });
    for (const line of [undefined, "", ":80", "a:", "a:b", "a:123456", "a@b", "a/b", "[::1", "::1", "a b"]) expect(readHost(line), line).toBeNull();
  });

  it("are this machine's alone where it listens to itself, and its addresses and its own name where others may ask", () => {
    const alone = ownNames("127.0.0.1");
    expect([alone("localhost"), alone("::1"), alone(hostname().toLowerCase()), alone("192.0.2.7")]).toEqual([true, true, false, false]);
    const one = ownNames("192.0.2.7");
    expect([one("192.0.2.7"), one("192.0.2.8"), one(hostname().toLowerCase()), one("farm.example")]).toEqual([true, false, true, false]);
    const all = ownNames("0.0.0.0");
    for (const address of addressesOf("0.0.0.0")) expect(all(address)).toBe(true);
    expect([all("0.0.0.0"), all("192.0.2.7")]).toEqual([false, false]);
  });

  it("of every interface are told where it listens on all, the shorter kind first, and none of the machine's own kind", () => {
    const each = (address: string, family: "IPv4" | "IPv6", internal = false, scopeid = 0) => ({ address, family, internal, scopeid, netmask: "", mac: "", cidr: null }) as never;
    const interfaces = { lo: [each("127.0.0.1", "IPv4", true)], w: [each("2001:db8::7", "IPv6"), each("192.0.2.7", "IPv4"), each("fe80::7", "IPv6", false, 2)] };
    expect(addressesOf("0.0.0.0", interfaces)).toEqual(["192.0.2.7", "2001:db8::7"]);
    expect(addressesOf("127.0.0.1", interfaces)).toEqual([]);
    expect(addressesOf("192.0.2.7", interfaces)).toEqual(["192.0.2.7"]);
  });
});
