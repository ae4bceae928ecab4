/** Notes: each one plain sentence, there when its reason is there and not otherwise. */
import { describe, expect, it } from "vitest";
import type { DayFacts } from "../../sim/findings/facts.ts";
import { notesFor } from "../../sim/findings/notes.ts";
import type { Measure, MeasureName } from "../../sim/findings/types.ts";
import { turned } from "../../sim/scenario/turned.ts";
import type { Scenario, Storage } from "../../sim/scenario/types.ts";
import { LONG_STRIP, rehearsed, sound, withFacts, withStorage } from "./rehearsed.ts";

const [scenario, days, measures] = rehearsed(sound(LONG_STRIP));

interface Change {
  storage?: Partial<Storage>;
  scenario?: Partial<Scenario>;
  facts?: Partial<DayFacts["storages"][number]>;
  day?: Partial<DayFacts>;
  measures?: Partial<Record<MeasureName, number>>;
}

/** The notes of the usual day with one thing changed. */
const notes = (change: Change = {}): string[] => {
  const changed: Partial<Record<MeasureName, Measure>> = { ...measures };
  for (const [name, mean] of Object.entries(change.measures ?? {}) as [MeasureName, number][]) changed[name] = { ...measures[name]!, mean };
  return notesFor(withStorage({ ...scenario, ...change.scenario }, change.storage ?? {}), withFacts(days, change.facts ?? {}).map((day) => ({ ...day, ...change.day })), changed);
};
const about = (words: RegExp, change: Change = {}) => notes(change).filter((note) => words.test(note));
/** Stored mass at this dry matter share, in the day's facts. */
const at = (dryMatter: number) => ({ dryMass: dryMatter * days[0]!.storages[0]!.mass });

describe("Notes", () => {
  it("are one whole sentence each, none twice, with no figure missing", () => {
    const wide: Scenario = { ...scenario, packing: { ...scenario.packing, layer: 0.2 }, fields: scenario.fields.map((field) => ({ ...field, dryMatter: 0.25 })), crop: { ...scenario.crop, chopLength: 0.03 } };
    const all = [
      ...notes(), ...notes({ scenario: wide, storage: { form: "pile", sideSlope: 3 }, facts: { ...at(0.25), full: true, uncredited: [0], dryDensity: 500 }, day: { uncut: 30_000 } }),
    ];
    expect(all.length).toBeGreaterThan(15);
    for (const note of all) {
      expect(note).toMatch(/^[A-Z0-9].*\.$/);
      expect(note).not.toMatch(/[.!?] [A-Z]/);
      expect(note).not.toMatch(/NaN|Infinity|undefined|not known/);
    }
    for (const list of [notes(), notes({ scenario: wide })]) expect(new Set(list).size).toBe(list.length);
  });

  it("call a plan that predicts the target a coin toss for it, and name the prediction that nine storages in ten would reach", () => {
    // 240 + 1.2816 x 42.0 = 293.8 for corn.
    expect(about(/coin toss/, { measures: { dryDensity: 240 } })[0]).toMatch(/chance is 50 %, 90 % would ask for a prediction of 294 kg DM\/m3, .* 18\.2 %/);
    expect(about(/coin toss/, { measures: { dryDensity: 300 } })).toEqual([]);
    expect(about(/no promise/, { measures: { dryDensity: 300 } })[0]).toContain("chance is 92 %");
    expect(about(/no promise/, { measures: { dryDensity: 110 } })[0]).toContain("chance is under 1 %");
    expect(about(/no promise/, { measures: { dryDensity: 400 } })[0]).toContain("chance is over 99 %");
  });

  it("keep differences between lifts inside the band from being read as findings, when only some lifts are under target", () => {
    expect(about(/not told apart/, { measures: { shareUnderTarget: 0.3 } })[0]).toMatch(/^30 % of the mass .* less than 42 kg DM\/m3/);
    expect(about(/not told apart/, { measures: { shareUnderTarget: 0.001 } })[0]).toMatch(/^Under 1 % of the mass /);
    for (const share of [0, 1]) expect(about(/not told apart/, { measures: { shareUnderTarget: share } })).toEqual([]);
  });

  it("name a tractor that the relation gives no credit on most days, and do not send it home", () => {
    expect(about(/no credit/)).toEqual([]);
    expect(about(/no credit/, { facts: { uncredited: [1] } })).toEqual([expect.stringMatching(/16 t tractor Roller no credit at North.*not sent home/)]);
    const half = [...withFacts(days, { uncredited: [1] }), ...days];
    expect(notesFor(scenario, half, measures).filter((note) => /no credit/.test(note))).toEqual([]);
  });

  it("name a light helper of a rehearsed crew by itself", () => {
    const tractors = [...LONG_STRIP.packing.tractors, { name: "Helper", mass: "4 t", power: "60 kW" }];
    const list = notesFor(...rehearsed(sound({ ...LONG_STRIP, packing: { tractors } })));
    expect(list.filter((note) => /no credit/.test(note))).toEqual([expect.stringContaining("4 t tractor Helper")]);
  });

  it("say when a density lies outside what the survey found", () => {
    for (const [density, count] of [[105, 1], [107, 0], [433, 0], [435, 1]] as const) expect(about(/is a guess/, { facts: { dryDensity: density } })).toHaveLength(count);
  });

  it("show dry density and pore space against each other outside 35 to 40 % dry matter only", () => {
    expect(about(/pore space/, { facts: at(0.45) })[0]).toContain("denser in dry matter, worse in pore space");
    expect(about(/pore space/, { facts: at(0.3) })[0]).toContain("less dense in dry matter, better in pore space");
    expect(about(/pore space/, { facts: at(0.37) })).toEqual([]);
    const { poreSpace: _gone, ...rest } = measures;
    expect(notesFor(scenario, withFacts(days, at(0.45)), rest).filter((note) => /no pore space is shown/.test(note))).toHaveLength(1);
  });

  it("set the three rules of thumb side by side with the whole crew's mass and the delivery rate", () => {
    // 800 lb per ton/h: 40 t; a third of the hourly mass: 33 t; 40,000 lb for 90 ton/h, 222 kg per t/h: 22 t. The crew has 14 + 16 t.
    const [note] = about(/Rules of thumb/, { measures: { deliveryRate: 100 } });
    expect(note).toMatch(/30 t of tractors at 100 t\/h/);
    for (const words of [/400 kg per t\/h[^,]*wants 40 t, not met/, /333 kg per t\/h[^,]*wants 33 t, not met/, /222 kg per t\/h \(.*\) wants 22 t, met/]) expect(note).toMatch(words);
  });

  it("hold the lightest of several crews against the rate, where one chopper brings all of it to each in turn", () => {
    const [storage] = scenario.storages;
    const storages = [storage!, { ...storage!, name: "South", tractors: storage!.tractors.map((tractor) => ({ ...tractor, mass: 10_000 })) }];
    const said = (choppers: number) => notesFor(
      { ...scenario, storages, choppers: Array.from({ length: choppers }, () => scenario.choppers[0]!) }, days.map((day) => ({ ...day, storages: [day.storages[0]!, day.storages[0]!] })), measures,
    ).find((note) => note.startsWith("Rules of thumb"));
    expect(said(1)).toMatch(/^Rules of thumb for the 20 t of tractors of the lightest crew at /u);
    expect(said(2)).toMatch(/^Rules of thumb for the 50 t of tractors at /u);
  });

  it("set the minutes seen on farms beside the crew's, by the rate of delivery, and none where none were printed", () => {
    const seen = (rate: number) => about(/^Rolling by all tractors/, { measures: { deliveryRate: rate, packingTimePerTonne: 2 } })[0];
    // 1 to 4 min per US ton under 30 ton/h (27.2 t/h), under 1 min over 60 ton/h (54.4 t/h).
    expect(seen(27)).toContain("came to 2.00 min/t; 1.1 to 4.4 min/t was seen");
    expect(seen(55)).toContain("under 1.1 min/t was seen");
    expect(turned(seen(27)!)).toContain("1.0 to 4.0 min/ton was seen");
    expect(seen(40)).toContain("nothing was found in print");
  });

  it("name fields whose dry matter is outside the window, and the side they lie on", () => {
    const fields = [0.28, 0.33, 0.42].map((dryMatter, i) => ({ ...scenario.fields[0]!, name: `Field ${"ABC"[i]}`, dryMatter }));
    const found = about(/dry matter advised/, { scenario: { fields } });
    expect(found).toHaveLength(2);
    expect(found[0]).toMatch(/^Field A \(28 %\) is too wet for the 30 % to 35 %/);
    expect(found[1]).toMatch(/^Field C \(42 %\) is too dry/);
    const many = Array.from({ length: 8 }, (_, i) => ({ ...fields[0]!, name: `Field ${i}` }));
    expect(about(/too wet/, { scenario: { fields: many } })[0]).toMatch(/^Field 0 \(28 %\), Field 1 \(28 %\) and 6 others are too wet/);
  });

  it("say how long a standing crop that is too wet would have to wait, by the published rate and by those of single counties", () => {
    const standing = (kind: Scenario["crop"]["kind"], ...dry: number[]) => about(/is too wet|are too wet/, {
      scenario: { crop: { ...scenario.crop, kind }, fields: dry.map((dryMatter, i) => ({ ...scenario.fields[0]!, name: `Field ${i}`, dryMatter })) },
    })[0];
    // From 27 to 30 % at half a point a day, as printed: 6 days; at 0.97 a day 3.1, at 0.24 a day 12.5.
    expect(standing("corn", 0.29, 0.27)).toMatch(/the wettest would be fit in about 6 days at 0\.5 points of moisture a day, in 3 to 13 at .*Lauer.*; published\)\.$/);
    expect(standing("sorghum", 0.27)).toMatch(/about 6 days.*assumption of this project\)\.$/);
    // Half a day is a day: nobody waits for less.
    expect(standing("corn", 0.2999)).toMatch(/in about 1 day at/);
    expect(standing("grass", 0.27)).not.toMatch(/fit in about/);
    expect(about(/too dry/, { scenario: { fields: [{ ...scenario.fields[0]!, dryMatter: 0.42 }] } })[0]).not.toMatch(/fit in about/);
  });

  it("name a chopper that is set to a speed in the row at which few are driven, both ends as people write them inside", () => {
    for (const [kmh, count] of [[2.4, 1], [2.5, 0], [10, 0], [10.1, 1], [28, 1]] as const) {
      const choppers = scenario.choppers.map((chopper) => ({ ...chopper, speed: Number((kmh / 3.6).toPrecision(12)) }));
      expect(about(/in the row/, { scenario: { choppers } }), `${kmh} km/h`).toHaveLength(count);
    }
    expect(about(/in the row/, { scenario: { choppers: scenario.choppers.map((chopper) => ({ ...chopper, speed: 28 / 3.6 })) } })[0])
      .toMatch(/^.+ is set to 28 km\/h in the row, where 2\.5 to 10 km\/h are usual for a forage harvester \(published, figure from memory\)\.$/);
  });

  it("name a chop length outside 13 to 19 mm, both ends as people write them inside", () => {
    for (const [mm, count] of [[12, 1], [13, 0], [19, 0], [20, 1]] as const) {
      expect(about(/chop length of/, { scenario: { crop: { ...scenario.crop, chopLength: mm / 1000 } } }), `${mm} mm`).toHaveLength(count);
    }
  });

  it("tell what the layer does: nothing at 15 cm, the later finding at any other, the reference when the term is off", () => {
    const layers = (layer: number, layerTerm = true) => about(/layer/, { scenario: { packing: { ...scenario.packing, layer, layerTerm } } });
    expect(layers(0.15)).toEqual([]);
    expect(layers(0.1)).toEqual([expect.stringMatching(/credits the 10 cm layer against 15 cm.*with the layer term off too/)]);
    expect(layers(0.2)).toEqual([expect.stringMatching(/faults the 20 cm layer/), expect.stringMatching(/20 cm layer is thicker than the 15 cm/)]);
    expect(layers(0.1, false)).toEqual([expect.stringMatching(/switched off: .* sees 15 cm/)]);
  });

  it("say that only the rolling share counts as packing time, unless everybody rolls all the time", () => {
    expect(about(/true rolling only, 80 % of/)).toHaveLength(1);
    const tractors = scenario.storages[0]!.tractors;
    expect(about(/true rolling/, { storage: { tractors: tractors.map((tractor) => ({ ...tractor, rolling: 1 })) } })).toEqual([]);
    expect(about(/true rolling only, 60 % to 80 % of/, { storage: { tractors: [{ ...tractors[0]!, rolling: 0.6 }, tractors[1]!] } })).toHaveLength(1);
  });

  it("tell of crop left standing and why, and of storages that fill up", () => {
    expect(about(/standing/)).toEqual([]);
    expect(about(/standing/, { day: { uncut: 30_000 } })).toEqual([expect.stringMatching(/^30 t of the crop are still standing when the shift ends/)]);
    expect(about(/standing/, { day: { uncut: 30_000, uncutForRoom: true } })).toEqual([expect.stringMatching(/find no room/)]);
    expect(about(/is full/)).toEqual([]);
    const two = [...withFacts(days, { full: true }), ...days];
    expect(notesFor(scenario, two, measures).filter((note) => /North is full .* in 1 of 2 rehearsals/.test(note))).toHaveLength(1);
  });

  it("find a storage that is too small for its crop full in a rehearsed day, with crop left standing", () => {
    const small = sound({ ...LONG_STRIP, storage: [{ name: "Small", form: "bunker", width: "8 m", length: "20 m", height: "2 m" }] });
    const list = notesFor(...rehearsed(small)).join("\n");
    expect(list).toMatch(/Small is full at the planned density/);
    expect(list).toMatch(/find no room and stay standing/);
  });

  it("tell how much of a pile's base lies under slopes", () => {
    const pile = { form: "pile", width: 16, length: 40, height: 2, wedge: 3, sideSlope: 3, meanDepth: null } as const;
    // 16 x 40 m, 2 m high, 1:3: full, the level top is 4 x 28 m of 640 m2. A metre more of its length at full height is 2 x (16 + 4) / 2 = 20 m3.
    const full = (2 / 6) * (16 * 40 + 4 * 10 * 34 + 4 * 28);
    expect(about(/under slopes/, { storage: pile, facts: { volume: full } })).toEqual([expect.stringMatching(/^83 % of the base of North/)]);
    // So 280 m3 less lie on 26 m of it, 14 m of them at full height: 4 x 14 m of 16 x 26 m2 are level.
    expect(about(/under slopes/, { storage: pile, facts: { volume: full - 14 * 20 } })).toEqual([expect.stringMatching(/^87 % of the base of North/)]);
    expect(about(/under slopes/, { storage: pile, facts: { mass: 0 } })).toEqual([]);
    expect(about(/under slopes/)).toEqual([]);
  });
});
