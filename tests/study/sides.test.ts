import { describe, expect, it } from "vitest";
import { compare } from "../../sim/study/compare.ts";
import { isLeftOpen, sidesOf, type Ranged } from "../../sim/study/sides.ts";
import { carryOut } from "../../sim/study/work.ts";
import { example } from "../scenarios/example.ts";

const difference = (mean: number, better: boolean | null) => ({ mean, better }) as Parameters<typeof sidesOf>[2]["dryDensity"] & object;

describe("Two plans in words", () => {
  it("say what each is better at, and leave out what is not sure", () => {
    const sides = sidesOf("B", "A", { dryDensity: difference(-60, false), costPerTonneFed: difference(-7, true), fillTime: difference(0.1, null) }, "corn");
    expect(sides).toEqual(["B is better at: cost, dry matter fed.", "A is better at: dry matter density."]);
  });

  it("call nothing a win that the loss ledger or the scatter of the relation leaves open, however sure the days are", () => {
    const figures = { dryDensity: difference(-20, false), dryMatterFed: difference(3, true), costPerTonneFed: difference(-7, true), costPerTonne: difference(1, false) };
    expect(sidesOf("B", "A", figures, "corn", new Set(["dryMatterFed", "costPerTonneFed"] as const))).toEqual([
      "A is better at: cost, fresh, delivered.",
      "B is ahead on the days rehearsed, but by less than the loss ledger leaves open, at: dry matter fed; cost, dry matter fed.",
      expect.stringMatching(/^The densities of B and A differ by 20 kg DM\/m3, inside the 42 kg/u),
    ]);
  });

  it("are left open where each lies in the other's range, and not where one does only", () => {
    const [a, b, c] = [[5, 3, 8], [7, 4, 9], [5, 4.9, 6]].map(([value, low, high]) => ({ value: value!, range: [low!, high!] as const })) as [Ranged, Ranged, Ranged];
    expect([isLeftOpen(a, b), isLeftOpen(b, a), isLeftOpen(b, c), isLeftOpen(a, a)]).toEqual([true, true, false, false]);
  });

  it("call a density inside the scatter of the published relation so: up to 42 kg DM/m3 for corn (2.9 lb/ft3, 81.8 % unexplained), 55 for hay crops (3.8)", () => {
    const inside = (mean: number, crop: string) => sidesOf("B", "A", { dryDensity: difference(mean, null) }, crop).length === 1;
    expect([inside(41.9, "corn"), inside(-41.9, "corn"), inside(42.1, "corn"), inside(54, "grass"), inside(56, "grass"), inside(0, "corn")]).toEqual([true, true, false, true, false, false]);
  });

  it("of a bunker and a pile: the pile feeds the cheaper tonne and the bunker more of them, both by less than the ledger leaves open, and the densities are not told apart", () => {
    const { inWords } = carryOut(compare([example("bunker-12x45"), example("pile-for-12x45")], { rehearsals: 20 }));
    expect(inWords).toEqual([
      expect.stringMatching(/^B is ahead .* at: cost, dry matter fed\.$/u), expect.stringMatching(/^A is ahead .* at: dry matter fed\.$/u),
      expect.stringMatching(/^The densities of B and A differ by \d+ kg DM\/m3, inside the 42 kg/u),
    ]);
  });
});
