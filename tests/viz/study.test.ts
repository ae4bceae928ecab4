import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { TooFast, Unsound } from "../../viz/ask.ts";
import { NoResult } from "../../viz/ask.ts";
import { study } from "../../viz/study.ts";

/** The browser's line of events, in the hands of the test. */
class Line extends EventTarget {
  static readonly CLOSED = 2;
  static all: Line[] = [];
  readyState = 1;
  constructor(readonly url: string) {
    super();
    Line.all.push(this);
  }
  close(): void { this.readyState = Line.CLOSED; }
  say(name: string, data: unknown): void { this.dispatchEvent(new MessageEvent(name, { data: JSON.stringify(data) })); }
  fail(): void {
    this.readyState = Line.CLOSED;
    this.dispatchEvent(new Event("error"));
  }
}

const asked = { kind: "quote", scenario: { name: "Small day" } };
const answer = (body: unknown, status = 200, headers: Record<string, string> = {}) => new Response(JSON.stringify(body), { status, headers });
const underWay = { id: "x1", state: "running", events: "/events/x1", progress: { done: 3, expected: 9 } };

let requests: string[];
let answers: Response[];

beforeEach(() => {
  vi.useFakeTimers();
  Line.all = [];
  requests = [];
  answers = [];
  vi.stubGlobal("EventSource", Line);
  vi.stubGlobal("fetch", async (url: string, { method = "GET" }: RequestInit = {}) => {
    requests.push(`${method} ${url}`);
    return answers.shift() ?? answer({});
  });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** The line, once it is asked for. */
async function line(): Promise<Line> {
  await vi.waitUntil(() => Line.all.length > 0);
  return Line.all[0]!;
}

describe("a study that the page asks for", () => {
  it("tells how far it is and what there is already, and gives the result when it is over", async () => {
    answers = [answer(underWay, 202), answer({ ...underWay, state: "done", result: { price: 7 } })];
    const heard: unknown[] = [];
    const result = study(asked, { progress: (...far) => heard.push(far), soFar: (found) => heard.push(found) }, new AbortController().signal);
    const events = await line();
    events.say("progress", { done: 5, expected: 9 });
    events.say("so-far", "something");
    events.say("done", {});
    expect(await result).toEqual({ price: 7 });
    expect(heard).toEqual([[5, 9], "something"]);
    expect(requests).toEqual(["POST /api/v1/studies", "GET /api/v1/studies/x1"]);
    expect(events.url).toBe("/events/x1");
    expect(events.readyState).toBe(Line.CLOSED);
  });

  it("is there at once when the server has it already", async () => {
    answers = [answer({ ...underWay, state: "done", result: 1 })];
    expect(await study(asked, {}, new AbortController().signal)).toBe(1);
    expect(Line.all).toEqual([]);
  });

  it("waits as long as a busy server says and asks again, and gives up in the end", async () => {
    answers = [answer({}, 503, { "Retry-After": "3" }), answer({ ...underWay, state: "done", result: 1 })];
    const waits: number[] = [];
    const result = study(asked, { waits: (seconds) => waits.push(seconds) }, new AbortController().signal);
    await vi.advanceTimersByTimeAsync(2_900);
    expect(requests).toHaveLength(1);
    await vi.advanceTimersByTimeAsync(200);
    expect(await result).toBe(1);
    expect(waits).toEqual([3]);

    answers = Array.from({ length: 20 }, () => answer({}, 429));
    const refused = study(asked, {}, new AbortController().signal).catch((error: unknown) => error);
    await vi.advanceTimersByTimeAsync(60_000);
    expect(await refused).toBeInstanceOf(TooFast);
  });

  it("is looked at now and then when its events cannot be had", async () => {
    answers = [answer(underWay, 202), answer(underWay), answer({ ...underWay, state: "done", result: 2 })];
    const heard: unknown[] = [];
    const result = study(asked, { progress: (...far) => heard.push(far) }, new AbortController().signal);
    (await line()).fail();
    await vi.advanceTimersByTimeAsync(1_100);
    expect(await result).toBe(2);
    expect(heard).toEqual([[3, 9]]);
  });

  it("is cancelled on the server when nobody wants it any more", async () => {
    answers = [answer(underWay, 202)];
    const own = new AbortController();
    const result = study(asked, {}, own.signal).catch((error: unknown) => error);
    const events = await line();
    own.abort(new Error("another question"));
    expect(await result).toEqual(new Error("another question"));
    expect(requests.at(-1)).toBe("DELETE /api/v1/studies/x1");
    expect(events.readyState).toBe(Line.CLOSED);
  });

  it("says in the server's words why there is no result", async () => {
    answers = [answer(underWay, 202), answer({ ...underWay, state: "failed", because: "It took too long." })];
    const result = study(asked, {}, new AbortController().signal).catch((error: unknown) => error);
    (await line()).say("failed", {});
    expect(await result).toEqual(new NoResult("It took too long."));
    answers = [answer({ errors: [{ pointer: "/scenario/search", detail: "The search has 99,999 plans." }] }, 422)];
    const unsound = await study(asked, {}, new AbortController().signal).catch((error: unknown) => error);
    expect((unsound as Unsound).problems).toEqual([{ pointer: "/scenario/search", detail: "The search has 99,999 plans." }]);
  });
});
