/** Requests as nobody with good intentions sends them, to the letter: each is refused in words or by hanging up, none is a failure, and the server lives on. */
import { connect } from "node:net";
import { gzipSync } from "node:zlib";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { document } from "../../server/documents.ts";
import { meadow } from "./meadow.ts";
import { serveApp } from "./served.ts";
import type { Served } from "./served.ts";

let served: Served;
beforeAll(async () => {
  served = await serveApp({ page: new Map([["/", document("<!doctype html>", "text/html; charset=utf-8")]]), limits: { perMinute: 1_000_000, headersMs: 2_000, requestMs: 3_000 } });
});
afterAll(() => served.close());
afterEach(async () => {
  expect((await fetch(`${served.url}/livez`)).status).toBe(200);
  expect(served.reports).toEqual([]);
});

/** Statuses of all answers to the bytes, in order; none when the server hung up without a word. */
function answersTo(bytes: string | Buffer): Promise<number[]> {
  return new Promise((resolve, reject) => {
    let text = "";
    const socket = connect(served.port, "127.0.0.1", () => { socket.write(bytes); });
    // Whoever keeps the line open is cut off by the server's own limits of time; this is a much longer one.
    const patience = setTimeout(() => {
      reject(new Error("The server neither answered nor hung up."));
      socket.destroy();
    }, 40_000);
    socket.setEncoding("latin1").on("data", (part: string) => { text += part; });
    socket.on("error", () => {});
    socket.on("close", () => {
      clearTimeout(patience);
      resolve([...text.matchAll(/HTTP\/1\.1 (\d{3}) /gu)].map(([, status]) => Number(status)));
    });
  });
}

const HOST = "Host: localhost\r\nConnection: close\r\n";
const get = (path: string, headers = "") => `GET ${path} HTTP/1.1\r\n${HOST}${headers}\r\n`;
const sent = (path: string, body: string, headers = "Content-Type: application/json\r\n", method = "POST") => `${method} ${path} HTTP/1.1\r\n${HOST}${headers}Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
const DAYS = "/api/v1/rehearsals";
const good = JSON.stringify({ scenario: meadow });

/** What is sent, and the statuses that would do; an empty list of answers is a line that was cut. */
const CASES: readonly (readonly [name: string, bytes: () => string | Buffer, statuses: readonly number[]])[] = [
  ["nothing that is HTTP", () => "hello\r\n\r\n", [400]],
  ["bytes at random", () => Buffer.from(Array.from({ length: 512 }, (_, i) => (i * 73 + 41) % 256)), [400]],
  ["the greeting of a newer protocol", () => "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", [400]],
  ["the greeting of a secure line", () => Buffer.from("16030100c8010000c40303", "hex"), [400]],
  ["a version that there is not", () => `GET / HTTP/9.9\r\n${HOST}\r\n`, [400]],
  ["a request without a version", () => "GET /\r\n\r\n", [400, 421]],
  ["no host", () => "GET /livez HTTP/1.1\r\nConnection: close\r\n\r\n", [400]],
  ["two hosts", () => "GET /livez HTTP/1.1\r\nHost: localhost\r\nHost: farm.example\r\nConnection: close\r\n\r\n", [200, 400, 421]],
  ["an empty host", () => "GET /livez HTTP/1.1\r\nHost:\r\nConnection: close\r\n\r\n", [400, 421]],
  ["a host with a path in it", () => "GET /livez HTTP/1.1\r\nHost: localhost/../x\r\nConnection: close\r\n\r\n", [400, 421]],
  ["a whole foreign address as the path", () => get("http://farm.example/livez"), [200, 400, 404, 421]],
  ["a star as the path", () => `OPTIONS * HTTP/1.1\r\n${HOST}\r\n`, [204, 400, 404, 405]],
  ["a tunnel", () => `CONNECT farm.example:443 HTTP/1.1\r\n${HOST}\r\n`, [400, 404, 405]],
  ["a trace", () => `TRACE / HTTP/1.1\r\n${HOST}\r\n`, [400, 404, 405]],
  ["a method that nobody knows", () => `HARVEST / HTTP/1.1\r\n${HOST}\r\n`, [400, 405]],
  ["a method in small letters", () => `get / HTTP/1.1\r\n${HOST}\r\n`, [400, 405]],
  ["a path that climbs", () => get("/../../../../etc/passwd"), [400, 404]],
  ["a path that climbs in other letters", () => get("/%2e%2e/%2e%2e/etc/passwd"), [400, 404]],
  ["a path that climbs backwards", () => get("/..\\..\\windows\\win.ini"), [400, 404]],
  ["a path that climbs under the assets", () => get("/assets/..%2f..%2fpackage.json"), [400, 404]],
  ["a path with a broken letter", () => get("/%zz"), [400, 404]],
  ["a path with half a letter", () => get("/%e0%a4%a"), [400, 404]],
  ["a path with an overlong letter", () => get("/%c0%ae%c0%ae/x"), [400, 404]],
  ["a path with a nought in it", () => get("/livez%00.html"), [400, 404]],
  ["a path with a raw nought in it", () => get("/li\0vez"), [400, 404]],
  ["a path without end", () => get(`/${"a".repeat(100_000)}`), [400, 404, 414, 431]],
  ["two strokes before the host", () => get("//farm.example/livez"), [400, 404]],
  ["a header without end", () => get("/livez", `X-Long: ${"a".repeat(100_000)}\r\n`), [400, 431]],
  ["headers without end", () => get("/livez", Array.from({ length: 3_000 }, (_, i) => `X-${i}: ${i}\r\n`).join("")), [200, 400, 431]],
  ["a header with a line break smuggled in", () => get("/livez", "X-A: b\rX-B: c\r\n"), [200, 400]],
  ["a header without a name", () => get("/livez", ": nothing\r\n"), [400]],
  ["a header that goes on in the next line", () => get("/livez", "X-A: b\r\n c\r\n"), [200, 400]],
  ["a cookie without end", () => get("/livez", `Cookie: ${"a=b; ".repeat(2_000)}\r\n`), [200, 400, 431]],
  ["a token of every letter", () => get("/livez", "Authorization: Bearer \x80\xff\x01\r\n"), [200, 400]],
  ["a length and a cutting into pieces at once", () => `POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nContent-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET /livez HTTP/1.1\r\n\r\n`, [400]],
  ["two lengths", () => `POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nContent-Length: 2\r\nContent-Length: 3\r\n\r\n{}x`, [400]],
  ["a length below nothing", () => `POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nContent-Length: -1\r\n\r\n{}`, [400]],
  ["a length that no number holds", () => `POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nContent-Length: 99999999999999999999\r\n\r\n{}`, [400, 413]],
  ["a head that never ends", () => "GET /livez HTTP/1.1\r\nHost: localhost\r\n", [408]],
  ["a length far beyond what comes", () => `POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nContent-Length: 900000\r\n\r\n{`, [400, 408]],
  ["a length far beyond what is taken", () => `POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nContent-Length: 900000000\r\n\r\n{`, [413]],
  ["pieces of a size that is none", () => `POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n{}\r\n0\r\n\r\n`, [400]],
  ["pieces without end", () => `POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n${`1000\r\n${" ".repeat(4096)}\r\n`.repeat(300)}`, [400, 408, 413]],
  ["a coding that nobody knows", () => sent(DAYS, good, "Content-Type: application/json\r\nContent-Encoding: harvest\r\n"), [415]],
  ["a body that unpacks to far more", () => {
    const body = gzipSync(Buffer.alloc(20_000_000, 32));
    return Buffer.concat([Buffer.from(`POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nContent-Encoding: gzip\r\nContent-Length: ${body.length}\r\n\r\n`), body]);
  }, [400, 413, 415]],
  ["a body whose packing is broken", () => sent(DAYS, "not packed", "Content-Type: application/json\r\nContent-Encoding: gzip\r\n"), [400, 415]],
  ["a body in letters that nobody knows", () => sent(DAYS, good, "Content-Type: application/json; charset=harvest\r\n"), [200, 415]],
  ["a body of bytes that are no letters", () => Buffer.concat([Buffer.from(`POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nContent-Length: 6\r\n\r\n`), Buffer.from([0x22, 0xff, 0xfe, 0xc0, 0x80, 0x22])]), [400, 422]],
  ["a body without a type", () => sent(DAYS, good, ""), [415]],
  ["a form", () => sent(DAYS, "scenario=1", "Content-Type: application/x-www-form-urlencoded\r\n"), [415]],
  ["a body to what takes none", () => sent("/livez", "{}", "Content-Type: application/json\r\n", "GET"), [200, 400]],
  ["more rehearsals than anybody waits for", () => sent(DAYS, JSON.stringify({ scenario: meadow, rehearsals: 1e9 })), [422]],
  ["fewer rehearsals than none", () => sent(DAYS, JSON.stringify({ scenario: meadow, rehearsals: -1 })), [422]],
  ["a seed that is no number", () => sent(DAYS, JSON.stringify({ scenario: meadow, seed: "NaN" })), [422]],
  ["the same key many times", () => sent(DAYS, `{${"\"scenario\":{},".repeat(1_000)}"rehearsals":1}`), [400, 422]],
  ["lists in lists without end", () => sent(DAYS, `{"scenario":${"[".repeat(50_000)}${"]".repeat(50_000)}}`), [400, 413, 422]],
  ["a study of no kind", () => sent("/api/v1/studies", "{\"kind\":\"constructor\",\"scenario\":{}}"), [422]],
  ["an id that climbs", () => get("/api/v1/scenarios/..%2f..%2fpackage"), [400, 404]],
  ["an id without end", () => get(`/api/v1/scenarios/${"a".repeat(10_000)}`), [400, 404, 414]],
  ["an id of the language's own", () => get("/api/v1/scenarios/__proto__"), [400, 404]],
  ["a number that goes on after an event that never was", () => get("/api/v1/studies/none/events", "Last-Event-ID: 99999999999999999999\r\n"), [404]],
  ["a part of the page that ends before it begins", () => get("/", "Range: bytes=9-1\r\n"), [200, 206, 416]],
  ["a wish for a type that nobody makes", () => get("/api/v1/scenarios", "Accept: application/x-nothing;q=2,,;;\r\n"), [200, 406]],
  ["a change to what was never read", () => sent("/api/v1/scenarios/mine", good, "Content-Type: application/json\r\nIf-Match: \"x\", W/\"y\", *\r\n", "PUT"), [400, 404, 412, 422, 428]],
  ["a change of protocol", () => get("/livez", "Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Key: eA==\r\n"), [200, 400]],
  ["a wish to be told to go on", () => `POST ${DAYS} HTTP/1.1\r\n${HOST}Content-Type: application/json\r\nExpect: something\r\nContent-Length: 2\r\n\r\n{}`, [417, 422]],
];

describe("a hostile request", () => {
  it.each(CASES)("is refused or harmless: %s", async (_, bytes, statuses) => {
    const answers = await answersTo(bytes());
    for (const status of answers) expect([...statuses, 100]).toContain(status);
  });

  it("does not slip in behind another: of many on one line each is answered for itself", async () => {
    const one = "GET /livez HTTP/1.1\r\nHost: localhost\r\n\r\n";
    const foreign = "GET /livez HTTP/1.1\r\nHost: farm.example\r\n\r\n";
    const answers = await answersTo(one + foreign + one + get("/livez"));
    expect(answers).toEqual([200, 421, 200, 200]);
  });

  it("counts sixty kinds and more", () => {
    expect(new Set(CASES.map(([name]) => name)).size).toBeGreaterThanOrEqual(60);
  });
});
