/** The rest of a day: what still finishes, when to stop, who can go home, and what can still be done. */
import { describe, expect, it } from "vitest";
import { restFacts } from "../../sim/findings/rest.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { MORNING, type DayStart } from "../../sim/harvest/start.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { fixes } from "../../sim/study/fixes.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { HOME_TOLERANCE } from "../../sim/study/rest.ts";
import { carryOut } from "../../sim/study/work.ts";
import { remediesToday } from "../../sim/study/remedies.ts";
import { bunker, field, HOUR, plan, trucks } from "../harvest/plan.ts";
import { stateAt } from "../harvest/noon.ts";
import { smallDay } from "./small.ts";

const NOON = 12 * HOUR;
const load = (mass: number) => ({ mass, dryMass: mass * 0.34 });
const noon: DayStart = { ...MORNING, at: NOON, fields: [{ taken: 100_000, left: null }], storages: [{ lifts: [{ ...load(90_000), layer: 0.15, density: 230 }], apron: [load(10_000)] }] };
const closed = (scenario: Scenario, start: DayStart, rehearsal = 0) => restFacts(rehearseDay(scenario, { start, rehearsal })).closed;
const seconds = (clock: string) => Number(clock.slice(0, 2)) * 3600 + Number(clock.slice(3)) * 60;

describe("The rest of a day", () => {
  it("is told only where the day was taken up, and then says what each field still gives", () => {
    expect(rehearse(smallDay(), { rehearsals: 2 }).findings.rest).toBeUndefined();
    const { findings, day } = rehearse(smallDay({ variation: plan().variation }), { start: noon });
    const rest = findings.rest!;
    expect(rest.from).toBe("12:00");
    // 6 ha at 45 t/ha, 100 t of it taken.
    expect(rest.fields[0]).toMatchObject({ name: "Long Strip", standingT: expect.closeTo(170, 6) as number, leftT: 0, doneOn: 1 });
    expect(Math.abs(seconds(rest.closedAt.median) - day.lifts.at(-1)!.closed)).toBeLessThanOrEqual(30);
    expect(rest.closedAt.early).toBe(rest.closedAt.late);
    expect(findings.measures.finishedAt!.mean * 3600).toBeCloseTo(day.lifts.at(-1)!.closed - NOON, 6);
    // What the derivations say of the finish is the same clock.
    expect(Object.values(findings.sources.finishedAt!.inputs).join(" ")).toContain(rest.closedAt.median);
  });

  it("says a field does not get done on the share of days on which it does not", () => {
    const short = smallDay({ shift: { start: 7 * HOUR, end: NOON + HOUR + 20 * 60, breaks: [] } });
    const { rest } = rehearse(short, { rehearsals: 8, start: noon }).findings;
    const left = Array.from({ length: 8 }, (_, rehearsal) => rehearseDay(short, { rehearsal, start: noon }).uncut[0]!);
    expect(rest!.fields[0]!.doneOn).toBeCloseTo(left.filter((kg) => kg === 0).length / 8, 9);
    expect(rest!.fields[0]!.leftT).toBeCloseTo(left.reduce((sum, kg) => sum + kg, 0) / 8000, 6);
  });

  it("has every figure of a storage to which nothing comes any more: the fill then lasts from the time it was taken up", () => {
    const bare: DayStart = { ...noon, fields: [{ taken: 100_000, left: 0 }] };
    const { findings: { storages: [storage], rest, verdict } } = rehearse(smallDay(), { rehearsals: 3, start: bare });
    expect(verdict.headline).toMatch(/^Nothing more comes in: the clamp ends at \d+ kg DM\/m3, target \d+ kg DM\/m3\.$/);
    for (const [name, value] of Object.entries(storage!)) if (typeof value === "number") expect(Number.isFinite(value), name).toBe(true);
    expect(storage!.fillTime).toBeGreaterThan(0);
    expect(NOON + storage!.fillTime * 3600).toBeLessThanOrEqual(seconds(rest!.closedAt.late) + 30);
  });
});

describe("When to stop cutting", () => {
  const rule = "hold-then-bury" as const;
  const day = (end: number) => smallDay({ fields: [field({ area: 200_000 })], packing: { whenBehind: rule }, shift: { start: 7 * HOUR, end, breaks: [] } });
  const onTime = (scenario: Scenario, stop: number, end: number) =>
    Array.from({ length: 10 }, (_, rehearsal) => closed({ ...scenario, shift: { ...scenario.shift, end: stop } }, noon, rehearsal) <= end).filter(Boolean).length;

  it("is the last time tried after which all is closed by the end of the shift on 9 of 10 days", () => {
    const end = 19 * HOUR;
    const stop = rehearse(day(end), { rehearsals: 10, start: noon }).findings.rest!.stopCutting;
    expect(stop.at).not.toBeNull();
    expect(onTime(day(end), seconds(stop.at!), end)).toBeGreaterThanOrEqual(9);
    expect(onTime(day(end), seconds(stop.at!) + 300, end)).toBeLessThan(9);
    expect(stop.inWords).toMatch(new RegExp(`^Stop cutting at ${stop.at}: .*10 days rehearsed`, "u"));
  });

  it("speaks of one day where one was rehearsed", () => {
    const still = (end: number) => rehearse({ ...day(end), variation: plan().variation }, { start: noon }).findings.rest!;
    expect(still(19 * HOUR).stopCutting.inWords).toMatch(/^Stop cutting at \d\d:\d\d: then all is packed and closed by 19:00; five minutes later it is not\. One day rehearsed/u);
    expect(still(NOON + 1800).stopCutting.inWords).toMatch(/not all is packed and closed by 12:30\. One day rehearsed/u);
    expect(still(24 * HOUR).stopCutting.inWords).toMatch(/^No need to stop early: all is packed and closed by 00:00 \(\+1 day\)\. One day rehearsed/u);
    expect(still(19 * HOUR).trucks[0]!.inWords).toContain(" later on the day rehearsed.");
  });

  it("is never where the crop is in and packed long before, and now where even that is too late", () => {
    expect(rehearse(smallDay(), { rehearsals: 2, start: noon }).findings.rest!.stopCutting).toMatchObject({ at: null, inWords: expect.stringMatching(/^No need/u) as string });
    expect(rehearse(day(NOON + 1800), { rehearsals: 2, start: noon }).findings.rest!.stopCutting).toMatchObject({ at: "12:00", inWords: expect.stringMatching(/^It is too late already/u) as string });
  });
});

describe("Who can go home", () => {
  it("holds on every day that was rehearsed, and a quarter of an hour earlier it would not", () => {
    const scenario = smallDay({ fields: [field({ area: 120_000 })], trucks: [trucks(4)], packing: { whenBehind: "bury" } });
    const found = rehearse(scenario, { rehearsals: 3, start: noon }).findings.rest!.trucks;
    expect(found.map(({ name }) => name)).toEqual(["Tipper 4", "Tipper 3", "Tipper 2", "Tipper 1"]);
    const late = (sentHome: DayStart["sentHome"]) => Math.max(...[0, 1, 2].map((rehearsal) => closed(scenario, { ...noon, sentHome }, rehearsal) - closed(scenario, noon, rehearsal)));
    const sent = found.map(({ name, from }) => ({ name, at: seconds(from) }));
    sent.forEach((_, k) => expect(late(sent.slice(0, k + 1))).toBeLessThanOrEqual(HOME_TOLERANCE));
    const first = sent.find(({ at }) => at > NOON)!;
    const before = sent.slice(0, sent.indexOf(first));
    const uncut = (sentHome: DayStart["sentHome"]) => Math.max(...[0, 1, 2].map((rehearsal) => rehearseDay(scenario, { rehearsal, start: { ...noon, sentHome } }).uncut[0]!));
    const earlier = [...before, { ...first, at: first.at - 900 }];
    expect(late(earlier) > HOME_TOLERANCE || uncut(earlier) > 500).toBe(true);
  });

  it("leaves out a truck that is away all day, and sends one home at once that nobody needs", () => {
    const scenario = smallDay({ variation: plan().variation, fields: [field({ area: 120_000, distance: 200 })], trucks: [trucks(6)], packing: { whenBehind: "hold" } });
    const found = rehearse(scenario, { start: { ...noon, away: [{ kind: "truck", name: "Tipper 6", until: null }] } }).findings.rest!.trucks;
    expect(found[0]).toMatchObject({ name: "Tipper 5", from: "12:00", inWords: expect.stringMatching(/can go home now/u) as string });
  });
});

describe("Remedies for the rest of a day", () => {
  const scenario = smallDay({ shift: { start: 7 * HOUR, end: 20 * HOUR, breaks: [{ at: 10 * HOUR, for: 1800 }] } });

  it("leave out what cannot be done any more, and say why", () => {
    const { remedies, notTried } = remediesToday(scenario, noon);
    const families = new Set(remedies.map(({ family }) => family));
    for (const family of ["second-clamp", "apron", "tipping-place", "earlier", "breaks"] as const) {
      expect(families.has(family), family).toBe(false);
      expect(notTried.find((each) => each.family === family)?.because, family).toMatch(/\.$/u);
    }
    for (const family of ["truck-more", "truck-fewer", "tractor-more", "thinner-layer", "slower-chopper", "rule", "longer"] as const) expect(families.has(family), family).toBe(true);
    expect(remedies.find(({ family }) => family === "longer")!.apply(scenario).shift.end).toBe(22 * HOUR);
    expect(remediesToday(scenario, { ...noon, at: 9 * HOUR }).remedies.some(({ family }) => family === "breaks")).toBe(true);
  });

  it("spare no truck while every one of them is on the road with a load", () => {
    const onTheRoad = [1, 2, 3, 4, 5].map(() => ({ ...load(16_000), field: 0, storage: 0 }));
    expect(remediesToday(scenario, { ...noon, onTheRoad }).notTried.find(({ family }) => family === "truck-fewer")?.because).toMatch(/every truck is on the road/u);
  });

  it("are each rehearsed from the same state", () => {
    const result = carryOut(fixes(scenario, { rehearsals: 2, start: noon }));
    expect(result.from).toBe("12:00");
    expect(result.base.measures.finishedAt!.mean).toBeCloseTo((closed(scenario, noon, 0) + closed(scenario, noon, 1)) / 7200 - 12, 6);
    expect(result.rows.every(({ family }) => family !== "earlier" && family !== "second-clamp")).toBe(true);
    expect(result.marginal.map(({ station }) => station)).toEqual(["cutting", "hauling", "spreading", "packing"]);
    expect(carryOut(fixes(scenario, { rehearsals: 2 })).from).toBeUndefined();
  });
});

describe("The whole day and its rest", () => {
  it("agree: rehearsed on from what its own log says at noon, the clamp comes to the density of the whole day", () => {
    const scenario = plan({ fields: [field()], storages: [bunker()] });
    const whole = rehearseDay(scenario);
    const density = (start?: DayStart) => rehearse(scenario, start ? { start } : {}).findings.measures.dryDensity!.mean;
    // Of some 84 lifts one is rolled anew and a handful lie in another order of trucks: under 1 %.
    expect(Math.abs(density(stateAt(scenario, whole, NOON)) / density() - 1)).toBeLessThan(0.01);
  });
});
