/** The loss ledger: adds up, counts nothing twice, follows what its sources say, and says what it cannot say. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ledgerEnds, lossLines } from "../../sim/findings/derivations/losses.ts";
import { factsOf } from "../../sim/findings/facts.ts";
import { findingsOf, measuresOf } from "../../sim/findings/findings.ts";
import { addedSpans, fedOf, lossesOf, lostOf, middleOf, topLayerDepth, type Ensiled } from "../../sim/findings/ledger.ts";
import { LOSS_CAUSES, type LossLine } from "../../sim/findings/types.ts";
import { effluent } from "../../sim/forage/effluent.ts";
import { lossLineRange, lossSaved, rangesOnly } from "../../sim/forage/losses.ts";
import { topLayerLoss } from "../../sim/forage/toplayer.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { LOSS_SWITCHES, type LossSwitch, type Scenario } from "../../sim/scenario/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { LONG_STRIP, rehearsed, sound, withStorage } from "./rehearsed.ts";

const RUNS = process.env.CLAMPSIDE_LONG ? 1000 : 100;
const COVERS = ["plain", "barrier", "none"] as const;
const ALL_ON = Object.fromEntries(LOSS_SWITCHES.map((cause) => [cause, true])) as Record<LossSwitch, boolean>;
const only = (...causes: LossSwitch[]) => ({ losses: Object.fromEntries(LOSS_SWITCHES.map((cause) => [cause, causes.includes(cause)])) as Record<LossSwitch, boolean> });

/** A storage of lifts of 5 t of dry matter at these densities and this dry matter, under so many m2 of sky. */
const ensiled = (densities: readonly number[], dryMatter = 0.35, surface = 0): Ensiled => ({
  lifts: densities.map(() => ({ mass: 5000 / dryMatter, dryMass: 5000 })), densities, surface,
  volume: densities.reduce((sum, density) => sum + 5000 / density, 0),
});

const anyEnsiled = fc.record({
  lifts: fc.array(fc.record({
    mass: fc.double({ min: 100, max: 40_000, noNaN: true }), dryMatter: fc.double({ min: 0.1, max: 0.9, noNaN: true }), density: fc.double({ min: 40, max: 600, noNaN: true }),
  }), { maxLength: 30 }),
  /** m2 of sky for each m3 */ spread: fc.double({ min: 0.05, max: 20, noNaN: true }),
}).map(({ lifts, spread }): Ensiled => {
  const laid = lifts.map(({ mass, dryMatter }) => ({ mass, dryMass: mass * dryMatter }));
  const volume = laid.reduce((sum, { dryMass }, i) => sum + dryMass / lifts[i]!.density, 0);
  return { lifts: laid, densities: lifts.map(({ density }) => density), volume, surface: spread * volume };
});
const anySwitches = fc.record(Object.fromEntries(LOSS_SWITCHES.map((cause) => [cause, fc.boolean()])) as Record<LossSwitch, fc.Arbitrary<boolean>>);

describe("The loss ledger", () => {
  it("adds up exactly from stored to fed, with no line below nothing, no end out of order and nothing fed that was not there", () => {
    fc.assert(fc.property(anyEnsiled, fc.constantFrom(...COVERS), anySwitches, (storage, cover, losses) => {
      const dry = storage.lifts.reduce((sum, lift) => sum + lift.dryMass, 0);
      const lines = lossesOf({ losses }, cover, storage);
      for (const cause of LOSS_SWITCHES) {
        const { low, central, high } = lines[cause];
        expect(low, cause).toBeGreaterThanOrEqual(0);
        expect(central, cause).toBeGreaterThanOrEqual(low);
        expect(high, cause).toBeGreaterThanOrEqual(central);
        expect(high, cause).toBeLessThanOrEqual(dry);
      }
      const fed = fedOf(dry, lostOf({ losses }, lines));
      const counted = LOSS_SWITCHES.reduce((sum, cause) => sum + (losses[cause] ? lines[cause].central : 0), 0);
      expect(Math.abs(fed.central + counted - dry)).toBeLessThanOrEqual(1e-9 * (1 + dry));
      expect(fed.low).toBeGreaterThanOrEqual(0);
      expect(fed.low).toBeLessThanOrEqual(fed.central + 1e-9 * dry);
      expect(fed.high).toBeGreaterThanOrEqual(fed.central);
      expect(fed.high).toBeLessThanOrEqual(dry);
    }), { numRuns: RUNS });
  });

  it("gives back exactly a line that is switched off, and moves no other", () => {
    const storage = ensiled([180, 220, 250], 0.27, 20);
    const dry = 15_000;
    const whole = lossesOf({ losses: ALL_ON }, "plain", storage);
    for (const cause of LOSS_SWITCHES) {
      const losses = { ...ALL_ON, [cause]: false };
      const lines = lossesOf({ losses }, "plain", storage);
      expect(lines).toEqual(whole);
      expect(whole[cause].central, cause).toBeGreaterThan(0);
      const back = fedOf(dry, lostOf({ losses }, lines)).central - fedOf(dry, lostOf({ losses: ALL_ON }, whole)).central;
      expect(back).toBeCloseTo(whole[cause].central, 8);
    }
    expect(fedOf(dry, lostOf(only(), whole))).toEqual({ low: dry, central: dry, high: dry });
  });

  it("takes nothing from a storage in which nothing lies", () => {
    const lines = lossesOf({ losses: ALL_ON }, "none", ensiled([]));
    for (const cause of LOSS_SWITCHES) expect(lines[cause]).toEqual({ low: 0, central: 0, high: 0 });
  });
});

describe("The line of density", () => {
  const densityLoss = (storage: Ensiled) => lossesOf(only("density"), "plain", storage).density;

  it("grows with every lift that is looser, weighted by the dry matter in it", () => {
    fc.assert(fc.property(fc.array(fc.double({ min: 120, max: 350, noNaN: true }), { minLength: 1, maxLength: 12 }), fc.nat(), fc.double({ min: 1, max: 60, noNaN: true }), (densities, pick, less) => {
      const which = pick % densities.length;
      const looser = densities.map((density, i) => (i === which ? density - less : density));
      const more = densityLoss(ensiled(looser)).central - densityLoss(ensiled(densities)).central;
      expect(more).toBeCloseTo(5000 * lossSaved(looser[which]!, densities[which]!).bySlope, 6);
    }), { numRuns: RUNS });
  });

  it("is nothing for a lift as dense as the densest of the table, or denser", () => {
    for (const density of [lossLineRange[1], lossLineRange[1] + 50]) expect(densityLoss(ensiled([density])).central).toBeCloseTo(0, 9);
  });

  it("reaches down to nothing, because one trial found no difference, and not above the slope", () => {
    const { low, central, high } = densityLoss(ensiled([200, 240]));
    expect(low).toBe(0);
    expect(high).toBe(central);
  });

  it("leaves to the other lines what is lost at any density: with them it does not come to more than the alfalfa total", () => {
    // A usual clamp: 240 kg DM/m3, 35 % dry matter, 3 m deep under its cover. Ruppel's total there is 15.9 % (15 lb DM/ft3), the corn bunkers' 9 points less.
    const storage = ensiled(Array.from({ length: 20 }, () => 240), 0.35, 0);
    const lines = lossesOf({ losses: ALL_ON }, "plain", { ...storage, surface: storage.volume / 3 });
    const share = lostOf({ losses: ALL_ON }, lines).central / 100_000;
    expect(share).toBeLessThan(0.16);
    expect(share).toBeGreaterThan(0.069);
  });

  it("does not reach into the top layer, whose loss was measured with all causes together", () => {
    // One m of depth under the sky: the layer's central depth is its share of all.
    const [bare, covered] = [ensiled([200]), { ...ensiled([200]), surface: 25 }];
    const below = 1 - middleOf(topLayerDepth);
    expect(densityLoss(covered).central / densityLoss(bare).central).toBeCloseTo(below, 12);
    const fermentation = (storage: Ensiled) => lossesOf(only("fermentation"), "plain", storage).fermentation.central;
    expect(fermentation(covered) / fermentation(bare)).toBeCloseTo(below, 12);
  });
});

describe("The other lines", () => {
  it("take from the top layer what the meta-analysis found under the film, over its 10 to 60 cm, and more without a film", () => {
    // 100 m3 under 50 m2 of sky lie 2 m deep under their cover.
    const storage = { lifts: [{ mass: 60_000, dryMass: 20_000 }], densities: [200], volume: 100, surface: 50 };
    const top = (cover: (typeof COVERS)[number]) => lossesOf(only("topLayer"), cover, storage).topLayer;
    expect(top("plain").low).toBeCloseTo(20_000 * 0.195 * (0.1 / 2), 9);
    expect(top("plain").high).toBeCloseTo(20_000 * 0.195 * (0.6 / 2), 9);
    expect(top("barrier").high / top("plain").high).toBeCloseTo(topLayerLoss.barrier.value / topLayerLoss.plain.value, 12);
    expect(top("none").central / top("plain").central).toBeCloseTo(0.342 / 0.12, 9);
  });

  it("let juice run from wet loads only, by the curve", () => {
    const dry = (dryMatter: number) => lossesOf(only("effluent"), "plain", ensiled([200], dryMatter)).effluent;
    expect(dry(0.31)).toEqual({ low: 0, central: 0, high: 0 });
    // 25 t at 20 % dry matter, 3 to 10 % of dry matter in the juice.
    expect(dry(0.2).low).toBeCloseTo(25 * effluent(0.2) * 0.03, 9);
    expect(dry(0.2).high).toBeCloseTo(25 * effluent(0.2) * 0.1, 9);
    const mixed = { ...ensiled([200, 200]), lifts: [{ mass: 25_000, dryMass: 5000 }, { mass: 10_000, dryMass: 5000 }] };
    expect(lossesOf(only("effluent"), "plain", mixed).effluent.central).toBeCloseTo(dry(0.2).central, 9);
  });

  it("take fermentation and face as their published ranges, the middle between the ends by ratio", () => {
    const lines = lossesOf(only("fermentation", "face"), "plain", ensiled([200, 300]));
    for (const cause of ["fermentation", "face"] as const) {
      const [low, high] = rangesOnly[cause].value;
      expect(lines[cause].low).toBeCloseTo(10_000 * low, 9);
      expect(lines[cause].high).toBeCloseTo(10_000 * high, 9);
      expect(lines[cause].central / lines[cause].low).toBeCloseTo(lines[cause].high / lines[cause].central, 9);
    }
  });
});

describe("The ledger of rehearsed days", () => {
  const [BLADE, ROLLER] = LONG_STRIP.packing.tractors;
  const twoPlaces = sound({
    ...LONG_STRIP, variation: "typical", crop: { kind: "corn", dryMatter: "28 %" },
    packing: { tractors: [BLADE, ROLLER, { ...BLADE, name: "Second blade" }, { ...ROLLER, name: "Second roller" }] },
    storage: [
      { name: "North", form: "bunker", width: "6 m", length: "20 m", height: "1.5 m", tractors: ["Blade", "Roller"], cover: "none" },
      { name: "South", form: "pile", width: "16 m", length: "40 m", height: "2 m", tractors: ["Second blade", "Second roller"], cover: "barrier" },
    ],
    fields: [{ ...LONG_STRIP.fields[0], storage: ["North", "South"] }],
    losses: { face: "off" },
  });

  it.each([["a bunker", sound(LONG_STRIP), 1], ["two storages with the luck of three days, one line off", twoPlaces, 3]] as const)(
    "runs from the dry matter cut to the dry matter fed without a gap: %s", (_what, scenario, rehearsals) => {
      const [, days, measures] = rehearsed(scenario, rehearsals);
      const { cutT, storedT, fedT } = ledgerEnds(scenario, days);
      const lines = lossLines(scenario, days);
      const counted = lines.reduce((sum, line) => sum + (line.on && line.dryT ? line.dryT.central : 0), 0);
      expect(Math.abs(cutT - storedT)).toBeLessThan(1e-9 * cutT);
      expect(Math.abs(storedT - counted - fedT.central)).toBeLessThan(1e-9 * cutT);
      expect(Math.abs(measures.dryMatterFed!.mean - fedT.central)).toBeLessThan(1e-9 * cutT);
      expect(Math.abs(measures.dryMatterStored!.mean - storedT)).toBeLessThan(1e-9 * cutT);
      expect(fedT.low).toBeLessThan(fedT.central);
      expect(fedT.central).toBeLessThan(fedT.high);
      for (const { dryT, share } of lines) if (dryT) expect(share! * storedT).toBeCloseTo(dryT.central, 9);
    });

  it("says of a day of more than a thousand tonnes what its table says, to the tonne", () => {
    const [scenario, days] = rehearsed(sound(LONG_STRIP));
    const thousand = 1_006_400 / days[0]!.measures.dryMatterStored / 1000;
    const large = days.map((day) => ({
      ...day, measures: { ...day.measures, dryMatterStored: day.measures.dryMatterStored * thousand },
      storages: day.storages.map((storage) => ({ ...storage, fed: addedSpans([storage.fed], thousand) })),
    }));
    const { inWords, storedT, fedT } = ledgerEnds(scenario, large);
    expect(formatNumber(storedT, 0)).toBe("1,006");
    expect(inWords).toContain(`Of 1,006 t of dry matter stored, ${formatNumber(fedT.low, 0)} t to ${formatNumber(fedT.high, 0)} t are left to feed, ${formatNumber(fedT.central, 0)} t`);
  });

  it("sets its total beside the trials at the density that the measures tell, the mean of the days, and not at another mean of its own", () => {
    const [scenario, [day]] = rehearsed(sound(LONG_STRIP));
    // One storage, a loose day and a dense one: all dry matter over all volume would be 2 x 200 x 260 / 460 = 226.
    const lying = (dryDensity: number) => ({
      ...day!, measures: { ...day!.measures, dryDensity }, storages: day!.storages.map((storage) => ({ ...storage, dryDensity, volume: storage.dryMass / dryDensity })),
    });
    const days = [lying(200), lying(260)];
    expect(measuresOf(days).dryDensity!.mean).toBeCloseTo(230, 9);
    expect(ledgerEnds(scenario, days).inWords).toMatch(/ in all at 230 kg DM\/m3\.$/);
  });

  it("has every cause once, in order, each with its source, mark and words; a line that is off is shown and said to be", () => {
    const [scenario, days] = rehearsed(twoPlaces, 2);
    const lines = lossLines(scenario, days);
    expect(lines.map((line) => line.cause)).toEqual([...LOSS_CAUSES]);
    for (const { source, mark, note } of lines) for (const words of [source, mark, note]) expect(words).toMatch(/\S/);
    const face = lines.find((line) => line.cause === "face")!;
    expect([face.on, face.dryT!.central > 0]).toEqual([false, true]);
    expect(ledgerEnds(scenario, days).inWords).toMatch(/[Ss]witched off and not counted: open face/);
    for (const { dryT, share, note } of lines) {
      for (const value of dryT ? [dryT.low, dryT.central, dryT.high, share] : []) expect(Number.isFinite(value)).toBe(true);
      expect(note).not.toMatch(/NaN|Infinity|undefined/);
    }
  });

  it("of a day that brings nothing home is empty, and invents nothing", () => {
    const scenario = sound({ ...LONG_STRIP, herd: { head: 100, intake: "10 kg/day" } });
    const idle = { ...rehearseDay(scenario), trips: [], lifts: [] };
    const days = [factsOf(scenario, idle)];
    const { losses, ledger, money, storages } = findingsOf({ scenario, seed: 1, days, machines: [], defaults: [], shown: idle });
    expect([ledger.cutT, ledger.storedT, ledger.fedT]).toEqual([0, 0, { low: 0, central: 0, high: 0 }]);
    for (const { dryT, outside } of losses) expect([dryT?.high ?? 0, outside]).toEqual([0, false]);
    expect([money.perTonne, money.oneMoreTractor, storages]).toEqual([{ delivered: null, stored: null, fed: null }, [], []]);
    expect(ledger.inWords).toBe("No dry matter was stored.");
    for (const { note } of losses) expect(note).not.toMatch(/NaN|Infinity|undefined/);
  });

  it("says of density that alfalfa stands for corn, and of a delay only evidence and no figure", () => {
    const line = (scenario: Scenario, cause: LossLine["cause"]) => lossLines(scenario, rehearsed(scenario)[1]).find((each) => each.cause === cause)!;
    const corn = sound(LONG_STRIP);
    const alfalfa = sound({ ...LONG_STRIP, crop: { kind: "alfalfa", dryMatter: "38 %" } });
    expect(line(corn, "density").note).toMatch(/alfalfa, used here for corn\. Four corn bunkers .* 9 points lower/);
    expect(line(alfalfa, "density").note).toMatch(/alfalfa, as here/);
    expect(line(corn, "delay")).toMatchObject({ dryT: null, share: null });
    expect(line(corn, "delay").note).toMatch(/72 %.*91 %/);
  });

  it("lets rolling after the last load help the last lift only", () => {
    // The depth is given, so that no lift is denser for the weight of another.
    const scenario = withStorage(sound({ ...LONG_STRIP, packing: { ...LONG_STRIP.packing, whenBehind: "bury" } }), { meanDepth: 2 });
    const densities = (finish: number) => {
      const longer: Scenario = { ...scenario, packing: { ...scenario.packing, finish } };
      const day = rehearseDay(longer);
      const [storage] = factsOf(longer, day).storages;
      return { dry: day.lifts.map((lift) => lift.dryMass), loss: storage!.losses.density.central, rolled: day.lifts.map((lift) => Array.from(lift.rolled)) };
    };
    const [none, long] = [densities(0), densities(3 * 3600)];
    expect(long.rolled.slice(0, -1)).toEqual(none.rolled.slice(0, -1));
    expect(long.rolled.at(-1)!.every((seconds, i) => seconds > none.rolled.at(-1)![i]!)).toBe(true);
    expect(long.loss).toBeLessThan(none.loss);
    // The most that one lift can win is all that the line takes from it, from no packing to the densest row.
    const lastLift = none.dry.at(-1)!;
    expect(none.loss - long.loss).toBeLessThan(lastLift * lossSaved(0, lossLineRange[1]).bySlope);
  });
});
