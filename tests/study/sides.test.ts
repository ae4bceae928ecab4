import { describe, expect, it } from "vitest";
import { compare } from "../../sim/study/compare.ts";
import { isLeftOpen, sidesOf, type PlanDifference, type Ranged } from "../../sim/study/sides.ts";
import { carryOut } from "../../sim/study/work.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { blade, bunker, CROP, plan, roller } from "../harvest/plan.ts";
import { example } from "../scenarios/example.ts";

const difference = (mean: number, better: boolean | null, within: PlanDifference["within"] = null) => ({ mean, better, within }) as PlanDifference;
const paired = (plans: readonly Scenario[]) => carryOut(compare(plans, { rehearsals: 2 })).differences.map(({ figures }) => figures);

describe("Two plans in words", () => {
  it("say what each is better at, and leave out what is not sure", () => {
    const sides = sidesOf("B", "A", { dryDensity: difference(-60, false), costPerTonneFed: difference(-7, true), fillTime: difference(0.1, null) });
    expect(sides).toEqual(["B is better at: cost, dry matter fed.", "A is better at: dry matter density."]);
  });

  it("call nothing a win that the loss ledger or the scatter of the relation leaves open, however sure the days are", () => {
    const figures = {
      dryDensity: difference(-20, false, "relation"), dryMatterFed: difference(3, true, "ledger"), costPerTonneFed: difference(-7, true, "ledger"), costPerTonne: difference(1, false),
    };
    expect(sidesOf("B", "A", figures)).toEqual([
      "A is better at: cost, fresh, delivered.",
      "B is ahead on the days rehearsed, but by less than the loss ledger leaves open, at: dry matter fed; cost, dry matter fed.",
      expect.stringMatching(/^The densities of B and A differ by 20 kg DM\/m3, and storages packed alike by as much: /u),
    ]);
  });

  it("are left open where each lies in the other's range, and not where one does only", () => {
    const [a, b, c] = [[5, 3, 8], [7, 4, 9], [5, 4.9, 6]].map(([value, low, high]) => ({ value: value!, range: [low!, high!] as const })) as [Ranged, Ranged, Ranged];
    expect([isLeftOpen(a, b), isLeftOpen(b, a), isLeftOpen(b, c), isLeftOpen(a, a)]).toEqual([true, true, false, false]);
  });

  it("leave a density open as long as each lies in the band of 8 in 10 storages around the other: 1.28 times 42 kg DM/m3 for corn (2.9 lb/ft3, 81.8 % unexplained), 55 for hay crops (3.8)", () => {
    for (const [kind, sd] of [["corn", 2.9], ["grass", 3.8]] as const) {
      const reach = 1.2816 * sd * 16.0185 * Math.sqrt(0.818);
      const plans = [10, 11, 13, 16, 20, 25].map((t) => plan({ crop: { ...CROP, kind }, storages: [bunker({ tractors: [blade(1000 * t), roller(1000 * t)] })] }));
      const densities = paired(plans).map(({ dryDensity }) => dryDensity!);
      for (const { mean, within } of densities) expect(within, `${kind}, ${mean}`).toBe(Math.abs(mean) < reach ? "relation" : null);
      expect(new Set(densities.map(({ within }) => within)).size, kind).toBe(2);
    }
  });

  it("have no difference of cost where the two reckon in different money", () => {
    const [figures] = paired([plan({}), plan({ money: { ...plan({}).money, currency: "another" } })]) as [ReturnType<typeof paired>[number]];
    expect(figures.costPerTonne ?? figures.costPerTonneFed).toBeUndefined();
    expect(figures.dryMatterFed).toBeDefined();
  });

  it("of a bunker and a pile: the pile feeds the cheaper tonne and the bunker more of them, both by less than the ledger leaves open, and the densities are not told apart", () => {
    const { inWords } = carryOut(compare([example("bunker-12x45"), example("pile-for-12x45")], { rehearsals: 20 }));
    expect(inWords).toEqual([
      expect.stringMatching(/^B is ahead .* at: cost, dry matter fed\.$/u), expect.stringMatching(/^A is ahead .* at: dry matter fed\.$/u),
      expect.stringMatching(/^The densities of B and A differ by \d+ kg DM\/m3, and storages packed alike by as much/u),
    ]);
  });
});
