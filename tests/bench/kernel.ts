/** The kernel, statistics on, against the floor, on the two fixed sample paths. */
import { bestTimes, expectSame } from "./case.ts";
import type { Case, Figure } from "./case.ts";
import { loopOnFloor, mm1OnFloor } from "./floor-models.ts";
import { loopDraws, loopOnKernel, mm1Draws, mm1OnKernel } from "./models.ts";
import type { Outcome } from "./models.ts";
import { LOOP, MM1 } from "./paths.ts";

const ROUNDS = 15;

function against(floor: () => Outcome, kernel: () => Outcome, endsAt: number): readonly Figure[] {
  const outcome = kernel();
  expectSame("the end on the kernel", outcome.endsAt, endsAt);
  expectSame("the end on the floor", floor().endsAt, endsAt);
  expectSame("the steps on the floor", floor().events, outcome.events, 0);
  const best = bestTimes({ floor, kernel }, ROUNDS);
  return [
    { name: "ends at", value: outcome.endsAt, unit: "exact" },
    { name: "steps", value: outcome.events, unit: "" },
    { name: "floor", value: best.floor, unit: "ms" },
    { name: "kernel", value: best.kernel, unit: "ms" },
    { name: "kernel", value: outcome.events / best.kernel / 1000, unit: "million steps/s" },
    { name: "kernel / floor", value: best.kernel / best.floor, unit: "", bar: 2.5 },
  ];
}

/** Highest memory of this process so far, MB. */
function peakMemory(): number {
  return process.resourceUsage().maxRSS / 1024;
}

export const KERNEL_CASES: readonly Case[] = [
  {
    // First of all, so that what it adds is its own. What stands before it is Node and the TypeScript loader.
    name: "memory of a million customers, their draws included",
    run: () => {
      const before = peakMemory();
      mm1OnKernel(mm1Draws());
      return [
        { name: "added", value: peakMemory() - before, unit: "MB", bar: 100 },
        { name: "whole process", value: peakMemory(), unit: "MB" },
      ];
    },
  },
  {
    name: "a million customers at one server",
    run: () => {
      const draws = mm1Draws();
      return against(() => mm1OnFloor(draws), () => mm1OnKernel(draws), MM1.endsAt);
    },
  },
  {
    name: "a hundred thousand cycles of twenty trucks",
    run: () => {
      const draws = loopDraws();
      const { trucks, cycles, endsAt } = LOOP;
      return against(() => loopOnFloor(draws, trucks, cycles), () => loopOnKernel(draws, trucks, cycles), endsAt);
    },
  },
];
