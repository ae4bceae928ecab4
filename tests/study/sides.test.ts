import { describe, expect, it } from "vitest";
import { compare } from "../../sim/study/compare.ts";
import { sidesOf } from "../../sim/study/sides.ts";
import { carryOut } from "../../sim/study/work.ts";
import { example } from "../scenarios/example.ts";

const difference = (mean: number, better: boolean | null) => ({ mean, better }) as Parameters<typeof sidesOf>[2]["dryDensity"] & object;

describe("Two plans in words", () => {
  it("say what each is better at, and leave out what is not sure", () => {
    const sides = sidesOf("B", "A", { dryDensity: difference(-60, false), costPerTonneFed: difference(-7, true), fillTime: difference(0.1, null) }, "corn");
    expect(sides).toEqual(["B is better at: cost, dry matter fed.", "A is better at: dry matter density."]);
  });

  it("call a density inside the scatter of the published relation so: up to 42 kg DM/m3 for corn (2.9 lb/ft3, 81.8 % unexplained), 55 for hay crops (3.8)", () => {
    const inside = (mean: number, crop: string) => sidesOf("B", "A", { dryDensity: difference(mean, null) }, crop).length === 1;
    expect([inside(41.9, "corn"), inside(-41.9, "corn"), inside(42.1, "corn"), inside(54, "grass"), inside(56, "grass"), inside(0, "corn")]).toEqual([true, true, false, true, false, false]);
  });

  it("of a bunker and a pile: the bunker is denser, the pile feeds the cheaper tonne, and the densities are not told apart", () => {
    const { inWords } = carryOut(compare([example("bunker-12x45"), example("pile-for-12x45")], { rehearsals: 20 }));
    expect(inWords.find((note) => note.startsWith("A is better"))).toContain("dry matter density");
    expect(inWords.find((note) => note.startsWith("B is better"))).toContain("cost, dry matter fed");
    expect(inWords.some((note) => /^The densities of B and A differ by \d+ kg DM\/m3, inside the 42 kg/u.test(note))).toBe(true);
  });
});
