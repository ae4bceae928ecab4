import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MOST_AFTER, MOST_BESIDE, PLAIN, readAddress, writeAddress, type View } from "../../viz/address.ts";
import { WHATS } from "../../viz/controls.ts";
import type { Document } from "../../viz/document.ts";
import { ENGLISHES } from "../../viz/english.ts";
import { EFFECTS } from "../../sim/study/effectnames.ts";
import { PAPERS, SHEETS, STEPS } from "../../viz/sheets.ts";

const view: fc.Arbitrary<View> = fc.record({
  example: fc.option(fc.stringMatching(/^[a-z][a-z0-9-]{0,30}$/)),
  edits: fc.dictionary(
    fc.tuple(fc.constantFrom(...WHATS), fc.constantFrom("", ".0", ".11", ".1.0")).map((parts) => parts.join("")),
    fc.stringMatching(/^[ -~]{1,40}$/),
  ).map((edits) => ({ ...edits })),
  at: fc.option(fc.integer({ min: 0, max: 3 * 86_400 })),
  units: fc.constantFrom("metric", "us"),
  beside: fc.uniqueArray(fc.stringMatching(/^[a-z][a-z0-9-]{0,30}$/), { maxLength: MOST_BESIDE }),
  farms: fc.array(fc.stringMatching(/^[a-z][a-z0-9-]{0,30}$/), { maxLength: MOST_AFTER }),
  sheet: fc.constantFrom(...SHEETS),
  step: fc.constantFrom(...STEPS),
  lesson: fc.option(fc.stringMatching(/^[a-z][a-z0-9-]{0,30}$/)),
  own: fc.option(fc.dictionary(fc.string({ maxLength: 20 }), fc.oneof(fc.string(), fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => x + 0), fc.array(fc.string())), { noNullPrototype: true })
    .filter((plan) => !Object.hasOwn(plan, "__proto__"))) as fc.Arbitrary<Document | null>,
  now: fc.option(fc.dictionary(fc.stringMatching(/^[a-zA-Z]{1,12}$/), fc.oneof(fc.string(), fc.nat()), { noNullPrototype: true })) as fc.Arbitrary<Document | null>,
  english: fc.constantFrom(...ENGLISHES),
  paper: fc.option(fc.constantFrom(...PAPERS)),
  whole: fc.boolean(),
  order: fc.option(fc.constantFrom(...EFFECTS)),
  turned: fc.dictionary(fc.stringMatching(/^[a-z]{1,20}$/), fc.stringMatching(/^[ -~]{1,40}$/)).map((turned) => ({ ...turned })),
  // A step without its lesson is not written, and nothing is turned in none.
}).map((shown) => (shown.lesson === null ? { ...shown, step: PLAIN.step, turned: {} } : shown));

describe("the address of the page", () => {
  it("gives back every view that was written into it", () => {
    fc.assert(fc.property(view, (shown) => {
      expect(readAddress(writeAddress(shown))).toEqual(shown);
    }));
  });

  it("reads anything at all without trouble, and keeps only what it knows", () => {
    fc.assert(fc.property(fc.string(), (text) => {
      const { edits, at, units } = readAddress(text);
      expect(["metric", "us"]).toContain(units);
      expect(at === null || at >= 0).toBe(true);
      for (const id of Object.keys(edits)) expect(WHATS).toContain(id.split(".")[0]);
    }));
    expect(readAddress("#example=../../etc&at=25:99&units=furlong&__proto__=1&trucks.0.0.0=4&whole=1&order=beauty&turned.__proto__=1")).toEqual(PLAIN);
  });

  it("is readable: a plan with one change reads like the change", () => {
    expect(writeAddress({ ...PLAIN, example: "low-meadow", edits: { layer: "12 cm", "trucks.0": "6" }, at: 34_800, units: "us", beside: ["as-opened", "two-choppers"] }))
      .toBe("#example=low-meadow&layer=12+cm&trucks.0=6&at=09:40&units=us&beside=as-opened,two-choppers");
    expect(writeAddress({ ...PLAIN, sheet: "lessons", lesson: "who-pays", step: "try", turned: { roller: "22 t" }, whole: true, order: "finish" }))
      .toBe("#sheet=lessons&lesson=who-pays&step=try&turned.roller=22+t&whole=open&order=finish");
    expect(writeAddress(PLAIN)).toBe("");
  });

  it("unpacks no plan that is larger than any that could be rehearsed, and none that is broken", () => {
    const huge = writeAddress({ ...PLAIN, own: { name: "x".repeat(1_000_000) } });
    expect(huge.length).toBeLessThan(10_000);
    expect(readAddress(huge).own).toBeNull();
    const sound = writeAddress({ ...PLAIN, own: { name: "Low Meadow", seed: 4 } });
    for (let cut = sound.length - 1; cut > "#plan=".length; cut -= 3) expect(readAddress(sound.slice(0, cut)).own).toBeNull();
  });
});
