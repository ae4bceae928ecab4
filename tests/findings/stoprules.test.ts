import { describe, expect, test } from "vitest";
import { stopRules } from "../../sim/findings/stoprules.ts";
import { packingRateAtTarget } from "../../sim/findings/hand.ts";
import { days, example, exampleNames } from "../scenarios/example.ts";
import { blade, bunker, chopper, field, plan, roller, trucks } from "../harvest/plan.ts";

const worked = plan();
const [rules] = stopRules(worked);

describe("The rules that a crew can keep with what it sees", () => {
  test("give a usual load the minutes that the crew needs for it at target", () => {
    expect(rules!.packMinutesPerLoad! * 60).toBeCloseTo(16_000 / packingRateAtTarget(worked, 0), 6);
    expect(rules!.loadsPerHour * rules!.packMinutesPerLoad!).toBeCloseTo(60, 9);
    expect(rules!.stickMark).toBe(0.15);
  });

  test("stop the chopper while those still on the way find room on the apron", () => {
    const [rules] = stopRules(plan({ packing: { whenBehind: "hold" } }));
    // 60 t hold 3.75 loads. One is under the spout; on the way, 2,400 m at 28 km/h, 60 s on the scale and 240 s to tip, 608.6 s, more come than are packed.
    const toCome = (arrivals: number) => 1 + (arrivals - 1 / (rules!.packMinutesPerLoad! * 60)) * (2400 / (28 / 3.6) + 60 + 240);
    // Five trucks of 16 t bring at most what the chopper cuts: 45 kg/s less a turn of 25 s a row of 11.34 t and 20 s a load.
    const perKg = 1 / (160 / 3.6) + 25 / (6 * 420 * 4.5) + 20 / 16_000;
    const round = 16_000 * perKg + 2400 / (28 / 3.6) + 2400 / (34 / 3.6) + 60 + 240;
    const arrivals = Math.min(1 / (16_000 * perKg), 5 / round);
    expect(rules!.apronLoads).toBe(Math.max(1, Math.floor(3.75 - toCome(arrivals))));
    expect(rules!.apronTonnes).toBe(rules!.apronLoads * 16);
    expect(rules!.keepsUp).toBe(false);
  });

  test("let the chopper of a crew that buries go on as long as the blades push loads up as fast as they come, however far packing is behind", () => {
    const burying = (spreads: number) => stopRules(plan({ packing: { whenBehind: "bury" }, storages: [bunker({ tractors: [blade(14_000, { spreads: spreads / 3.6 }), roller(16_000)] })] }))[0]!;
    // 220 t/h are pushed up and at most some 130 t/h come: the load under the spout finds a place long before the three that lie are no more.
    expect(burying(220).keepsUp).toBe(false);
    expect(burying(220)).toMatchObject({ holds: "never", apronLoads: 3 });
    expect(burying(220).inWords.apron).toMatch(/13\.8 an hour are pushed up\. Over the 10\.1 min on the way, the one under the spout counted in, 0\.1 loads more come than are taken\./u);
    expect(burying(400).inWords.apron).toContain("the one under the spout counted in, no more come than are taken: each finds a place. That leaves room for 3 whole loads");
    // A blade that is slower than the trucks still asks for a place for each load on the way.
    expect(burying(30).apronLoads).toBe(1);
  });

  test("name the full apron to a crew that holds until then: the next load finds no room, and holding ends", () => {
    const rule = (apron: number) => stopRules(plan({ packing: { whenBehind: "hold-then-bury" }, storages: [bunker({ apron })] }))[0]!;
    expect(rule(60_000)).toMatchObject({ holds: "until-full", apronLoads: 3, apronTonnes: 48 });
    expect(rule(10_000).apronLoads).toBe(1);
  });

  test("never stop the chopper on a day that was rehearsed without a stop: a crew that buries by the rule stays under it in every worked example", () => {
    const burying = exampleNames.map((name) => example(name)).filter(({ packing }) => packing.whenBehind === "bury");
    expect(burying.length).toBeGreaterThan(3);
    for (const scenario of burying) {
      const [rule] = stopRules(scenario);
      for (const { facts } of days(scenario, 3)) expect(facts.measures.apronPeak).toBeLessThan(rule!.apronTonnes);
    }
  });

  test("let more lie on a larger apron, and never ask for less than one load", () => {
    const on = (apron: number) => stopRules(plan({ storages: [bunker({ apron })] }))[0]!.apronLoads;
    expect(on(160_000) - on(144_000)).toBe(1);
    expect(on(5000)).toBe(1);
    expect(stopRules(plan({ storages: [bunker({ apron: 16_000 })] }))[0]!.inWords.apron).toMatch(/^The apron holds 1 load of 16 t\. /u);
    const said = (apron: number) => stopRules(plan({ storages: [bunker({ apron })] }))[0]!.inWords.apron.split(". ").at(-1);
    expect(said(5000)).toBe("That leaves room for no whole load: the chopper stops at the first.");
    expect(said(160_000)).toBe(`That leaves room for ${on(160_000)} whole loads: the chopper stops as soon as they lie there.`);
  });

  test("reckon in words, without signs that stand for words, and so that it can be done again by hand", () => {
    const said = exampleNames.flatMap((name) => stopRules(example(name)).flatMap(({ inWords }) => Object.values(inWords)));
    expect(said.length).toBeGreaterThan(30);
    for (const sentence of said) expect(sentence).not.toMatch(/ [-x=+*] /u);
    const [, come, packed, minutes, together] = /([\d.]+) an hour come and ([\d.]+) an hour are packed\. Over the ([\d.]+) min on the way, the one under the spout counted in, ([\d.]+) loads? more comes? than /u
      .exec(stopRules(plan({ packing: { whenBehind: "hold" } }))[0]!.inWords.apron)!.map(Number);
    expect(Math.abs(1 + ((come! - packed!) * minutes!) / 60 - together!)).toBeLessThan(0.1);
  });

  test("say that a strong crew keeps up, and then keep a place for the load under the spout only where it must", () => {
    const strong = plan({ storages: [bunker({ tractors: [blade(20_000, { spreads: 400 }), ...[1, 2, 3, 4, 5].map((i) => roller(25_000, { name: `Roller ${i}` }))] })], trucks: [trucks(1)] });
    const [rule] = stopRules(strong);
    expect(rule!.keepsUp).toBe(true);
    expect(rule!.apronLoads).toBe(3);
  });

  test("go by those who are there: with the roller away a load takes longer, with the blade away it is never packed", () => {
    const without = (away: number) => stopRules(worked, (_, tractor) => tractor !== away)[0]!;
    expect(without(1).packMinutesPerLoad!).toBeGreaterThan(rules!.packMinutesPerLoad!);
    expect(without(0)).toMatchObject({ packMinutesPerLoad: null, loadsPerHour: 0, passes: null, apronLoads: 1 });
  });

  test("count the covers of a layer as rolling pace times width times time over its area", () => {
    const { passes, layersPerLoad } = rules!;
    expect(passes![1] / passes![0]).toBeCloseTo(2, 9);
    // Half the fill of this bunker has its full height: 18 m x 3.2 m x sqrt(1 + 9) of slope.
    const cycle = rules!.packMinutesPerLoad! * 60;
    const spreading = 16_000 / (220 / 3.6);
    const rolled = cycle + (cycle - spreading);
    expect(passes![0]).toBeCloseTo(((2 / 3.6) * 2.5 * rolled) / (18 * 3.2 * Math.sqrt(10) * layersPerLoad), 9);
  });

  test("count on all that one chopper brings while it fills a storage, however many it fills in turn", () => {
    const halves = [field({ area: 150_000, storages: [0] }), field({ name: "Far Side", area: 150_000, storages: [1] })];
    const places = [bunker(), bunker({ name: "South bunker" })];
    const apron = (over: Parameters<typeof plan>[0]) => stopRules(plan({ fields: halves, ...over }))[0]!;
    const [alone, inTurn] = [apron({ storages: [bunker()], fields: [halves[0]!] }), apron({ storages: places })];
    expect([inTurn.inWords.apron, inTurn.keepsUp, inTurn.apronLoads]).toEqual([alone.inWords.apron, alone.keepsUp, alone.apronLoads]);
    // Two choppers are taken to fill both at once: half of what they bring goes to each.
    const two = apron({ storages: places, choppers: [chopper(), chopper({ name: "Second chopper" })], trucks: [trucks(2)] });
    const all = apron({ storages: [bunker()], fields: [halves[0]!], choppers: [chopper(), chopper({ name: "Second chopper" })], trucks: [trucks(2)] });
    const anHour = ({ inWords }: typeof two) => Number(/([\d.]+) an hour come/u.exec(inWords.apron)![1]);
    expect(anHour(two)).toBeCloseTo(anHour(all) / 2, 1);
  });

  test("tell of the slope when a full apron laid at once would make it too steep, and name only storages that a field leads to first", () => {
    expect(stopRules(plan({ storages: [bunker({ apron: 400_000 })] }))[0]!.hurry).toMatch(/steeper than 1:3/u);
    const two = plan({ storages: [bunker(), bunker({ name: "South bunker", tractors: [blade(14_000, { name: "South blade" })] })], fields: [field({ storages: [0, 1] })] });
    expect(stopRules(two).map(({ storage }) => storage)).toEqual(["North bunker"]);
  });
});
