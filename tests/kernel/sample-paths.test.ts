/** Whole models on fixed draws: the same work must end at the same instant to the last digits, in exactly so many steps. */
import { expect, test } from "vitest";
import { loopOnFloor, mm1OnFloor } from "../bench/floor-models.ts";
import { loopDraws, loopOnKernel, mm1Draws, mm1OnKernel } from "../bench/models.ts";
import { LOOP, MM1 } from "../bench/paths.ts";

function expectRelative(value: number, reference: number, tolerance = 1e-9): void {
  expect(Math.abs(value / reference - 1)).toBeLessThan(tolerance);
}

test("a million customers at one server leave when they must, having waited what they must", () => {
  const { endsAt, meanWait, events } = mm1OnKernel(mm1Draws());
  expectRelative(endsAt, MM1.endsAt);
  expectRelative(meanWait, MM1.meanWait);
  // One step starts the arrivals; a customer takes one to arrive, one to start, one to be served, and one more if it had to wait.
  const atOnce = 4 * MM1.customers + 1 - events;
  expect(events).toBe(mm1OnFloor(mm1Draws()).events);
  // A fifth finds the server free. Standard error of that share with this load: (1 + 0.8) / (1 - 0.8) times the variance of independent ones.
  expect(Math.abs(atOnce / MM1.customers - 0.2)).toBeLessThan(4 * Math.sqrt((0.16 * 9) / MM1.customers));
});

test("a hundred thousand cycles of twenty trucks end when they must, with the waits they must have at every station", () => {
  const draws = loopDraws();
  const { endsAt, waited, events } = loopOnKernel(draws, LOOP.trucks, LOOP.cycles);
  expectRelative(endsAt, LOOP.endsAt);
  for (const station of ["load", "unload", "pack"] as const) expectRelative(waited[station], LOOP.waited[station]);
  expect(events).toBe(loopOnFloor(draws, LOOP.trucks, LOOP.cycles).events);
});
