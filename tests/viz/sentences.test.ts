import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { measureIn, textIn, verdictIn, wrongHere } from "../../viz/sentences.ts";
import { pictures } from "../../viz/words/pictures.ts";
import { plan } from "../harvest/plan.ts";

/** Spaces that keep a figure and its unit together count as spaces here. */
const plain = (text: string) => text.replaceAll("\u00a0", " ");
const us = (text: string) => plain(textIn("us", text));

describe("the words beside the picture of density with depth", () => {
  it("say both ways in which measured storages differ from it: from top to bottom, and from the centre to the wall", () => {
    expect(pictures.section.measured(null, "23 %", "58 %")).toMatch(/23 % denser than the top; measured in herbage bunkers were 58 %.*The centre was 9 % denser there than the strip beside the wall/u);
  });
});

describe("a sentence from the engine for a reader of US units", () => {
  // 1 lb/ft3 = 16.018463 kg/m3 and 1 US ton = 0.90718474 t, both exact by definition.
  it("turns densities, paces and masses, with as many digits as the sentence had", () => {
    expect(us("The clamp ends at 201 kg DM/m3, target 240 kg DM/m3.")).toBe("The clamp ends at 12.5 lb DM/ft³, target 15.0 lb DM/ft³.");
    expect(us("This crew keeps pace at 70 t/h; at 139 t/h it is short of 29 t of packing tractor.")).toBe("This crew keeps pace at 77 ton/h; at 153 ton/h it is short of 32 ton of packing tractor.");
    expect(us("1,350 t in 2.4 km")).toBe("1,488 ton in 1.5 mi");
  });
  it("says the verdict from its figures and not from the rounded sentence, a tractor's mass in pounds, whatever came through JSON", () => {
    const { findings: { verdict } } = rehearse(plan({}), { rehearsals: 1 });
    const { density, paceKept, offered, short } = verdict.figures;
    const told = plain(verdictIn("us", JSON.parse(JSON.stringify(verdict)) as typeof verdict));
    // 1 lb = 0.45359237 kg; pounds of tractor to the hundred.
    const [lb, ton] = [0.45359237, 907.18474];
    expect(told).toContain(`ends at ${(density! / 16.018463).toFixed(1)} lb DM/ft³`);
    expect(told).toContain(`keeps pace at ${((paceKept * 3600) / ton).toFixed(0)} ton/h; at ${((offered * 3600) / ton).toFixed(0)} ton/h it is short of ${(100 * Math.round(short! / lb / 100)).toLocaleString("en")} lb of packing tractor`);
    expect(plain(verdictIn("metric", verdict))).toBe(plain(textIn("metric", verdict.headline)));
  });
  it("turns a pace of covering", () => {
    // 1 m2 = 10.7639 ft2.
    expect(us("4 people, 300 m2/h together")).toBe("4 people, 3,229 ft²/h together");
  });
  it("turns both ends of a range", () => {
    expect(us("the pressure rose by 5.3 to 6.8 kPa")).toBe("the pressure rose by 0.77 to 0.99 psi");
  });
  it("leaves clock times, shares, hours and everything that is no metric quantity as it is", () => {
    const sentence = "Packing falls behind at 09:40 on 30 of 100 days; the chopper stands 44 % of its time, 3 h in all.";
    expect(us(sentence)).toBe(sentence);
  });
  it("changes nothing but the look of units for a metric reader", () => {
    expect(plain(textIn("metric", "201 kg DM/m3 over 936 m2"))).toBe("201 kg DM/m³ over 936 m²");
    fc.assert(fc.property(fc.stringMatching(/^[ a-z,.;]{0,60}$/), (text) => {
      expect(plain(textIn("metric", text))).toBe(text);
    }));
  });
  it("turns a figure to within half of its last digit", () => {
    fc.assert(fc.property(fc.integer({ min: 10, max: 999 }), (tonnes) => {
      const [figure] = us(`${tonnes} t`).split(" ");
      const exact = tonnes / 0.90718474;
      const decimals = figure!.split(".")[1]?.length ?? 0;
      expect(Math.abs(Number(figure!.replace(",", "")) - exact)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-9);
    }));
  });
});

describe("the unit of a measure", () => {
  it("turns money per tonne the other way round than tonnes", () => {
    expect(measureIn("us", "per t").factor).toBeCloseTo(0.90718474, 9);
    expect(measureIn("us", "t").factor).toBeCloseTo(1 / 0.90718474, 9);
    expect(measureIn("us", "per t DM").unit).toBe("per ton DM");
  });
  it("knows the measures' units, and leaves hours and minutes alone", () => {
    expect(measureIn("us", "kg/m3")).toEqual({ unit: "lb/ft³", factor: expect.closeTo(1 / 16.018463, 8) });
    expect(measureIn("us", "min/t").factor).toBeCloseTo(0.90718474, 9);
    expect(measureIn("us", "L").factor).toBeCloseTo(1 / 3.785411784, 9);
    expect(measureIn("us", "h")).toEqual({ unit: "h", factor: 1 });
    expect(measureIn("metric", "kg/m3")).toEqual({ unit: "kg/m³", factor: 1 });
  });
});

describe("what is wrong, told at its place", () => {
  it("leaves out the way that leads there in a file, and speaks the reader's units", () => {
    const problem = { pointer: "/trucks/0/count", detail: "trucks[0].count is 2.5: a whole number from 1 to 500 would do." };
    expect(wrongHere("metric", problem)).toBe("This is 2.5: a whole number from 1 to 500 would do.");
    expect(plain(wrongHere("us", { pointer: "/fields/0/distance", detail: 'fields[0].distance is "900 km": up to 100 km would do.' }))).toMatch(/^This is .* up to 62\.1 mi would do\.$/u);
    // A sentence that begins otherwise stays whole.
    expect(wrongHere("metric", { pointer: "/trucks", detail: "There is no key \"lorries\"; did you mean trucks?" })).toBe("There is no key \"lorries\"; did you mean trucks?");
  });
});
