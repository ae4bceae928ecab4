import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PLAIN, readAddress, writeAddress, type View } from "../../viz/address.ts";
import { WHATS } from "../../viz/controls.ts";

const view: fc.Arbitrary<View> = fc.record({
  example: fc.option(fc.stringMatching(/^[a-z][a-z0-9-]{0,30}$/)),
  edits: fc.dictionary(
    fc.tuple(fc.constantFrom(...WHATS), fc.constantFrom("", ".0", ".11", ".1.0")).map((parts) => parts.join("")),
    fc.stringMatching(/^[ -~]{1,40}$/),
  ).map((edits) => ({ ...edits })),
  at: fc.option(fc.integer({ min: 0, max: 3 * 86_400 })),
  units: fc.constantFrom("metric", "us"),
  beside: fc.option(fc.stringMatching(/^[a-z][a-z0-9-]{0,30}$/)),
});

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
    expect(readAddress("#example=../../etc&at=25:99&units=furlong&__proto__=1&trucks.0.0.0=4")).toEqual(PLAIN);
  });

  it("is readable: a plan with one change reads like the change", () => {
    expect(writeAddress({ example: "low-meadow", edits: { layer: "12 cm", "trucks.0": "6" }, at: 34_800, units: "us", beside: "as-opened" }))
      .toBe("#example=low-meadow&layer=12+cm&trucks.0=6&at=09:40&units=us&beside=as-opened");
    expect(writeAddress(PLAIN)).toBe("");
  });
});
