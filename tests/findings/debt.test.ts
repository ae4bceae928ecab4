/** Packing debt, worked by hand: Lindley's recursion, the moment from which packing is behind, breaks and smaller crews. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { packingDebt, readDebt, type DebtPoint } from "../../sim/findings/debt.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { CrewChange } from "../../sim/harvest/daylog.ts";
import { anyDay, RUNS } from "../harvest/generated.ts";
import { blade, bunker, plan, roller, SEVEN } from "../harvest/plan.ts";
import { densityAfter } from "../harvest/relation.ts";
import { madeDay, trip } from "./madeday.ts";

/** A usual load of 16 t owes 600 s: one tractor rolls all the time, the blade spreads in no time to speak of and does not roll. */
const OWED = 600;
const target = densityAfter(OWED, { mass: 16_000, load: 16_000, dryMatter: 0.34, layer: 0.15, depth: 2.6 });
const scenario = (breaks: readonly { at: number; for: number }[] = []) => plan({
  storages: [bunker({ tractors: [blade(14_000, { rolling: 0, spreads: 1e9 }), roller()] })], targets: { dryDensity: target },
  shift: { breaks: breaks.map((pause) => ({ ...pause, at: SEVEN + pause.at })) },
});

interface Story { readonly tips: readonly (number | { at: number; mass: number })[]; readonly until: number; readonly crew?: readonly CrewChange[]; readonly breaks?: readonly { at: number; for: number }[] }
function tell({ tips, until, crew = [], breaks = [] }: Story) {
  const plan = scenario(breaks);
  const trips = tips.map((tip) => trip(typeof tip === "number" ? { tipFrom: tip } : { tipFrom: tip.at, mass: tip.mass }));
  const points = packingDebt(madeDay({ trips, until, crew }), plan, 0);
  const story = readDebt(points, plan, 0, 2.6, SEVEN + until);
  return { points: points.map((point) => [Math.round(point.time - SEVEN), Math.round(point.debt)]), ...story, behindFrom: story.behindFrom === null ? null : story.behindFrom - SEVEN };
}
/** Debt just after each tip by Lindley's recursion. */
const lindley = (tips: readonly number[]) => tips.reduce<number[]>((after, at, i) => [...after, Math.max(0, (after.at(-1) ?? 0) - (at - (tips[i - 1] ?? at))) + OWED], []);

describe("The debt of a clamp", () => {
  it("rises by t* at each tip, is worked off a second a second, and never falls below nothing", () => {
    const { points, peak, idle, onSite } = tell({ tips: [100, 200, 1700], until: 3000 });
    expect(points).toEqual([[0, 0], [100, 0], [100, 600], [200, 500], [200, 1100], [1300, 0], [1700, 0], [1700, 600], [2300, 0], [3000, 0]]);
    expect(Math.round(peak)).toBe(1100);
    // Without debt until 100, from 1300 to 1700 and from 2300 on.
    expect([Math.round(idle), onSite]).toEqual([100 + 400 + 700, 3000]);
  });

  it("follows Lindley's recursion", () => {
    const tips = [0, 250, 500, 1900, 2000, 2050, 5000, 5600];
    const { points } = tell({ tips, until: 9000 });
    const after = tips.map((tip) => Math.max(...points.filter(([time]) => time === tip).map(([, debt]) => debt!)));
    expect(after).toEqual(lindley(tips));
  });

  it("owes half for half a load: t* is that of the load, not of the usual one", () => {
    expect(tell({ tips: [{ at: 0, mass: 8000 }], until: 1000 }).points).toEqual([[0, 0], [0, 0], [0, 300], [300, 0], [1000, 0]]);
  });

  it("is paid by a smaller crew in proportion to its rate, and by nobody without a blade", () => {
    const crew = [{ storage: 0, at: 100, pays: 0.5 }, { storage: 0, at: 300, pays: 0 }, { storage: 0, at: 500, pays: 1 }];
    // 100 s at full pay, 200 s at half, 200 s at none: 400 left at 500.
    expect(tell({ tips: [0], until: 1000, crew }).points).toEqual([[0, 0], [0, 0], [0, 600], [100, 500], [300, 400], [500, 400], [900, 0], [1000, 0]]);
  });

  it("is not paid in a break", () => {
    const { points, onSite } = tell({ tips: [0], until: 2000, breaks: [{ at: 200, for: 900 }] });
    expect(points).toEqual([[0, 0], [0, 0], [0, 600], [200, 400], [1100, 400], [1500, 0], [2000, 0]]);
    expect(onSite).toBe(2000 - 900);
  });

  it("is each storage's own", () => {
    const two = { ...scenario(), storages: [scenario().storages[0]!, scenario().storages[0]!], fields: [{ ...scenario().fields[0]!, storages: [0, 1] }] };
    const day = madeDay({ trips: [trip({ tipFrom: 0 }), trip({ tipFrom: 10, storage: 1 })], until: 1000, plannedDepth: [2.6, 2.6], crew: [{ storage: 1, at: 0, pays: 0.5 }] });
    const peaks = [0, 1].map((s) => packingDebt(day, two, s).map((point) => Math.round(point.debt)));
    expect(peaks).toEqual([[0, 0, 600, 0, 0], [0, 0, 0, 600, 105]]);
  });
});

describe("Behind from", () => {
  it.each([
    ["one load", [0], null],
    ["two at once: above one load's t* for ten minutes", [0, 0], null],
    ["five at once: for forty minutes", [0, 0, 0, 0, 0], 0],
  ] as const)("%s", (_, tips, from) => {
    expect(tell({ tips: [...tips], until: 9000 }).behindFrom).toBe(from);
  });

  it("is the first moment from which it stays above, not the first at which it is above", () => {
    // Two at 0 are worked off to one load's t* by 600; five at 3000 stay above for 40 minutes.
    expect(tell({ tips: [0, 0, 3000, 3000, 3000, 3000, 3000], until: 9000 }).behindFrom).toBe(3000);
  });

  it("is when a delivery twice as fast as the crew has brought its third load, for until then it touches one load's t*", () => {
    const tips = Array.from({ length: 30 }, (_, i) => 300 * i);
    // After the tips 600, 900, 1200 ...; before them 300, 600, 900: on the mark at 600, above it from then on.
    expect(tell({ tips, until: 40_000 }).behindFrom).toBe(600);
  });

  it("is never when the delivery is exactly what the crew packs", () => {
    expect(tell({ tips: Array.from({ length: 40 }, (_, i) => OWED * i), until: 40_000 }).behindFrom).toBeNull();
  });

  it("counts working time only: a break neither makes nor mends it", () => {
    // Three at once: above for twenty minutes, with a break of an hour in the middle still twenty.
    expect(tell({ tips: [0, 0, 0], until: 9000, breaks: [{ at: 300, for: 3600 }] }).behindFrom).toBeNull();
    expect(tell({ tips: [0, 0, 0, 0, 0], until: 9000, breaks: [{ at: 300, for: 3600 }] }).behindFrom).toBe(0);
  });

  it("comes with a breakdown of the blade, though no load is late", () => {
    const tips = [0, 700, 1400, 2100, 2800, 3500];
    const crew = [{ storage: 0, at: 650, pays: 0 }, { storage: 0, at: 4000, pays: 1 }];
    expect(tell({ tips, until: 9000 }).behindFrom).toBeNull();
    // 600 at 700, 1200 at 1400: above from then on.
    expect(tell({ tips, until: 9000, crew }).behindFrom).toBe(1400);
  });

  it("counts a debt that is still above when the day is over", () => {
    expect(tell({ tips: [0, 0, 0, 0, 0], until: 1900, crew: [{ storage: 0, at: 0, pays: 0 }] }).behindFrom).toBe(0);
    expect(tell({ tips: [0, 0, 0, 0, 0], until: 1700, crew: [{ storage: 0, at: 0, pays: 0 }] }).behindFrom).toBeNull();
  });
});

describe("On any day", () => {
  const lines = (look: (points: DebtPoint[], until: number) => void) => fc.assert(fc.property(anyDay(), (scenario) => {
    const day = rehearseDay(scenario);
    scenario.storages.forEach((_, s) => look(packingDebt(day, scenario, s), day.until));
  }), RUNS);

  it("the debt is never negative, its line never goes back, and it falls no faster than a second a second", () => {
    lines((points, until) => {
      for (const [i, point] of points.entries()) {
        const before = points[i - 1];
        const wrong = point.debt < 0 || point.time > until || (before && (point.time < before.time || before.debt - point.debt > point.time - before.time + 1e-6));
        if (wrong) throw new Error(`point ${i}: ${JSON.stringify([before, point])}`);
      }
    });
  }, 600_000);
});
