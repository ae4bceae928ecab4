/** Several days one after another: nothing lost and nothing cut twice, a crop that only gets drier, rain that never helps, and starts that are told. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { effluent } from "../../sim/forage/effluent.ts";
import { farmTotal, harvestLines } from "../../sim/findings/money.ts";
import { dateOf } from "../../sim/scenario/dates.ts";
import type { Campaign, Scenario } from "../../sim/scenario/types.ts";
import { TYPICAL } from "../../sim/scenario/typical.ts";
import { campaignRun, farmsOf, type Beginning, type CampaignRun } from "../../sim/study/campaign.ts";
import { campaigns, type CampaignsOptions, type CampaignsSoFar } from "../../sim/study/campaigns.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { carryOut, carryOutOn, Stopped } from "../../sim/study/work.ts";
import { bunker, CROP, field, HOUR, plan, trucks, varying, type Wishes } from "../harvest/plan.ts";
import { runs } from "../kernel/runs.ts";
import { contraryHands } from "./hands.ts";

const STARTS = 20_000;
const DAY = 86_400;
const planned = (over: Partial<Campaign> = {}): Campaign => ({ starts: STARTS, measured: STARTS, drying: null, rain: 0, dew: null, days: 30, ...over });

/** Three small fields, about two short days of work. */
const three = (wishes: Wishes = {}, campaign: Partial<Campaign> = {}): Scenario => ({
  ...plan({
    name: "Three fields", shift: { start: 8 * HOUR, end: 13 * HOUR },
    fields: [field({ name: "First", area: 80_000 }), field({ name: "Second", area: 60_000, dryMatter: 0.33 }), field({ name: "Third", area: 70_000 })], ...wishes,
  }),
  campaign: planned(campaign),
});
const once = (scenarios: Scenario | readonly Scenario[], beginning: Beginning = {}, number = 0): CampaignRun => {
  const { farms, campaign } = farmsOf(Array.isArray(scenarios) ? scenarios as readonly Scenario[] : [scenarios as Scenario]);
  return campaignRun(farms, campaign, { seed: 1, number }, beginning);
};
const told = (scenarios: readonly Scenario[], options?: CampaignsOptions) => carryOut(campaigns(scenarios, options));
const dryOf = ({ fields }: Scenario) => fields.reduce((sum, each) => sum + each.area * each.yield * each.dryMatter, 0);
const cut = ({ days }: CampaignRun, of: "mass" | "dryMass") => days.reduce((sum, day) => sum + day.fields.reduce((total, each) => total + each[of], 0), 0);
const near = (a: number, b: number) => Math.abs(a / b - 1) < 1e-9;
const finish = ({ days }: CampaignRun) => days.findLast(({ closedAt }) => closedAt !== null)!;

const anyCampaign = fc.record({
  areas: fc.array(fc.integer({ min: 2, max: 12 }), { minLength: 1, maxLength: 4 }), drying: fc.constantFrom(null, 0, 0.24 / 100 / DAY, 0.97 / 100 / DAY),
  rain: fc.uniqueArray(fc.integer({ min: 0, max: 8 }), { maxLength: 4 }), luck: fc.boolean(), hours: fc.integer({ min: 2, max: 6 }),
}).map(({ areas, drying, rain, luck, hours }) => three({
  fields: areas.map((ha, f) => field({ name: `Field ${f}`, area: ha * 10_000, dryMatter: 0.3 + 0.01 * f })), shift: { start: 8 * HOUR, end: (8 + hours) * HOUR },
  ...(luck ? { variation: varying({ cutting: 0.1, loaded: 0.15, tip: 0.4 }) } : {}),
}, { drying, rain: rain.map((d) => STARTS + d) }));

describe("A campaign", () => {
  it("of one day is that day: the same loads, the same density, the same end, the same bill for the work", () => {
    const scenario = three({ shift: { start: 7 * HOUR, end: 20 * HOUR } });
    const run = once(scenario);
    const { findings, day } = rehearse(scenario, { rehearsals: 1 });
    expect(run.days).toHaveLength(1);
    expect(run.days[0]!.loads).toBe(day.trips.length);
    expect(near(run.days[0]!.density!, findings.storages[0]!.dryDensity.mean)).toBe(true);
    expect(near(run.days[0]!.closedAt!, Math.max(...day.lifts.map(({ closed }) => closed)))).toBe(true);
    const bill = farmTotal(harvestLines(scenario, day));
    const { cost, whenToStart: { tried } } = told([scenario], { campaigns: 1 });
    expect(bill).toBeGreaterThan(0);
    expect(near(run.days[0]!.cost, bill)).toBe(true);
    expect(near(cost!.mean, bill) && near(cost!.perDryTonne, (1000 * bill) / dryOf(scenario))).toBe(true);
    expect(tried.find(({ starts }) => starts === dateOf(STARTS))!.costPerDryTonne).toBe(cost!.perDryTonne);
  });

  it("brings in what stood, once: dry mass cut is dry mass stored, over all days, whatever the rain, the drying and the luck", () => {
    fc.assert(fc.property(anyCampaign, (scenario) => {
      const run = once(scenario);
      expect(run.allIn).toBe(true);
      expect(near(cut(run, "dryMass"), dryOf(scenario))).toBe(true);
      expect(near(run.storages.reduce((sum, { stored }) => sum + stored.dryMass, 0), dryOf(scenario))).toBe(true);
      expect(near(run.storages.reduce((sum, { stored }) => sum + stored.mass, 0), cut(run, "mass"))).toBe(true);
      scenario.fields.forEach((grown, f) => {
        const taken = run.days.reduce((sum, day) => sum + day.fields.reduce((total, each) => total + (each.field === f ? each.dryMass : 0), 0), 0);
        expect(near(taken, grown.area * grown.yield * grown.dryMatter)).toBe(true);
      });
      expect(new Set(run.days.map(({ day }) => day)).size).toBe(run.days.length);
    }), runs(100));
  });

  it("takes what is left standing into account when its days are over: cut and left are what stood", () => {
    const scenario = three({}, { days: 1 });
    const run = once(scenario);
    const stands = scenario.fields.reduce((sum, each, f) => sum + each.area * each.yield * each.dryMatter * run.left[0]![f]!, 0);
    expect(run.allIn).toBe(false);
    expect(stands).toBeGreaterThan(0);
    expect(near(cut(run, "dryMass") + stands, dryOf(scenario))).toBe(true);
  });

  it("never ends on an earlier day for a day of rain more", () => {
    fc.assert(fc.property(anyCampaign, fc.integer({ min: 0, max: 8 }), (scenario, more) => {
      const { rain } = scenario.campaign!;
      const wetter = { ...scenario, campaign: { ...scenario.campaign!, rain: [...(rain as readonly number[]), STARTS + more] } };
      expect(finish(once(wetter)).day).toBeGreaterThanOrEqual(finish(once(scenario)).day);
    }), runs(50));
  });

  it("cuts a drier crop, and so less fresh mass, the later it starts and the faster it dries", () => {
    fc.assert(fc.property(anyCampaign, fc.integer({ min: 1, max: 10 }), (scenario, later) => {
      const dry = (run: CampaignRun) => cut(run, "dryMass") / cut(run, "mass");
      const usual = once({ ...scenario, campaign: { ...scenario.campaign!, rain: 0 } });
      const late = once({ ...scenario, campaign: { ...scenario.campaign!, rain: 0, starts: STARTS + later } });
      expect(dry(late)).toBeGreaterThanOrEqual(dry(usual) - 1e-12);
      const fast = once({ ...scenario, campaign: { ...scenario.campaign!, rain: 0, drying: 2 / 100 / DAY } });
      expect(dry(fast)).toBeGreaterThanOrEqual(dry(usual) - 1e-9);
    }), runs(50));
  });

  it("cuts corn at 30 % dry matter that was at 27 % six days before, as printed", () => {
    const scenario = three({ crop: { ...CROP, dryMatter: 0.27 }, fields: [field({ area: 40_000, dryMatter: 0.27 })] }, { starts: STARTS + 6 });
    const run = once(scenario);
    expect(cut(run, "dryMass") / cut(run, "mass")).toBeCloseTo(0.3, 9);
    expect(run.endsInside).toBe(true);
    expect(once(scenario, { starts: STARTS + 5 }).endsInside).toBe(false);
  });

  it("lets dry matter into effluent, density and the number of loads", () => {
    const wet = (starts: number) => once(three({ crop: { ...CROP, dryMatter: 0.24 }, fields: [field({ area: 60_000, dryMatter: 0.24 })], targets: { dryDensity: 200 } }, { starts }));
    const [early, late] = [wet(STARTS), wet(STARTS + 14)];
    expect(early.storages[0]!.effluent).toBeCloseTo((early.storages[0]!.stored.mass / 1000) * effluent(0.24), 6);
    expect(late.storages[0]!.effluent).toBe(0);
    expect(late.days[0]!.loads).toBeLessThan(early.days[0]!.loads);
    expect(late.storages[0]!.stored.dryMass / late.storages[0]!.stored.volume).toBeGreaterThan(early.storages[0]!.stored.dryMass / early.storages[0]!.stored.volume);
  });

  it("carries less of a drier crop in a truck that is full to the brim, and as much in one that is full by mass", () => {
    const load = (volume: number | null, starts: number) => {
      const run = once(three({ fields: [field({ area: 60_000 })], trucks: [trucks(5, { load: 13_600, volume })] }, { starts }));
      return cut(run, "mass") / run.days.reduce((sum, day) => sum + day.loads, 0);
    };
    expect(load(40, STARTS + 6)).toBeLessThan(load(40, STARTS) * 0.96);
    expect(load(null, STARTS + 6)).toBeGreaterThan(load(40, STARTS) * 0.96);
  });

  it("finds the clamp in the morning as it was left in the evening, and tells how much wedge waited how long", () => {
    const run = once(three({}, { rain: [STARTS + 1] }));
    const [first, rained, next] = run.days;
    expect([first!.rained, rained!.rained, next!.rained]).toEqual([false, true, false]);
    expect(rained!.filled).toEqual(first!.filled);
    expect(first!.openFace[0]).toBeGreaterThan(bunker().width);
    expect(first!.openFor).toBeCloseTo(2 * DAY + 8 * HOUR - first!.closedAt!, 6);
    expect(next!.filled[0]).toBeGreaterThan(first!.filled[0]!);
    expect(finish(run).openFace).toEqual([0]);
  });

  it("starts when the dew is off, and packs no less for it", () => {
    const [at, dew] = [once(three({}, { drying: 0 })), once(three({}, { drying: 0, dew: 10 * HOUR }))];
    expect(dew.days[0]!.loads).toBeLessThan(at.days[0]!.loads);
    expect(near(cut(dew, "dryMass"), cut(at, "dryMass"))).toBe(true);
  });

  it("fills the storage that a field names first, then the next, and says what no storage takes", () => {
    const small = (length: number, name: string) => bunker({ name, width: 8, length, height: 2, meanDepth: null, tractors: bunker().tractors.map((each) => ({ ...each, name: `${each.name} ${name}` })) });
    const scenario = three({ fields: [field({ area: 150_000, storages: [0, 1] })], storages: [small(30, "A"), small(25, "B")] });
    const run = once(scenario);
    expect(run.storages.map(({ storage }) => storage)).toEqual([0, 1]);
    expect(run.storages[0]!.from).toBeLessThanOrEqual(run.storages[1]!.from);
    expect(run.allIn).toBe(false);
    expect(near(cut(run, "dryMass") + dryOf(scenario) * run.left[0]![0]!, dryOf(scenario))).toBe(true);
    expect(told([scenario], { campaigns: 1 }).notes.join(" ")).toMatch(/Not everything comes in: no storage had room for the rest/u);
  });

  it("dries a mown crop by the hour within a day, and finds it fresh again on the next morning", () => {
    const hay = (over: Partial<Campaign> = {}) => three({
      crop: { ...CROP, kind: "grass", dryMatter: 0.36 }, fields: ["A", "B", "C", "D", "E"].map((name) => field({ name, area: 80_000, yield: 1.5, dryMatter: 0.36 })), shift: { start: 10 * HOUR, end: 15 * HOUR },
    }, { drying: 0.01 / HOUR, ...over });
    const run = once(hay());
    for (const day of run.days) {
      const shares = day.fields.map(({ mass, dryMass }) => dryMass / mass);
      shares.forEach((share, i) => {
        expect(share).toBeGreaterThan(0.36);
        expect(share).toBeLessThan(0.36 + 0.01 * 5.5);
        if (i > 0) expect(share).toBeGreaterThan(shares[i - 1]!);
      });
    }
    expect(near(cut(run, "dryMass"), dryOf(hay()))).toBe(true);
    const later = once(hay(), { later: 2 * HOUR });
    expect(later.days[0]!.fields[0]!.dryMass / later.days[0]!.fields[0]!.mass).toBeGreaterThan(run.days[0]!.fields[0]!.dryMass / run.days[0]!.fields[0]!.mass + 0.019);
    const { whenToStart } = told([hay()]);
    expect(whenToStart.by).toBe("time of day");
    expect(whenToStart.tried[0]!.starts).toBe("10:00");
  });

  it("goes from farm to farm with the choppers and trucks of the first, one farm a day", () => {
    const first = three();
    const second = { ...three({ name: "The neighbour's", fields: [field({ area: 50_000, chopper: 0 })], trucks: [trucks(1, { load: 3000 })] }), campaign: undefined } as unknown as Scenario;
    const run = once([first, second]);
    const farms = run.days.map(({ farm }) => farm);
    expect(farms).toEqual([...farms].sort((a, b) => a - b));
    expect(new Set(farms)).toEqual(new Set([0, 1]));
    expect(run.allIn).toBe(true);
    const there = run.days.find(({ farm }) => farm === 1)!;
    expect(cut({ ...run, days: [there] }, "mass") / there.loads).toBeGreaterThan(10_000);
  });
});

describe("Many campaigns", () => {
  const lucky = (over: Partial<Campaign> = {}) => three({ variation: varying(TYPICAL), crop: { ...CROP, dryMatter: 0.29 }, fields: [field({ area: 60_000, dryMatter: 0.29 }), field({ name: "Other", area: 60_000, dryMatter: 0.29 })] }, { rain: 0.3, ...over });

  it("come out the same to the byte for the same seed, and otherwise for another", () => {
    const text = (seed: number) => JSON.stringify(told([lucky()], { campaigns: 4, seed }));
    expect(text(5)).toBe(text(5));
    expect(text(5)).not.toBe(text(6));
  });

  it("tell the days gone through, let others in between, end where they are told to, and come out the same on any hands", async () => {
    const heard: number[] = [];
    const here = carryOut(campaigns([lucky()], { campaigns: 3 }), { onProgress: ({ done, expected }) => { heard.push(done); expect(expected).toBeGreaterThanOrEqual(done); } });
    expect(heard).toEqual([...heard].sort((a, b) => a - b));
    expect(heard.at(-1)).toBeGreaterThan(3);
    let pauses = 0;
    const there = await carryOutOn({ ...contraryHands(1).hands, pause: async () => { pauses++; } }, campaigns([lucky()], { campaigns: 3 }));
    expect(JSON.stringify(there)).toBe(JSON.stringify(here));
    expect(pauses).toBe(heard.length);
    let steps = 0;
    expect(() => carryOut(campaigns([lucky()], { campaigns: 3 }), { shouldStop: () => ++steps > 5 })).toThrow(Stopped);
  });

  it("show what is known of the plan, and the starts tried so far, while more are being tried", () => {
    const shown: (CampaignsSoFar | undefined)[] = [];
    const { whenToStart, ...planned } = carryOut(campaigns([lucky()], { campaigns: 2 }), { onProgress: ({ soFar }) => { shown.push(soFar); } });
    expect(shown.slice(0, 2)).toEqual([undefined, undefined]);
    for (const soFar of shown.slice(2)) {
      const { tried, ...before } = soFar!;
      expect(before).toEqual(planned);
      expect(tried).toEqual(whenToStart.tried.slice(0, tried.length));
    }
    expect(shown.at(-1)!.tried).toHaveLength(whenToStart.tried.length - 1);
  });

  it("add no bills in different currencies", () => {
    const other = three({ name: "Over the border" });
    const { cost, whenToStart } = told([three(), { ...other, money: { ...other.money, currency: "another" } }], { campaigns: 1 });
    expect([cost, ...whenToStart.tried.map(({ costPerDryTonne }) => costPerDryTonne)].filter((each) => each !== null)).toEqual([]);
  });

  it("meet the same rain on the same days, whenever they start", () => {
    const { farms, campaign } = farmsOf([lucky()]);
    for (let number = 0; number < 10; number++) {
      const wet = (starts: number) => campaignRun(farms, { ...campaign, days: 8 }, { seed: 1, number }, { starts }).days;
      const late = new Map(wet(STARTS + 1).map(({ day, rained }) => [day, rained]));
      for (const { day, rained } of wet(STARTS)) if (late.has(day)) expect(late.get(day)).toBe(rained);
    }
  });

  it("lose so many days to rain as the chance says, and dry at the published mean", () => {
    const { farms, campaign } = farmsOf([lucky()]);
    const all = Array.from({ length: 300 }, (_, number) => campaignRun(farms, { ...campaign, days: 1, starts: STARTS + 2 }, { seed: 3, number }));
    const rained = all.filter(({ days }) => days[0]!.rained).length / all.length;
    // Four standard errors of a share, and of the mean of a triangle.
    expect(Math.abs(rained - 0.3)).toBeLessThan(4 * Math.sqrt(0.21 / all.length));
    const rates = all.filter(({ days }) => !days[0]!.rained).map((run) => (100 * cut(run, "dryMass")) / cut(run, "mass") - 29);
    const sd = 1 * Math.sqrt((0.48 ** 2 + 0.58 ** 2 + 1.94 ** 2 - 0.48 * 0.58 - 0.48 * 1.94 - 0.58 * 1.94) / 18);
    expect(Math.abs(rates.reduce((sum, rate) => sum + rate, 0) / rates.length - 1)).toBeLessThan((4 * sd) / Math.sqrt(rates.length));
  });

  it("say when to start: the best start has the most inside the window, and nothing later than the latest ends inside so surely", () => {
    const { whenToStart } = told([lucky({ rain: 0 })], { campaigns: 10 });
    const { best, latest, tried } = whenToStart;
    expect(Math.max(...tried.map(({ inside }) => inside))).toBe(best.inside);
    expect(tried.map(({ starts }) => starts)).toEqual([...tried.map(({ starts }) => starts)].sort());
    for (const { inside, tooWet, tooDry } of tried) expect(inside + tooWet + tooDry).toBeCloseTo(1, 9);
    tried.forEach((each, i) => { if (i > 0) expect(each.tooDry).toBeGreaterThanOrEqual(tried[i - 1]!.tooDry - 1e-9); });
    for (const each of tried) if (latest && each.starts > latest.starts) expect(each.endsInside).toBeLessThan(0.9);
    expect(whenToStart.inWords).toContain(best.starts);
  });

  it("recommend no start from which less of the whole crop comes inside the window, because much of it is left standing", () => {
    // About ten hours of cutting, drying a point an hour from 31 %: inside the window between the fourth hour and the ninth.
    const grass = three({
      crop: { ...CROP, kind: "grass", dryMatter: 0.31 }, fields: ["North", "South"].map((name) => field({ name, area: 160_000, dryMatter: 0.31 })), shift: { start: 8 * HOUR, end: 20 * HOUR },
      storages: [bunker({ length: 120, meanDepth: null })],
    }, { days: 1 });
    const { best, tried, inWords } = told([grass], { campaigns: 1 }).whenToStart;
    const late = tried.reduce((a, b) => (b.inside > a.inside ? b : a));
    expect(late.allIn).toBe(0);
    expect(best.allIn).toBe(1);
    expect(best.inside).toBeLessThan(late.inside);
    expect(inWords).toContain(`Start at ${best.starts}: then ${Math.round(100 * best.inside)} % of the dry matter is cut inside the window; of the whole crop that is the most of any start. `);
  });

  it("say in a sentence that no start reaches the window, or that from none the harvest ends inside it", () => {
    const far = three({ crop: { ...CROP, kind: "grass", dryMatter: 0.2 }, fields: [field({ area: 40_000, dryMatter: 0.2 })], shift: { start: 8 * HOUR, end: 13 * HOUR } }, { days: 1 });
    expect(told([far], { campaigns: 1 }).whenToStart.inWords).toMatch(/^From no start is anything cut inside the window: from 08:00 on it is too wet, and so it is still on the last one tried, 12:00\. /u);
    const late = three({ fields: [field({ area: 400_000, dryMatter: 0.34 })] }, { days: 4 });
    expect(told([late], { campaigns: 1 }).whenToStart.inWords).toMatch(/ From no start does the harvest end inside the window, on any campaign\. /u);
  });

  it("say in a sentence that the window is past already, or not yet there", () => {
    const past = told([three({ crop: { ...CROP, dryMatter: 0.38 }, fields: [field({ area: 40_000, dryMatter: 0.38 })] })]);
    expect(past.notes[0]).toMatch(/^On \d{4}-\d\d-\d\d, when the campaign starts, the window of 30 % to 35 % dry matter is past: the crop of "Three fields" is drier already\.$/u);
    expect(past.whenToStart.inWords).toMatch(/^The window is past already/u);
    expect(past.chance.endsInside).toBe(0);
    const wet = told([three({ crop: { ...CROP, dryMatter: 0.27 }, fields: [field({ area: 40_000, dryMatter: 0.27 })] })]);
    expect(wet.notes[0]).toMatch(/still wetter than the window/u);
  });

  it("refuse in a sentence what they cannot go through", () => {
    const { campaign: _none, ...plain } = three();
    expect(() => told([plain])).toThrow(/"Three fields" says nothing of a campaign/u);
    expect(() => told([])).toThrow(/says nothing of a campaign/u);
    expect(() => told([three()], { campaigns: 0 })).toThrow(/whole number of 1 or more/u);
    expect(() => told(Array.from({ length: 11 }, () => three()))).toThrow(/up to 10 farms, not 11/u);
    expect(() => told([three({}, { dew: 12 * HOUR }), three({ name: "Early birds", shift: { start: 6 * HOUR, end: 12 * HOUR } })])).toThrow(/shift of "Early birds" is over before the dew is off/u);
    expect(() => told([three(), three({ name: "Late" }, { measured: STARTS + 1, starts: STARTS + 3 })])).toThrow(/"Late" was measured after the first day of cutting/u);
  });
});
