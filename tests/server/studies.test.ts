import { request as plainRequest } from "node:http";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { checkScenario } from "../../sim/scenario/read.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { compare } from "../../sim/study/compare.ts";
import { carryOut } from "../../sim/study/work.ts";
import { KINDS } from "../../server/studies/kinds.ts";
import type { StudyRunner } from "../../server/studies/runner.ts";
import { endlessMeadow, meadow } from "./meadow.ts";
import { serveApp } from "./served.ts";
import type { Served } from "./served.ts";
import { newFolder, removeFolders } from "../temporary.ts";

let served: Served;
beforeAll(async () => { served = await serveApp(); });
afterAll(async () => {
  await served.close();
  removeFolders();
});

interface Told { readonly id: string; readonly kind: string; readonly state: string; readonly result?: unknown; readonly because?: string; readonly progress?: { done: number; expected: number }; readonly events: string; readonly soFar?: unknown }
interface Heard { readonly id: string; readonly event: string; readonly data: Record<string, unknown> }

const small = { ...meadow, fields: [{ ...meadow.fields[0], area: "1 ha" }] };
const fewer = { ...small, name: "Fewer trucks", trucks: [{ ...meadow.trucks[0], count: 1 }] };
const plans = { kind: "compare", scenarios: [small, fewer], rehearsals: 4 };

const ask = (body: unknown, url = served.url) => fetch(`${url}/api/v1/studies`, { method: "POST", body: JSON.stringify(body), headers: { "Content-Type": "application/json" } });
const look = async (answer: Response, url = served.url) => (await (await fetch(url + (answer.headers.get("Location") ?? ""))).json()) as Told;
const places = async (answer: Response) => {
  expect(answer.status).toBe(422);
  return ((await answer.json()) as { errors: { pointer: string; detail: string }[] }).errors.map(({ pointer }) => pointer);
};

/** Listens until the line ends, or until so many events were heard. */
function listen(url: string, path: string, { lastHeard, most = Infinity }: { lastHeard?: string; most?: number } = {}): Promise<{ status: number; type: string; caching: string; heard: Heard[] }> {
  return new Promise((resolve, reject) => {
    const sent = plainRequest(url + path, { headers: { "Accept-Encoding": "gzip", ...(lastHeard === undefined ? {} : { "Last-Event-ID": lastHeard }) } }, (response) => {
      let text = "";
      const heard: Heard[] = [];
      const done = () => resolve({ status: response.statusCode ?? 0, type: String(response.headers["content-type"]), caching: String(response.headers["cache-control"]), heard });
      response.setEncoding("utf8").on("data", (part: string) => {
        text += part;
        for (let end = text.indexOf("\n\n"); end >= 0; end = text.indexOf("\n\n")) {
          const [, id = "", event = "", data = ""] = /^id: (.*)\nevent: (.*)\ndata: (.*)$/.exec(text.slice(0, end)) ?? [];
          text = text.slice(end + 2);
          if (event !== "") heard.push({ id, event, data: JSON.parse(data) as Record<string, unknown> });
          if (heard.length >= most) {
            response.destroy();
            return done();
          }
        }
      });
      response.on("end", done);
    });
    sent.on("error", reject);
    sent.end();
  });
}

/** Listens until the study is over. */
const untilOver = (answer: Response, url = served.url) => listen(url, `${answer.headers.get("Location")}/events`);

/** A runner whose studies go on and end when the test says so. */
function heldStudies() {
  const begun: { question: unknown; signal: AbortSignal; progress: (done: number, soFar?: string) => void; finish: (result: string) => void; fail: (error: unknown) => void }[] = [];
  const waiters: (() => void)[] = [];
  const studies: StudyRunner = {
    run: (question, onProgress, signal) => new Promise((resolve, reject) => {
      signal.addEventListener("abort", () => reject(signal.reason));
      begun.push({ question, signal, progress: (done, soFar) => onProgress({ done, expected: 100, ...(soFar === undefined ? {} : { soFar }) }), finish: resolve, fail: reject });
      waiters.splice(0).forEach((wake) => wake());
    }),
  };
  const begins = async (count: number) => {
    while (begun.length < count) await new Promise<void>((resolve) => waiters.push(resolve));
    return begun[count - 1]!;
  };
  return { studies, begun, begins };
}
function checked(written: object): Scenario {
  const found = checkScenario(written);
  if ("problems" in found) throw new Error(found.problems[0]?.detail);
  return found.scenario;
}
/** A result that the document describes, for runners that work nothing out. */
const result = JSON.stringify(carryOut(compare([small, fewer].map(checked), { rehearsals: 2 })));

describe("a study that is asked", () => {
  it("is taken on, told of while it goes on, and has the result that the engine gives", async () => {
    const taken = await ask(plans);
    expect(taken.status).toBe(202);
    const { id, kind, events } = (await taken.json()) as Told;
    expect([taken.headers.get("Location"), kind, events]).toEqual([`/api/v1/studies/${id}`, "compare", `/api/v1/studies/${id}/events`]);
    const { heard, status, type, caching } = await untilOver(taken);
    expect([status, type, caching]).toEqual([200, "text/event-stream", "no-store, no-transform"]);
    expect(heard.at(-1)).toEqual({ id: "end", event: "done", data: { state: "done", study: `/api/v1/studies/${id}` } });
    const { state, result: found } = await look(taken);
    expect(state).toBe("done");
    expect(found).toEqual(JSON.parse(JSON.stringify(carryOut(compare([small, fewer].map(checked), { rehearsals: 4 })))));
  });

  it("can be of each kind, and comes out as the document describes it", async () => {
    const search = { trucks: { from: 1, to: 2 }, rules: ["hold", "bury"] };
    const asked: Record<(typeof KINDS)[number], object> = {
      compare: { ...plans, seed: 5 }, fixes: { scenario: small, rehearsals: 2 }, crewup: { scenario: { ...small, variation: "none", search }, sure: 0.8 }, multiples: { scenario: small, from: 1, to: 3, rehearsals: 2 },
      quote: { scenario: small, rehearsals: 4 }, sensitivity: { scenario: { ...small, variation: "none" } }, precision: { scenario: small, within: 0.2, most: 40 },
      tickets: { scenario: small, rehearsals: 2, csv: "Time,Truck,Net kg\n07:12,A,15980\n07:31,B,15420\n08:10,A,16050\n" },
      campaign: { scenarios: [{ ...small, campaign: { starts: "2026-09-14", measured: "2026-09-12", rain: "20 %", days: 9 } }, fewer], campaigns: 2 },
    };
    for (const kind of KINDS) {
      const taken = await ask({ kind, ...asked[kind] });
      expect(taken.status, kind).toBe(202);
      await untilOver(taken);
      const told = await look(taken);
      expect([told.kind, told.state, told.because], kind).toEqual([kind, "done", undefined]);
    }
    expect(served.reports).toEqual([]);
  });

  it("is carried out once for all who ask the same, has the same bytes and tag each time, and is there after a restart", async () => {
    const folder = newFolder();
    const first = await serveApp({ folder });
    const taken = await ask(plans, first.url);
    await untilOver(taken, first.url);
    const address = taken.headers.get("Location") ?? "";
    const done = await ask({ ...plans, scenarios: [{ ...small }, fewer] }, first.url);
    expect([done.status, done.headers.get("Location")]).toEqual([200, address]);
    const text = await done.text();
    const tag = done.headers.get("ETag") ?? "";
    const known = await fetch(first.url + address, { headers: { "If-None-Match": tag } });
    expect(known.status).toBe(304);
    await first.close();

    const second = await serveApp({ folder });
    const again = await fetch(second.url + address);
    expect([await again.text(), again.headers.get("ETag")]).toEqual([text, tag]);
    expect((await ask(plans, second.url)).status).toBe(200);
    expect((await listen(second.url, `${address}/events`)).heard.map(({ id, event }) => [id, event])).toEqual([["end", "done"]]);
    expect((await fetch(second.url + address, { method: "DELETE" })).status).toBe(204);
    expect((await fetch(second.url + address)).status).toBe(404);
    await second.close();
    const third = await serveApp({ folder });
    expect((await fetch(third.url + address)).status).toBe(404);
    await third.close();
  });

  it("has another id for another seed, number, order or kind", async () => {
    const held = heldStudies();
    const app = await serveApp({ studies: held.studies });
    const questions = [plans, { ...plans, seed: 9 }, { ...plans, rehearsals: 5 }, { ...plans, scenarios: [fewer, small] }, { kind: "fixes", scenario: small }, { kind: "quote", scenario: small }];
    const ids = await Promise.all(questions.map(async (question) => ((await (await ask(question, app.url)).json()) as Told).id));
    expect(new Set(ids).size).toBe(questions.length);
    await app.close();
  });
});

describe("a study that goes on", () => {
  it("tells its progress and what can be shown already at once, though the client takes compressed answers, and goes on where a listener left off", async () => {
    const held = heldStudies();
    const app = await serveApp({ studies: held.studies });
    const taken = await ask(plans, app.url);
    const path = `${taken.headers.get("Location")}/events`;
    const run = await held.begins(1);
    run.progress(10);
    const first = await listen(app.url, path, { most: 2 });
    expect(first.heard.map(({ event, data }) => [event, data])).toEqual([["state", { state: "running" }], ["progress", { done: 10, expected: 100 }]]);
    run.progress(20);
    run.progress(30);
    // Only the newest word on progress is of use to whoever comes back.
    const second = await listen(app.url, path, { lastHeard: first.heard.at(-1)!.id, most: 1 });
    expect(second.heard.map(({ event, data }) => [event, data])).toEqual([["progress", { done: 30, expected: 100 }]]);
    expect((await look(taken, app.url)).progress).toEqual({ done: 30, expected: 100 });
    const rest = listen(app.url, path, { lastHeard: second.heard[0]!.id });
    await fetch(`${app.url}/livez`);
    run.progress(40);
    run.finish(result);
    expect((await rest).heard.map(({ event }) => event).slice(-1)).toEqual(["done"]);
    expect((await rest).heard.map(({ event }) => event)).not.toContain("state");
    const over = await listen(app.url, path, { lastHeard: "end" });
    expect([over.status, over.heard]).toEqual([204, []]);
    for (const strange of ["", "-1", "x", "9".repeat(30)]) expect((await listen(app.url, path, { lastHeard: strange })).heard.at(-1)?.event, strange).toBe("done");
    await app.close();
  });

  it("is cancelled when told so, at once and for all who listen; the next in line takes its turn", async () => {
    const held = heldStudies();
    const app = await serveApp({ studies: held.studies });
    const first = await ask(plans, app.url);
    const run = await held.begins(1);
    const next = await ask({ ...plans, seed: 2 }, app.url);
    const waiting = await ask({ ...plans, seed: 3 }, app.url);
    expect((await look(next, app.url)).state).toBe("waiting");
    const listener = untilOver(first, app.url);
    await fetch(`${app.url}/livez`);
    const cancel = (answer: Response) => fetch(app.url + answer.headers.get("Location"), { method: "DELETE" });
    expect((await cancel(first)).status).toBe(204);
    expect(run.signal.aborted).toBe(true);
    expect((await look(first, app.url)).state).toBe("cancelled");
    expect((await listener).heard.at(-1)).toMatchObject({ event: "cancelled", id: "end" });
    // One that only waits leaves the line.
    expect((await cancel(waiting)).status).toBe(204);
    (await held.begins(2)).finish(result);
    await untilOver(next, app.url);
    expect(held.begun.length).toBe(2);
    // Asked again, it begins anew; taken away when it is over, it is forgotten.
    expect((await ask(plans, app.url)).status).toBe(202);
    await held.begins(3);
    await cancel(first);
    expect((await cancel(first)).status).toBe(204);
    expect((await cancel(first)).status).toBe(404);
    expect(app.reports).toEqual([]);
    await app.close();
  });

  it("is told to come back when too many wait, and its listeners when too many listen", async () => {
    const held = heldStudies();
    const app = await serveApp({ studies: held.studies, limits: { studiesWaiting: 1, listeners: 1 } });
    const first = await ask(plans, app.url);
    await held.begins(1);
    const second = await ask({ ...plans, seed: 2 }, app.url);
    const third = await ask({ ...plans, seed: 3 }, app.url);
    expect([second.status, third.status, third.headers.get("Retry-After")]).toEqual([202, 503, "10"]);
    expect((await ask(plans, app.url)).status).toBe(202);
    const path = `${first.headers.get("Location")}/events`;
    const listener = listen(app.url, path);
    await fetch(`${app.url}/livez`);
    expect((await fetch(app.url + path)).status).toBe(503);
    held.begun[0]?.finish(result);
    await listener;
    expect((await fetch(app.url + path)).status).toBe(200);
    await app.close();
  });

  it("is stopped when it takes too long, and says what would help", async () => {
    const held = heldStudies();
    const app = await serveApp({ studies: held.studies, limits: { studyMs: 5 } });
    const taken = await ask(plans, app.url);
    expect((await untilOver(taken, app.url)).heard.at(-1)?.event).toBe("failed");
    const { state, because } = await look(taken, app.url);
    expect([state, because]).toEqual(["failed", expect.stringMatching(/stopped.*not done after 0\.005 seconds\. Fewer/)]);
    await app.close();
  });

  it("that fails tells nothing of the inside, and reports it to the server's own side", async () => {
    const held = heldStudies();
    const app = await serveApp({ studies: held.studies });
    const taken = await ask(plans, app.url);
    (await held.begins(1)).fail(new Error("secret at /somewhere/engine.js:1"));
    await untilOver(taken, app.url);
    const told = await look(taken, app.url);
    expect(told.state).toBe("failed");
    expect(JSON.stringify(told)).not.toMatch(/secret|engine\.js/);
    expect(app.reports.map(String)).toEqual(["Error: secret at /somewhere/engine.js:1"]);
    await app.close();
  });

  it("says in the engine's words why a plan has no end", async () => {
    const taken = await ask({ kind: "quote", scenario: { ...endlessMeadow, fields: small.fields } });
    await untilOver(taken);
    expect((await look(taken)).because).toMatch(/does not end/);
    expect(served.reports).toEqual([]);
  });

  it("leaves few of those that are over at hand", async () => {
    const held = heldStudies();
    const app = await serveApp({ studies: held.studies, limits: { studiesKept: 1, answerBytes: 0 } });
    const first = await ask(plans, app.url);
    (await held.begins(1)).finish(result);
    await untilOver(first, app.url);
    await app.write();
    await ask({ ...plans, seed: 2 }, app.url);
    expect((await fetch(app.url + first.headers.get("Location"))).status).toBe(404);
    await app.close();
  });
});

describe("a study refused", () => {
  it("names each place that is wrong, in the body", async () => {
    expect(await places(await ask([]))).toEqual(["/kind"]);
    for (const kind of [undefined, 3, "toString", "__proto__", "weather", "Compare"]) expect(await places(await ask({ ...plans, kind })), String(kind)).toEqual(["/kind"]);
    const cases: [object, string[]][] = [
      [{ kind: "compare" }, ["/scenarios"]], [{ ...plans, scenarios: [small] }, ["/scenarios"]], [{ ...plans, scenarios: Array(7).fill(small) }, ["/scenarios"]], [{ ...plans, scenarios: "x" }, ["/scenarios"]],
      [{ ...plans, scenarios: [small, { ...small, fields: [{ ...small.fields[0], area: 8 }] }] }, ["/scenarios/1/fields/0/area"]],
      [{ ...plans, rehearsals: 0, seed: -1 }, ["/rehearsals", "/seed"]], [{ ...plans, rehearsals: 1.5 }, ["/rehearsals"]], [{ ...plans, "re/dy~": 1 }, ["/re~1dy~0"]],
      [{ kind: "fixes", scenario: small, scenarios: [] }, ["/scenarios"]], [{ kind: "fixes", scenario: 4 }, ["/scenario"]],
      [{ kind: "crewup", scenario: small }, ["/scenario"]], [{ kind: "crewup", scenario: { ...small, search: { trucks: { from: 1, to: 2 } } }, sure: 1 }, ["/sure"]],
      [{ kind: "multiples", scenario: small, from: 5, to: 4 }, ["/to"]], [{ kind: "multiples", scenario: small, from: 1, to: 13 }, ["/to"]], [{ kind: "multiples", scenario: small, over: "cows" }, ["/over"]],
      [{ kind: "multiples", scenario: small, from: 0, to: 2 }, ["/from"]], [{ kind: "multiples", scenario: small, over: "tractors", from: 45, to: 51 }, ["/to"]], [{ kind: "precision", scenario: small, within: 0 }, ["/within"]],
    ];
    for (const [body, expected] of cases) expect(await places(await ask(body)), JSON.stringify(body).slice(0, 80)).toEqual(expected);
    expect((await places(await ask({ kind: "fixes" })))[0]).toMatch(/^\/scenario/);
  });

  it("is told the size of a search that is too large, and of a study that is too long", async () => {
    const wide = { ...small, search: { trucks: { from: 1, to: 100 }, tractors: { from: 0, to: 9, list: [{ mass: "14 t", count: 9 }] }, layers: ["10 cm", "12 cm", "15 cm"] } };
    expect(await places(await ask({ kind: "crewup", scenario: wide }))).toEqual(["/scenario/search"]);
    const app = await serveApp({ limits: { studySteps: 100 } });
    const long = await ask({ ...plans, rehearsals: 1_000 }, app.url);
    expect(((await long.json()) as { errors: { detail: string }[] }).errors[0]?.detail).toMatch(/would rehearse about [\d,]+ truck loads/);
    await app.close();
  });

  it("takes JSON only, and no empty, broken or large body", async () => {
    const send = (body: string, type: string) => fetch(`${served.url}/api/v1/studies`, { method: "POST", body, headers: { "Content-Type": type } });
    expect((await send("kind: fixes", "application/yaml")).status).toBe(415);
    expect((await send("", "application/json")).status).toBe(400);
    expect((await send("{", "application/json")).status).toBe(400);
    expect((await send("x".repeat(1_000_001), "application/json")).status).toBe(413);
  });

  it("is not found where none was asked", async () => {
    for (const path of ["/none", "/none/events", "/__proto__"]) expect((await fetch(`${served.url}/api/v1/studies${path}`)).status).toBe(404);
    expect((await fetch(`${served.url}/api/v1/studies/none`, { method: "DELETE" })).status).toBe(404);
    expect((await fetch(`${served.url}/api/v1/studies`)).status).toBe(405);
  });
});
