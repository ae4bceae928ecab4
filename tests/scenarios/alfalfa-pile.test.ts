/** Alfalfa in a drive-over pile: the crew keeps pace, and the shallow pile wants more rolling than a bunker would. */
import { describe, expect, it } from "vitest";
import { depthTerm } from "../../sim/forage/packing.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { example, off } from "./example.ts";

const pile = example("alfalfa-pile");
/** The same crop and crew between walls as high as the pile: narrower, for about the same room. */
const bunker: Scenario = {
  ...pile,
  storages: [{ ...pile.storages[0]!, form: "bunker", width: 20, sideSlope: 0, topWidth: null, tipsOnPile: false }],
};
const { findings, day } = rehearse(pile, { rehearsals: 60 });
const { findings: walled, day: walledDay } = rehearse(bunker, { rehearsals: 60 });

describe("alfalfa in a drive-over pile", () => {
  it("keeps pace with 60 t of tractors on at least nine days of ten, and reaches the target", () => {
    expect(pile.storages[0]!.tractors.reduce((sum, tractor) => sum + tractor.mass, 0)).toBe(60_000);
    expect(findings.verdict.chance).toBeGreaterThanOrEqual(0.9);
    expect(findings.measures.dryDensity!.low).toBeGreaterThan(240);
  });

  it("lies shallower than between walls as high, and wants more rolling for the target: the crew keeps pace at a lower rate, by what the depth does in the relation", () => {
    const [shallow, deep] = [day.plannedDepth[0]!, walledDay.plannedDepth[0]!];
    expect(shallow).toBeLessThan(0.8 * deep);
    expect(findings.verdict.paceKept).toBeLessThan(0.9 * walled.verdict.paceKept);
    // Effort wanted goes with (target / depth term - what lies there unpacked), time with its square: both crews' cycles by hand.
    const unpacked = 8.5 * (0.45359237 / 0.3048 ** 3);
    const effort = (depth: number) => 240 / depthTerm(depth) - unpacked;
    const more = (effort(shallow) / effort(deep)) ** 2;
    const load = 14;
    const spread = load / 250;
    /** h: the rollers roll all of the cycle, the blade all but the spreading; equal masses, so that the rolling time decides. */
    const rollingTime = ({ verdict }: typeof findings) => 3 * (load / verdict.paceKept) - spread;
    expect(off(rollingTime(findings) / rollingTime(walled), more)).toBeLessThan(1e-6);
  });

  it("tells that about three quarters of its base lie under slopes, and warns of trucks on the pile", () => {
    const share = findings.notes.map((note) => /^(\d+) % of the base of Pile lies under slopes/.exec(note)?.[1]).find(Boolean);
    expect(Number(share)).toBeGreaterThan(70);
    expect(Number(share)).toBeLessThan(82);
    expect(walled.notes.some((note) => note.includes("under slopes"))).toBe(false);
    expect(findings.cautions.map(({ id }) => id)).toContain("trucks-on-slopes");
  });
});
