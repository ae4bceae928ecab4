import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Findings } from "../../sim/findings/types.ts";
import { ENGINE_VERSION } from "../../sim/version.ts";
import { logOf, perform } from "../../server/job.ts";
import type { Job } from "../../server/job.ts";
import type { Runner } from "../../server/runner.ts";
import { endlessMeadow, meadow, meadowYaml } from "./meadow.ts";
import { bare, post, serveApp } from "./served.ts";
import type { Served } from "./served.ts";

let served: Served;
beforeAll(async () => { served = await serveApp(); });
afterAll(() => served.close());

interface Told { readonly id: string; readonly findings: Findings; readonly rehearsal: number; readonly log: string }
interface Problem { readonly status: number; readonly title: string; readonly detail: string; readonly errors?: { pointer: string; detail: string; line?: number }[] }

const ask = (body: unknown, url = served.url) => post(url, JSON.stringify(body));
const told = async (answer: Response) => (await answer.json()) as Told;
const problem = async (answer: Response) => {
  expect(answer.headers.get("Content-Type")).toBe("application/problem+json");
  return (await answer.json()) as Problem;
};
const day = { scenario: meadow, rehearsals: 3 };

describe("a rehearsal asked for", () => {
  it("is answered at once with its findings, its address and a strong tag", async () => {
    const answer = await ask(day);
    expect(answer.status).toBe(200);
    expect(answer.headers.get("Content-Type")).toBe("application/json");
    const { id, findings, log } = await told(answer);
    expect(answer.headers.get("Location")).toBe(`/api/v1/rehearsals/${id}`);
    expect(answer.headers.get("ETag")).toMatch(/^"[\w-]+"$/);
    expect(log).toBe(`/api/v1/rehearsals/${id}/log`);
    expect(findings).toMatchObject({ scenario: { name: meadow.name }, engine: ENGINE_VERSION, seed: 1, rehearsals: 3 });
    expect(findings.measures.delivered?.unit).toBe("t");
  });

  it("is found again under its address, byte for byte, and not sent to whoever has it", async () => {
    const answer = await ask(day);
    const address = served.url + answer.headers.get("Location");
    const text = await answer.text();
    const again = await fetch(address);
    expect(await again.text()).toBe(text);
    const tag = again.headers.get("ETag") ?? "";
    expect(tag).toBe(answer.headers.get("ETag"));
    const known = await fetch(address, { headers: { "If-None-Match": `"other", ${tag}` } });
    expect([known.status, await known.text(), known.headers.get("ETag")]).toEqual([304, "", tag]);
    expect((await fetch(address, { headers: { "If-None-Match": "\"other\"" } })).status).toBe(200);
    const head = await bare(served.port, new URL(address).pathname, {}, "HEAD");
    expect([head.status, head.headers.etag, head.text]).toEqual([200, tag, ""]);
    expect(Number(head.headers["content-length"])).toBe(Buffer.byteLength(text));
  });

  it("gives its log as JSON lines, the first of which says what it is the log of", async () => {
    const { rehearsal, log } = await told(await ask(day));
    const answer = await fetch(served.url + log);
    expect(answer.headers.get("Content-Type")).toBe("application/x-ndjson; charset=utf-8");
    expect(answer.headers.get("ETag")).toMatch(/^"[\w-]+"$/);
    const lines = (await answer.text()).trimEnd().split("\n").map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(lines[0]).toMatchObject({ engine: ENGINE_VERSION, seed: 1, rehearsal });
    expect(lines.length).toBeGreaterThan(20);
    const known = await fetch(served.url + log, { headers: { "If-None-Match": answer.headers.get("ETag") ?? "" } });
    expect(known.status).toBe(304);
  });

  it("has the same id and bytes from another server, and others for another seed, number or scenario", async () => {
    const other = await serveApp();
    const first = await ask(day);
    const second = await ask(day, other.url);
    expect(second.headers.get("ETag")).toBe(first.headers.get("ETag"));
    expect(await second.text()).toBe(await first.text());
    await other.close();
    const questions = [day, { ...day, seed: 2 }, { ...day, rehearsals: 4 }, { ...day, scenario: { ...meadow, name: "Other meadow" } }];
    const ids = await Promise.all(questions.map(async (question) => (await told(await ask(question))).id));
    expect(new Set(ids).size).toBe(questions.length);
  });

  it("is the same whether the scenario comes as JSON or as the file's own text", async () => {
    const json = await told(await ask({ scenario: meadow, rehearsals: 2, seed: 7 }));
    for (const type of ["application/yaml", "text/yaml; charset=utf-8"]) {
      const yaml = await fetch(`${served.url}/api/v1/rehearsals?rehearsals=2&seed=7`, { method: "POST", body: meadowYaml, headers: { "Content-Type": type } });
      expect(await told(yaml)).toEqual(json);
    }
  });

  it("rehearses a day with luck a hundred times and one without once, where nobody says how often", async () => {
    expect((await told(await ask({ scenario: meadow }))).findings.rehearsals).toBe(100);
    expect((await told(await ask({ scenario: { ...meadow, variation: "none" } }))).findings.rehearsals).toBe(1);
  });

  it("says apart what was written and what a default filled in, also where the checked scenarios are equal", async () => {
    const silent = await told(await ask({ scenario: { ...meadow, seed: undefined }, rehearsals: 1 }));
    const spoken = await told(await ask({ scenario: { ...meadow, seed: silent.findings.seed }, rehearsals: 1 }));
    expect(spoken.findings.defaults.length).toBe(silent.findings.defaults.length - 1);
    expect(spoken.id).not.toBe(silent.id);
  });
});

describe("a rehearsal refused", () => {
  it("names each place of an unsound scenario, and what would be right", async () => {
    const answer = await ask({ scenario: { ...meadow, fields: [{ ...meadow.fields[0], area: 8 }], storage: undefined } });
    expect(answer.status).toBe(422);
    const { title, errors = [] } = await problem(answer);
    expect(title).toBe("Unprocessable Entity");
    expect(errors.map(({ pointer }) => pointer)).toContain("/scenario/fields/0/area");
    expect(errors.length).toBeGreaterThanOrEqual(2);
    for (const { detail } of errors) expect(detail).toMatch(/\w.*\w/);
  });

  it("names the line of an unsound file", async () => {
    const answer = await post(served.url, meadowYaml.replace("area: 8 ha", "area: 8 kg"), "application/yaml");
    expect(answer.status).toBe(422);
    expect((await problem(answer)).errors).toEqual([expect.objectContaining({ pointer: "/fields/0/area", line: 7 })]);
  });

  it("checks how often and which seed, and knows no other key", async () => {
    const cases: [Record<string, unknown>, string][] = [
      [{ rehearsals: 0 }, "/rehearsals"], [{ rehearsals: 1.5 }, "/rehearsals"], [{ rehearsals: "9" }, "/rehearsals"], [{ rehearsals: 10_001 }, "/rehearsals"],
      [{ seed: -1 }, "/seed"], [{ seed: 0.5 }, "/seed"], [{ seed: null }, "/seed"], [{ "re/hear~sals": 3 }, "/re~1hear~0sals"],
    ];
    for (const [more, pointer] of cases) {
      const answer = await ask({ scenario: meadow, ...more });
      expect(answer.status, JSON.stringify(more)).toBe(422);
      expect((await problem(answer)).errors?.map((error) => error.pointer)).toEqual([pointer]);
    }
    for (const query of ["rehearsals=0", "rehearsals=", "rehearsals=many", "seed=-1"]) {
      const answer = await fetch(`${served.url}/api/v1/rehearsals?${query}`, { method: "POST", body: meadowYaml, headers: { "Content-Type": "application/yaml" } });
      expect(answer.status, query).toBe(422);
    }
  });

  it("does not take a body that is no object or has no scenario", async () => {
    for (const body of [[], "text", 3, null, true, {}, { scenario: null }, { scenario: [] }, { scenario: "Strip" }]) {
      const answer = await ask(body);
      expect(answer.status, JSON.stringify(body)).toBe(422);
      expect((await problem(answer)).errors?.length).toBeGreaterThan(0);
    }
  });

  it("calls broken JSON and broken YAML broken, not unsound", async () => {
    for (const body of ["{", "{\"scenario\": }", "nonsense", "{\"scenario\": {}} trailing", "   "]) {
      expect((await post(served.url, body)).status, body).toBe(400);
    }
    const yaml = await post(served.url, "name: [unclosed\nfields: }", "application/yaml");
    expect(yaml.status).toBe(400);
    expect((await problem(yaml)).errors?.[0]?.line).toBeGreaterThan(0);
  });

  it("refuses a body that is too large or too deep, before anything reads it", async () => {
    const large = await post(served.url, JSON.stringify({ scenario: { ...meadow, name: "x".repeat(1_000_001) } }));
    expect(large.status).toBe(413);
    expect((await problem(large)).detail).toContain("1,000,000 bytes");
    expect((await post(served.url, "# " + "x".repeat(1_000_000), "application/yaml")).status).toBe(413);
    const deep = await post(served.url, "[".repeat(400_000) + "]".repeat(400_000));
    expect(deep.status).toBe(400);
    expect((await problem(deep)).detail).toContain("deeper than 24");
    expect((await post(served.url, "[".repeat(90_000) + "]".repeat(90_000), "application/yaml")).status).toBe(400);
  });

  it("takes the types it names and no other, whatever the body", async () => {
    for (const type of ["text/plain", "application/xml", "multipart/form-data; boundary=x", "application/jsonp", "nonsense", null]) {
      const answer = await fetch(`${served.url}/api/v1/rehearsals`, { method: "POST", body: Buffer.from(JSON.stringify(day)), headers: type === null ? {} : { "Content-Type": type } });
      expect(answer.status, String(type)).toBe(415);
      expect(answer.headers.get("Accept-Post")).toBe("application/json, application/yaml");
      expect((await problem(answer)).detail).toContain("application/yaml");
    }
    expect((await post(served.url, "", "application/json")).status).toBe(400);
  });

  it("takes no compressed body and no other letters than UTF-8, and says so in its own words", async () => {
    for (const headers of [{ "Content-Encoding": "gzip" }, { "Content-Encoding": "zstd" }, { "Content-Type": "application/json; charset=x-none" }]) {
      const answer = await post(served.url, JSON.stringify(day), null, { headers: { "Content-Type": "application/json", ...headers } as Record<string, string> });
      expect(answer.status, JSON.stringify(headers)).toBe(415);
      expect((await problem(answer)).detail).toBe("Send the body as plain UTF-8, not compressed.");
    }
  });

  it("says so when a sound scenario has a day without an end, and what would end it", async () => {
    const answer = await ask({ scenario: endlessMeadow });
    expect(answer.status).toBe(422);
    expect((await problem(answer)).detail).toMatch(/does not end.*More packing tractors/);
    expect(served.reports).toEqual([]);
  });

  it("bounds the work of one day and of all rehearsals together, and says how many would do", async () => {
    const small = await serveApp({ limits: { steps: 500, stepsPerDay: 400 } });
    const tooMany = await ask({ scenario: meadow, rehearsals: 1_000 }, small.url);
    expect(tooMany.status).toBe(422);
    const [error] = (await problem(tooMany)).errors ?? [];
    expect(error?.pointer).toBe("/rehearsals");
    const would = Number(/up to ([\d,]+) would do/.exec(error?.detail ?? "")?.[1]);
    expect((await ask({ scenario: meadow, rehearsals: would }, small.url)).status).toBe(200);
    expect((await ask({ scenario: meadow, rehearsals: would + 1 }, small.url)).status).toBe(422);
    const tooLong = await ask({ scenario: { ...meadow, fields: [{ ...meadow.fields[0], area: "900 ha" }] }, rehearsals: 1 }, small.url);
    expect(tooLong.status).toBe(422);
    expect((await problem(tooLong)).errors?.[0]?.pointer).toBe("/scenario");
    await small.close();
  });
});

/** A runner whose jobs end when the test says so. */
function heldRunner() {
  const begun: { job: Job; finish: () => void; fail: (error: unknown) => void }[] = [];
  const waiters: (() => void)[] = [];
  const runner: Runner = {
    atOnce: 1,
    run: (job, signal) => new Promise((resolve, reject) => {
      signal.addEventListener("abort", () => reject(new Error("the thread was ended")));
      begun.push({ job, finish: () => resolve(perform(job)), fail: reject });
      waiters.splice(0).forEach((wake) => wake());
    }),
    log: async (shown) => logOf(shown),
    close: async () => {},
  };
  /** Resolves when that many jobs have begun. */
  const begins = async (count: number) => {
    while (begun.length < count) await new Promise<void>((resolve) => waiters.push(resolve));
    return begun[count - 1]!;
  };
  return { runner, begun, begins };
}

describe("a rehearsal among many", () => {
  it("is told to come back when too many wait, with the time to wait", async () => {
    const held = heldRunner();
    const busy = await serveApp({ runner: held.runner, limits: { waiting: 0 } });
    const first = ask({ ...day, seed: 1 }, busy.url);
    await held.begins(1);
    const refused = await ask({ ...day, seed: 2 }, busy.url);
    expect([refused.status, refused.headers.get("Retry-After")]).toEqual([503, "1"]);
    await problem(refused);
    held.begun[0]?.finish();
    expect((await first).status).toBe(200);
    await busy.close();
  });

  it("is dropped from the line when its client hangs up, so that only the last of a burst is computed", async () => {
    const held = heldRunner();
    const other = await serveApp({ runner: held.runner });
    const first = ask({ ...day, seed: 1 }, other.url);
    await held.begins(1);
    const hangUp = new AbortController();
    const dropped = post(other.url, JSON.stringify({ ...day, seed: 2 }), "application/json", { signal: hangUp.signal }).catch((error: unknown) => error);
    await fetch(`${other.url}/livez`);
    hangUp.abort();
    await dropped;
    const last = ask({ ...day, seed: 3 }, other.url);
    await fetch(`${other.url}/livez`);
    held.begun[0]?.finish();
    expect((await first).status).toBe(200);
    (await held.begins(2)).finish();
    expect((await told(await last)).findings.seed).toBe(3);
    expect(held.begun.map(({ job }) => job.seed)).toEqual([1, 3]);
    expect(other.reports).toEqual([]);
    await other.close();
  });

  it("is stopped when it takes too long, with a sentence that says what would help", async () => {
    const held = heldRunner();
    const slow = await serveApp({ runner: held.runner, limits: { runMs: 5 } });
    const answer = await ask(day, slow.url);
    expect(answer.status).toBe(504);
    expect((await problem(answer)).detail).toMatch(/stopped.*fewer rehearsals/);
    expect(slow.reports).toEqual([]);
    await slow.close();
  });

  it("tells nothing of the engine's inside when it fails, and reports it to its own side", async () => {
    const held = heldRunner();
    const failing = await serveApp({ runner: held.runner });
    const asked = ask(day, failing.url);
    (await held.begins(1)).fail(new Error("secret at /somewhere/engine.js:1"));
    const answer = await asked;
    expect(answer.status).toBe(500);
    expect(JSON.stringify(await problem(answer))).not.toMatch(/secret|engine\.js/);
    expect(failing.reports.map(String)).toEqual(["Error: secret at /somewhere/engine.js:1"]);
    await failing.close();
  });

  it("is forgotten when many others came after it, and has the same bytes when asked for again", async () => {
    const small = await serveApp({ limits: { kept: 2 } });
    const first = await ask({ ...day, seed: 1 }, small.url);
    const text = await first.text();
    const address = small.url + first.headers.get("Location");
    for (const seed of [2, 3]) await ask({ ...day, seed }, small.url);
    expect((await fetch(address)).status).toBe(404);
    expect(await (await ask({ ...day, seed: 1 }, small.url)).text()).toBe(text);
    expect((await fetch(address)).status).toBe(200);
    await small.close();
  });
});
