import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { meadow, meadowYaml } from "./meadow.ts";
import { post, serveApp } from "./served.ts";
import type { Served } from "./served.ts";

let served: Served;
beforeAll(async () => { served = await serveApp({ limits: { perMinute: 1_000_000, stepsPerDay: 2_000, steps: 2_000 } }); });
afterAll(() => served.close());

/** Bodies of each kind; ten times as many in the long run of all tests. */
const numRuns = process.env.CLAMPSIDE_LONG ? 3_000 : 300;

type Json = fc.JsonValue;

/** Every place in a document, as the keys that lead to it. */
function placesOf(value: unknown, path: string[] = []): string[][] {
  const inside = typeof value === "object" && value !== null ? Object.entries(value).flatMap(([key, part]) => placesOf(part, [...path, key])) : [];
  return [path, ...inside];
}

/** The document with the part at a place replaced, or taken out where `by` is undefined. */
function replaced(value: unknown, [key, ...rest]: string[], by: Json | undefined): unknown {
  if (key === undefined) return by;
  if (Array.isArray(value)) return value.map((part: unknown, i) => (String(i) === key ? replaced(part, rest, by) : part));
  return { ...(value as object), [key]: replaced((value as Record<string, unknown>)[key], rest, by) };
}

const strangeText = fc.oneof(
  fc.constantFrom("", "-1 ha", "1e308 t", "NaN kg", "Infinity m", "0 km/h", "1:0", "99:99", "__proto__", "-0", "1e-320 t/ha", "9".repeat(400) + " t", "14 ha ".repeat(50), "t", "١٤ ha", "25:61"),
  fc.string({ unit: "binary", maxLength: 30 }),
);
const strange: fc.Arbitrary<Json | undefined> = fc.oneof(
  { weight: 3, arbitrary: strangeText },
  { weight: 2, arbitrary: fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.integer(), fc.boolean(), fc.constant(null)) },
  { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 3 }) },
  { weight: 1, arbitrary: fc.constant(undefined) },
);
const places = placesOf(meadow);

/** Answers that a bad body may get, all of them problems; a good one may have slipped in. */
async function expectTold(answer: Response, body: string): Promise<void> {
  const text = await answer.text();
  expect([200, 400, 413, 415, 422], `${answer.status}: ${text.slice(0, 300)}\nfor ${body.slice(0, 2_000)}`).toContain(answer.status);
  if (answer.status === 200) return;
  expect(answer.headers.get("Content-Type")).toBe("application/problem+json");
  const told = JSON.parse(text) as { status: number; detail: string; errors?: { pointer: string; detail: string }[] };
  expect(told.status).toBe(answer.status);
  expect(told.detail).toMatch(/\w/);
  expect(text).not.toMatch(/node_modules|\.ts:\d|TypeError|RangeError|undefined is not|Cannot read|Invalid input/);
  if (answer.status === 422 && !told.detail.includes("does not end")) {
    expect(told.errors?.length).toBeGreaterThan(0);
    for (const { pointer, detail } of told.errors ?? []) expect([pointer === "" || pointer.startsWith("/"), detail.length > 0]).toEqual([true, true]);
  }
}

describe("bad bodies", () => {
  it("get a problem and never a failure when a part of a sound scenario is replaced by something strange", async () => {
    await fc.assert(fc.asyncProperty(fc.array(fc.tuple(fc.constantFrom(...places), strange), { minLength: 1, maxLength: 3 }), async (changes) => {
      const scenario = changes.reduce<unknown>((document, [place, by]) => {
        try { return replaced(document, place, by); } catch { return document; }
      }, meadow);
      const body = JSON.stringify({ scenario, rehearsals: 1 });
      await expectTold(await post(served.url, body), body);
    }), { numRuns });
    expect(served.reports).toEqual([]);
  });

  it("get a problem and never a failure when the text is anything at all", async () => {
    const types = fc.constantFrom("application/json", "application/yaml", "text/yaml");
    const texts = fc.oneof(
      fc.string({ unit: "binary", maxLength: 200 }),
      fc.json(),
      fc.jsonValue().map((value) => JSON.stringify({ scenario: value })),
      fc.tuple(fc.nat(meadowYaml.length), fc.nat(30), fc.string({ maxLength: 20 })).map(([at, cut, put]) => meadowYaml.slice(0, at) + put + meadowYaml.slice(at + cut)),
      fc.constantFrom("&a [*a]", "a: &a [1, 1]\nb: [*a, *a]", "<<: {a: 1}", "? {a: 1}\n: 2", "--- 1\n--- 2", "!!js/function 'x'", "%YAML 9.9\n---\nname: x", "\t- a", "- ".repeat(5_000)),
    );
    await fc.assert(fc.asyncProperty(texts, types, async (body, type) => {
      await expectTold(await post(served.url, body, type), body);
    }), { numRuns });
    expect(served.reports).toEqual([]);
  });

  it("get a problem when names of the language's own objects stand where keys should", async () => {
    for (const key of ["__proto__", "constructor", "toString", "hasOwnProperty", "prototype"]) {
      for (const body of [`{"scenario": {"${key}": {"x": 1}}}`, `{"${key}": 1, "scenario": {}}`, JSON.stringify({ scenario: meadow }).replace("\"kind\"", `"${key}": {"polluted": true}, "kind"`)]) {
        const answer = await post(served.url, body);
        expect(answer.status, body).toBe(422);
        await expectTold(answer, body);
      }
    }
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  it("do not multiply: a file that refers to itself again and again is refused at once", async () => {
    const rows = ["a: &a [x, x, x, x, x, x, x, x, x]"];
    for (let i = 0; i < 9; i += 1) {
      const [from, to] = [String.fromCharCode(97 + i), String.fromCharCode(98 + i)];
      rows.push(`${to}: &${to} [${Array.from({ length: 9 }, () => `*${from}`).join(", ")}]`);
    }
    const answer = await post(served.url, rows.join("\n"), "application/yaml");
    expect([400, 422]).toContain(answer.status);
  });
});
