/** The bottleneck, proved: the station that is named is the one whose relief raises the pace most. And what else the verdict says. */
import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { summarise } from "../../sim/findings/summary.ts";
import { uncut } from "../../sim/findings/notes/crop.ts";
import { STATIONS, type Station } from "../../sim/findings/types.ts";
import { headline } from "../../sim/findings/headline.ts";
import { bottleneckOf, shortOf, verdictFigures, verdictOf } from "../../sim/findings/verdict.ts";
import { US } from "../../sim/findings/words.ts";
import { packingRateAtTarget } from "../../sim/findings/hand.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { BehindRule, Scenario } from "../../sim/scenario/types.ts";
import { blade, bunker, chopper, field, plan, roller, trucks, type Wishes } from "../harvest/plan.ts";

const T_PER_H = 1000 / 3600;
const facts = (scenario: Scenario) => factsOf(scenario, rehearseDay(scenario));
const named = (scenario: Scenario) => bottleneckOf(scenario, [facts(scenario)]);

/** More than any of the others can bring, so that each test may weaken one thing. */
const strong = (whenBehind: BehindRule, over: Wishes = {}, storage: Partial<Scenario["storages"][number]> = {}): Scenario => plan({
  fields: [field({ area: 600_000 })], trucks: [trucks(12)], weighing: { time: 30, lanes: 1 }, packing: { whenBehind },
  storages: [bunker({ length: 200, apron: 40_000, tractors: [blade(20_000, { spreads: 400 * T_PER_H }), roller(24_000), roller(24_000), roller(24_000)], ...storage })], ...over,
});

/** A quarter more of each resource. */
const RELIEF: Record<Station, (scenario: Scenario) => Scenario> = {
  cutting: (s) => ({ ...s, choppers: s.choppers.map((c) => ({ ...c, speed: c.speed * 1.25, throughput: c.throughput * 1.25, turnTime: c.turnTime / 1.25, changeover: c.changeover / 1.25 })) }),
  hauling: (s) => ({ ...s, trucks: s.trucks.map((t) => ({ ...t, count: t.count * 1.25 })) }),
  weighing: (s) => ({ ...s, weighing: { ...s.weighing!, time: s.weighing!.time / 1.25 } }),
  tipping: (s) => ({ ...s, trucks: s.trucks.map((t) => ({ ...t, tip: t.tip / 1.25 })) }),
  spreading: (s) => ({ ...s, storages: s.storages.map((p) => ({ ...p, tractors: p.tractors.map((t) => ({ ...t, spreads: t.spreads === null ? null : t.spreads * 1.25 })) })) }),
  packing: (s) => ({ ...s, storages: s.storages.map((p) => ({ ...p, tractors: p.tractors.map((t) => ({ ...t, mass: t.mass * 1.25 })) })) }),
  storage: (s) => ({ ...s, storages: s.storages.map((p) => ({ ...p, length: p.length * 1.25 })) }),
};
const WEAK: Record<Station, Scenario> = {
  cutting: strong("hold", { choppers: [chopper({ width: 3 })] }),
  hauling: strong("hold", { trucks: [trucks(4)], fields: [field({ area: 600_000, distance: 9000 })] }),
  weighing: strong("hold", { weighing: { time: 600, lanes: 1 } }),
  tipping: strong("hold", { trucks: [trucks(12, { tip: 700 })] }),
  spreading: strong("hold", {}, { tractors: [blade(20_000, { spreads: 80 * T_PER_H }), roller(24_000), roller(24_000), roller(24_000)] }),
  packing: strong("hold", {}, { tractors: [blade(14_000, { spreads: 400 * T_PER_H }), roller(14_000)] }),
  storage: strong("hold", {}, { length: 30 }),
};

describe("The bottleneck under hold", () => {
  it.each(STATIONS)("%s is named where it is weak, and a quarter more of it brings more than a quarter more of anything else", (weak) => {
    const scenario = WEAK[weak];
    expect(named(scenario)).toBe(weak);
    // A full storage ends the day: there the crop that is brought in counts, elsewhere the pace.
    const pace = (s: Scenario) => facts(s).measures[weak === "storage" ? "delivered" : "deliveryRate"];
    const gain = Object.fromEntries(STATIONS.map((station) => [station, pace(RELIEF[station](scenario)) / pace(scenario)])) as Record<Station, number>;
    for (const station of STATIONS) if (station !== weak) expect(gain[weak], JSON.stringify(gain)).toBeGreaterThan(gain[station] * 1.02);
    expect(gain[weak]).toBeGreaterThan(1.1);
  });
});

describe("The bottleneck under bury", () => {
  const at = (station: Exclude<Station, "storage">) => ({ ...WEAK[station], packing: { ...WEAK[station].packing, whenBehind: "bury" as const } });
  /** What comes in and is packed at target too: the lesser of the two paces. */
  const pace = (scenario: Scenario) => {
    const { measures } = facts(scenario);
    return Math.min(measures.deliveryRate, measures.packingRateAtTarget);
  };

  it.each(["cutting", "hauling", "weighing", "tipping", "spreading", "packing"] as const)("%s is named where it is weak, and its relief raises the pace at target most", (weak) => {
    const scenario = at(weak);
    expect(named(scenario)).toBe(weak);
    const gain = Object.fromEntries(STATIONS.map((station) => [station, pace(RELIEF[station](scenario)) / pace(scenario)])) as Record<Station, number>;
    for (const station of STATIONS) if (station !== weak) expect(gain[weak], JSON.stringify(gain)).toBeGreaterThan(gain[station] * 1.02);
  });
});

describe("The bottleneck under ease", () => {
  it("is the crew that the choppers are slowed to, though nobody waits for it", () => {
    const eased = { ...WEAK.packing, packing: { ...WEAK.packing.packing, whenBehind: "ease" as const } };
    expect(facts(eased).measures.chopperWaiting).toBeLessThan(0.05);
    expect(named(eased)).toBe("packing");
    // A crew that packs more than chopper and trucks bring slows nobody.
    expect(named({ ...WEAK.cutting, packing: { ...WEAK.cutting.packing, whenBehind: "ease" } })).toBe("cutting");
    // Both choppers together could bring more than is packed; but one has only a corner to cut, and the other alone is never slowed.
    const corner = plan({
      packing: { whenBehind: "ease" }, fields: [field({ area: 3000 }), field({ name: "Far Side", area: 200_000 })], choppers: [chopper(), chopper({ name: "Narrow", width: 2.5 })], trucks: [trucks(8)],
    });
    expect(named(corner)).toBe("cutting");
  });
});

describe("What a crew is short of", () => {
  const worked = plan({ packing: { whenBehind: "bury" } });
  const offered = 138 * T_PER_H;

  it("is the tractor that, driven like the crew's mean one, lets it pack what is offered", () => {
    const short = shortOf(worked, 0, offered)!;
    const mean = (14_000 + 16_000) / 2;
    // So much tractor is one of the mean mass, rolling so many times all the time.
    const helped = plan({ storages: [bunker({ tractors: [blade(), roller(), roller(mean, { name: "More", rolling: short / mean })] })] });
    expect(packingRateAtTarget(helped, 0) / offered).toBeCloseTo(1, 6);
  });

  it("is nothing at the pace it keeps, and no figure where the blades cannot spread so fast", () => {
    expect(shortOf(worked, 0, packingRateAtTarget(worked, 0) * 0.999)).toBe(0);
    expect(shortOf(worked, 0, 221 * T_PER_H)).toBeNull();
    expect(shortOf(worked, 0, 219 * T_PER_H)).toBeGreaterThan(0);
  });

  const weaker = bunker({ name: "South bunker", tractors: [blade(), roller(12_000)] });
  const twoFields = [field({ name: "Far Side", storages: [1], area: 200_000 }), field({ storages: [0], area: 100_000 })];

  it("is asked of each storage by its share of the crop where several choppers cut for them at once, and named for all together", () => {
    const two = plan({ storages: [bunker(), weaker], fields: twoFields, choppers: [chopper({ width: 3 }), chopper({ name: "Second chopper", width: 3 })] });
    const figures = verdictFigures(two, [facts(two)], null);
    const [north, south] = [shortOf(two, 0, figures.offered / 3)!, shortOf(two, 1, (2 * figures.offered) / 3)!];
    // A third of what is offered is less than the crew in the north packs; the other has two thirds to pack and cannot.
    expect(north).toBe(0);
    expect(south).toBeGreaterThan(10_000);
    expect(figures.short).toBeCloseTo(south, 6);
    expect(figures.paceKept).toBeCloseTo(1.5 * packingRateAtTarget(two, 1), 9);
  });

  it("is asked of each storage by all that is brought where one chopper fills them one after another: the weakest crew keeps the pace", () => {
    const two = plan({ storages: [bunker({ tractors: [blade(), roller(), roller(16_000, { name: "Second roller" })] }), weaker], fields: twoFields });
    const day = facts(two);
    const figures = verdictFigures(two, [day], null);
    // Both crews together pack more than is brought, and still each falls behind when its turn comes.
    expect(packingRateAtTarget(two, 0) + packingRateAtTarget(two, 1)).toBeGreaterThan(1.1 * figures.offered);
    expect(day.storages.map(({ behindFrom }) => behindFrom === null)).toEqual([false, false]);
    expect(figures.paceKept).toBeCloseTo(packingRateAtTarget(two, 1), 9);
    expect(figures.short).toBeCloseTo(shortOf(two, 0, figures.offered)! + shortOf(two, 1, figures.offered)!, 6);
    expect(headline(figures)).toMatch(/These crews keep pace at \d+ t\/h, beyond which the one at South bunker falls behind; at 139 t\/h they are short of \d+ t of packing tractor\./u);
  });

  it("is more than the wedge has room for where so many tractors would take turns, and then that is said", () => {
    const wide = (width: number) => plan({ storages: [bunker({ width })], packing: { whenBehind: "bury", wedgeRoom: "by-width" } });
    const said = (scenario: Scenario) => headline(verdictFigures(scenario, [facts(scenario)], null));
    expect(said(wide(18))).toMatch(/it is short of \d+ t of packing tractor\./u);
    // Two lanes of 4.5 m: the blade and the roller have one each.
    expect(said(wide(12))).toMatch(/it is short of \d+ t of packing tractor, more than the wedge has room for\./u);
    const crowded = plan({
      storages: [bunker({ width: 12, tractors: [blade(), ...[1, 2, 3, 4, 5].map((i) => roller(16_000, { name: `Roller ${i}` }))] })], packing: { whenBehind: "bury", wedgeRoom: "by-width" },
    });
    expect(said(crowded)).toMatch(/This crew keeps pace at \d+ t\/h; for 139 t\/h the wedge is too narrow\./u);
  });

  it("is not told where it is less than half a tonne", () => {
    const figures = { ...verdictFigures(worked, [facts(worked)], null), short: 400 };
    expect(headline(figures)).toMatch(/This crew keeps pace at 70 t\/h\.$/u);
    expect(headline(figures, US)).not.toContain("short of");
  });

  it("is no figure for all together where the blades of one storage cannot spread what comes to it", () => {
    const slow = bunker({ name: "South bunker", tractors: [blade(14_000, { spreads: 60 * T_PER_H }), roller()] });
    const two = plan({ storages: [bunker(), slow], fields: [field({ storages: [0] }), field({ name: "Far Side", storages: [1] })] });
    expect(verdictFigures(two, [facts(two)], null).short).toBeNull();
  });
});

describe("The verdict", () => {
  const of = (scenario: Scenario, days: readonly ReturnType<typeof facts>[]) =>
    verdictFigures(scenario, days, summarise(days.map((day) => day.measures.dryDensity), "kg/m3"));
  const buried = plan({ packing: { whenBehind: "bury" } });
  const eased = plan({ packing: { whenBehind: "ease" } });

  it("of a day that is behind: when, what you get, the pace the crew keeps and what it is short of", () => {
    const figures = of(buried, [facts(buried)]);
    expect(figures).toMatchObject({ chance: 0, bottleneck: "packing", days: 1 });
    expect(figures.paceKept / T_PER_H).toBeCloseTo(70.4, 1);
    expect(figures.offered / T_PER_H).toBeCloseTo(138.7, 1);
    expect(figures.short).toBeCloseTo(shortOf(buried, 0, figures.offered)!, 6);
    const verdict = verdictOf(figures);
    expect(verdict).toMatchObject({ keepsPace: false, chance: 0, bottleneck: "packing" });
    // The first moment is 1828.6 s after 07:00.
    expect(verdict.behindFrom).toBe("07:30");
    for (const said of ["07:30", "201 kg DM/m3", "240 kg DM/m3", "70 t/h"]) expect(headline(figures)).toContain(said);
  });

  it("of a day that keeps pace says so, and knows no moment at which it falls behind", () => {
    const verdict = verdictOf(of(eased, [facts(eased)]));
    expect(verdict).toMatchObject({ keepsPace: true, chance: 1, behindFrom: null });
    expect(verdict.headline).toContain("keeps pace");
  });

  it("of days on which nothing was stored says so, where a density would stand", () => {
    const figures = { ...of(eased, [facts(eased)]), uncut: 0 };
    expect(headline({ ...figures, loads: 0, density: null })).toBe("Nothing more comes in: nothing lies in the clamp.");
    expect(headline({ ...figures, density: null })).toMatch(/keeps pace.*\. On some days nothing lies in the clamp\.$/u);
    expect(headline({ ...figures, chance: 0, density: null })).not.toMatch(/–|NaN/u);
  });

  it("tells of crop left standing in the words of the note, and a reader of US units in tons, tractors in pounds", () => {
    const left = { ...facts(buried), uncut: 2_640 };
    const figures = of(buried, [left]);
    expect(headline(figures)).toContain(" 2.6 t of crop are left standing");
    expect(uncut(buried, [left], {})).toEqual([expect.stringMatching(/^2\.6 t of the crop are still standing/)]);
    expect(headline(figures, US)).toMatch(/ 2\.9 ton of crop are left standing/);
    expect(headline(figures, US)).toMatch(/short of \d+,\d{3} lb of packing tractor/);
  });

  it("keeps pace from nine days in ten", () => {
    const [good, bad] = [facts(eased), facts(buried)];
    const mix = (kept: number) => [...Array.from({ length: kept }, () => good), ...Array.from({ length: 20 - kept }, () => bad)];
    expect([17, 18, 20].map((kept) => verdictOf(of(eased, mix(kept)))).map(({ keepsPace, chance }) => [keepsPace, chance])).toEqual([[false, 0.85], [true, 0.9], [true, 1]]);
  });

  it("opens with the days that keep pace where most of the others fail for something else, and says for what", () => {
    const [good, bad] = [facts(eased), facts(buried)];
    const loose = { ...good, keepsPace: false, measures: { ...good.measures, shareUnderTarget: 0.3 } };
    const late = { ...loose, behindFrom: bad.behindFrom };
    const said = (days: readonly (typeof good)[]) => headline(of(buried, days));
    // One day in ten is behind, none keeps pace: the others have too much of their mass under the target.
    expect(said([late, ...Array.from({ length: 9 }, () => loose)])).toMatch(/^The plan keeps pace on no day: the clamp ends at .* target 240 kg DM\/m3, 30 % of it in lifts under that\. This crew keeps pace at 70 t\/h; at 139 t\/h it is short of /u);
    // Where packing lacks nothing no pace is said to be kept.
    expect(headline({ ...of(buried, [loose]), short: 0 })).toMatch(/^The day does not keep pace: .* This crew packs 70 t\/h at target\./u);
    expect(said([...Array.from({ length: 5 }, () => loose), ...Array.from({ length: 5 }, () => good)])).toMatch(/^The plan keeps pace on only 50 of 100 days: /u);
    expect(said([late, late, loose])).toMatch(/^Packing falls behind at 07:30 on 67 of 100 days: /u);
    const waits = { ...loose, measures: { ...good.measures, chopperWaiting: 0.3, chopperWaitingOnStorage: 0.08 }, waits: { ...good.waits, hauling: 2200, tipping: 800 } };
    expect(said([waits])).toMatch(/^The day does not keep pace: .*, and the chopper stands 30 % of the time, 8 % for the clamp, at the farm's cost\./u);
  });

  it("calls nothing certain that was not so on every day", () => {
    const figures = of(buried, [facts(buried)]);
    expect(headline({ ...figures, days: 1000, behindOn: 0.999 })).toContain(" on 99 of 100 days");
    expect(headline({ ...figures, days: 1000, chance: 0.999 })).toContain(" on 99 of 100 days");
    expect(headline({ ...figures, days: 1000, chance: 1 })).toContain(" on 100 of 100 days");
    expect(headline({ ...figures, days: 1000, chance: 0.001, behindOn: 0, behindFrom: null })).toContain(" on only 1 of 100 days");
  });

  it("falls behind at the median of the days that do", () => {
    const bad = facts(buried);
    const late = [5, 1, 3, 9, 7].map((hours) => ({ ...bad, behindFrom: (7 + hours) * 3600 }));
    expect(verdictOf(of(buried, late)).behindFrom).toBe("12:00");
  });

  it("lets the farm pay for a standing chopper by the hour, the contractor by the tonne", () => {
    const held = (paid: "by-hour" | "by-ton" | "by-area") => {
      const scenario = plan({ packing: { whenBehind: "hold" }, choppers: [chopper({ paid, price: 5 })] });
      return of(scenario, [facts(scenario)]);
    };
    expect([held("by-hour").whoPays, held("by-ton").whoPays, held("by-area").whoPays]).toEqual(["farm", "contractor", "contractor"]);
    expect(headline(held("by-ton"))).toMatch(/stands 4\d % .*contractor/);
  });
});
