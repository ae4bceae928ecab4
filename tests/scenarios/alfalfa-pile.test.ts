/** Alfalfa in a drive-over pile: the crew keeps pace, and the shallow pile wants more rolling than a bunker would. */
import { describe, expect, it } from "vitest";
import { depthTerm } from "../../sim/forage/packing.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { example, off } from "./example.ts";

const pile = example("alfalfa-pile");
/** The same crop and crew between walls: a bunker of about the same room on half the ground, and therefore twice as deep. */
const bunker: Scenario = {
  ...pile,
  storages: [{ ...pile.storages[0]!, form: "bunker", width: 14, height: 3.2, meanDepth: 2.4, sideSlope: 0, topWidth: null, tipsOnPile: false }],
};
const { findings } = rehearse(pile, { rehearsals: 60 });
const walled = rehearse(bunker, { rehearsals: 60 }).findings;

describe("alfalfa in a drive-over pile", () => {
  it("keeps pace with 60 t of tractors on at least nine days of ten, and reaches the target", () => {
    expect(pile.storages[0]!.tractors.reduce((sum, tractor) => sum + tractor.mass, 0)).toBe(60_000);
    expect(findings.verdict.chance).toBeGreaterThanOrEqual(0.9);
    expect(findings.measures.dryDensity!.low).toBeGreaterThan(240);
  });

  it("wants more rolling for the target than a bunker twice as deep: the crew keeps pace at a lower rate, by what the depth does in the relation", () => {
    expect(findings.verdict.paceKept).toBeLessThan(0.9 * walled.verdict.paceKept);
    // Effort wanted goes with (target / depth term - what lies there unpacked), time with its square: both crews' cycles by hand.
    const unpacked = 8.5 * (0.45359237 / 0.3048 ** 3);
    const effort = (depth: number) => 240 / depthTerm(depth) - unpacked;
    const more = (effort(1.2) / effort(2.4)) ** 2;
    const load = 14;
    const spread = load / 250;
    /** h: the rollers roll all of the cycle, the blade all but the spreading; equal masses, so that the rolling time decides. */
    const rollingTime = ({ verdict }: typeof findings) => 3 * (load / verdict.paceKept) - spread;
    expect(off(rollingTime(findings) / rollingTime(walled), more)).toBeLessThan(1e-6);
  });

  it("tells that three quarters of its base lie under slopes, and warns of trucks on the pile", () => {
    const share = 1 - ((28 - 6 * 2.8) * (48 - 6 * 2.8)) / (28 * 48);
    expect(share).toBeGreaterThan(0.7);
    expect(share).toBeLessThan(0.8);
    expect(findings.notes.some((note) => note.startsWith(`${Math.round(100 * share)} % of the base of Pile lies under slopes`))).toBe(true);
    expect(walled.notes.some((note) => note.includes("under slopes"))).toBe(false);
    expect(findings.cautions.map(({ id }) => id)).toContain("trucks-on-slopes");
  });
});
