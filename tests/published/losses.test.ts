/** The loss ledger, feed-out and density profile against printed figures, each beside its source. */
import { describe, expect, it } from "vitest";
import { dryPerDay, feedOutOf, freshWidth } from "../../sim/findings/feedout.ts";
import { lossesOf, topLayerDepth } from "../../sim/findings/ledger.ts";
import { gradientShortfall } from "../../sim/forage/geometry/index.ts";
import { volumePerDay } from "../../sim/forage/feedout.ts";
import { densestDry, poreSpace, targets, targetsAgree } from "../../sim/forage/porespace.ts";
import { FOOT, LB_PER_FT3, POUND } from "../../sim/forage/us.ts";
import { LOSS_SWITCHES, type LossSwitch, type Storage } from "../../sim/scenario/types.ts";
import { LONG_STRIP, sound } from "../findings/rehearsed.ts";
import { expectPrinted } from "./printed.ts";

const losses = Object.fromEntries(LOSS_SWITCHES.map((cause) => [cause, true])) as Record<LossSwitch, boolean>;
const bunker = sound(LONG_STRIP).storages[0]!;

/** Lines of 100 t of dry matter, % of it; m2 of sky over each m3. */
function percentLost(density: number, { dryMatter = 0.35, sky = 0, cover = "plain" as Storage["cover"] } = {}) {
  const volume = 100_000 / density;
  const lines = lossesOf({ losses }, cover, { lifts: [{ mass: 100_000 / dryMatter, dryMass: 100_000 }], densities: [density], volume, surface: sky * volume });
  return (cause: LossSwitch, end: "low" | "central" | "high" = "central") => lines[cause][end] / 1000;
}

describe("Ruppel 1992, Cornell MS thesis, alfalfa, 180 days, as tabulated in secondary sources", () => {
  it.each([[10, 20.2], [14, 16.8], [15, 15.9], [16, 15.1], [18, 13.4], [22, 10.0]] as const)(
    "%d lb DM/ft3 loses as much more than the densest storages as the table says, %d against 10.0 %%", (lbPerFt3, percent) => {
      expectPrinted(percentLost(lbPerFt3 * LB_PER_FT3)("density"), (percent - 10.0).toFixed(1), 2);
    });
});

describe("Wilkinson & Fenlon, Grass and Forage Science, doi 10.1111/gfs.12087, meta-analysis of 51 comparisons", () => {
  it.each([["plain", "19.5"], ["barrier", "11.4"]] as const)("the layer under %s film loses %s % of itself, whether it is 10 cm deep or 60", (cover, printed) => {
    expect(topLayerDepth).toEqual([0.1, 0.6]);
    // 1 m2 of sky on each 4 m3: the layer is a fortieth of the whole at 10 cm and six fortieths at 60.
    const lost = percentLost(240, { sky: 1 / 4, cover });
    expectPrinted(lost("topLayer", "low") * 40, printed);
    expectPrinted((lost("topLayer", "high") * 40) / 6, printed);
  });
  it("no film is far worse: 34.2 against 12 % of whole 25-ton bunkers", () => {
    const [none, plain] = (["none", "plain"] as const).map((cover) => percentLost(240, { sky: 1 / 4, cover })("topLayer"));
    expect(none! / plain!).toBeCloseTo(34.2 / 12, 9);
  });
});

describe("Bastiman 1976 (from memory)", () => {
  it.each([[0.15, "177"], [0.2, "73"], [0.25, "17"]] as const)("a crop of %d dry matter gives %s L of juice a tonne, of which the ledger loses 3 to 10 %% as dry matter", (dryMatter, litres) => {
    const lost = percentLost(240, { dryMatter });
    const [low, high] = (["low", "high"] as const).map((end) => (lost("effluent", end) * 1000) / (100 / dryMatter));
    expectPrinted(low! / 0.03, litres);
    expectPrinted(high! / 0.1, litres);
  });
  it("none runs above about 29 to 32 % dry matter in bunkers", () => {
    for (const dryMatter of [0.32, 0.35, 0.4]) expect(percentLost(240, { dryMatter })("effluent", "high")).toBe(0);
  });
});

describe("Feed-out", () => {
  it("Holmes, in Hay & Forage Grower, sizing silos for feed-out: 3,000 lb DM a day at 14 lb/ft3 is 214.3 ft3 a day", () => {
    const herd = { head: 1, intake: 3000 * POUND, season: "winter" } as const;
    expectPrinted(volumePerDay(dryPerDay(herd), 14 * LB_PER_FT3) / FOOT ** 3, "214.3");
    // What is left lies at 14 lb/ft3: the face the findings report moves on by those cubic feet.
    const fed = 14 * LB_PER_FT3 * 1000;
    const { advance, face } = feedOutOf(herd, bunker, 1000, { low: fed, central: fed, high: fed });
    expectPrinted((advance * face) / FOOT ** 3, "214.3");
  });
  it("German advisory table, 33 % DM: 500 cows at 20 kg fresh take 92.1 m3 a week at 760 kg/m3", () => {
    const herd = { head: 500, intake: 20 * 0.33, season: "winter" } as const;
    const density = 0.33 * 760;
    expectPrinted(7 * volumePerDay(dryPerDay(herd), density), "92.1");
    const width = freshWidth(herd, density, 3, 0)!;
    expectPrinted(width * 3 * 0.15 * 7, "92.1");
  });
});

describe("D'Amours & Savoie 2005, ASAE paper 051051, herbage, 7 farms", () => {
  it("the bottom was 58 % denser than the top; the picture of a bunker as deep shows less", () => {
    const shortfall = gradientShortfall(bunker, 1000)!;
    expectPrinted(shortfall.measured, "1.58");
    expect(shortfall.shown).toBeGreaterThan(1);
    expect(shortfall.shown).toBeLessThan(shortfall.measured);
  });
});

describe("Undersander 2009: 15 lb DM/ft3, 44 lb/ft3 as fed, pore space under 0.40", () => {
  /** Which of the three targets a crop meets that is packed to the fresh density asked for. */
  const met = (dryMatter: number) => {
    const wet = targets.wetDensity.value;
    // Printed to two digits: 0.401 at 40 % dry matter still prints as 0.40.
    return { dry: wet * dryMatter >= targets.dryDensity.value, pores: Number(poreSpace(wet * dryMatter, wet, dryMatter).toFixed(2)) <= targets.poreSpace.value };
  };
  it("at 35 to 40 % dry matter the fresh density that is asked for meets the other two as well", () => {
    expect(targetsAgree.value).toEqual([0.35, 0.4]);
    for (let dryMatter = 35; dryMatter <= 40; dryMatter++) expect(met(dryMatter / 100), `${dryMatter} %`).toEqual({ dry: true, pores: true });
  });
  it("below, it holds too little dry matter though it is tight; above, enough dry matter and too much air", () => {
    for (const dryMatter of [0.25, 0.3, 0.33]) expect(met(dryMatter)).toEqual({ dry: false, pores: true });
    for (const dryMatter of [0.42, 0.45, 0.5]) expect(met(dryMatter)).toEqual({ dry: true, pores: false });
  });
  it("no crop can be packed beyond its solids and water", () => {
    for (const dryMatter of [0.2, 0.3, 0.4]) expect(poreSpace(densestDry(dryMatter) * 0.999999, (densestDry(dryMatter) * 0.999999) / dryMatter, dryMatter)).toBeCloseTo(0, 5);
  });
});
