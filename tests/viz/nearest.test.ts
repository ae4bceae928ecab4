import { describe, expect, it } from "vitest";
import type { Nearest } from "../../sim/study/crew.ts";
import { nextSteps } from "../../viz/change/nearest.ts";

const ranges = { trucksFrom: 4, trucksTo: 7, tractorsFrom: 1, tractorsTo: 4, mass: 15, anyRule: false };
const asked = { ranges, sure: 90, mostTractors: 8 };
const nearest = (trucks: number, tractors: number, fails: Nearest["fails"], low = 0) =>
  ({ plan: { trucks, tractors: [{ name: "Roller", count: 1 }, { name: "Further tractor", count: tractors - 1 }], chance: { share: low, low, high: 1 } }, fails }) as unknown as Nearest;

describe("what can be done where no crew meets the targets", () => {
  it("is to look beyond the ends of the ranges at which the nearest plan stands, and only beyond those that work on what it fails", () => {
    expect(nextSteps(nearest(4, 4, ["density"]), asked)).toMatchObject({ edges: ["fewestTrucks", "mostTractors"], wider: { ...ranges, trucksFrom: 2, tractorsTo: 6 } });
    expect(nextSteps(nearest(7, 2, ["finish"]), asked)).toMatchObject({ edges: ["mostTrucks"], wider: { ...ranges, trucksTo: 9 } });
    // More trucks bury a crew only faster.
    expect(nextSteps(nearest(7, 2, ["density"]), asked)).toMatchObject({ edges: [], wider: null });
    expect(nextSteps(nearest(5, 2, ["density", "finish"]), asked)).toMatchObject({ edges: [], wider: null });
    expect(nextSteps(nearest(7, 4, []), asked).edges).toEqual(["mostTrucks", "mostTractors"]);
  });

  it("never asks for more than the sheet can ask for", () => {
    const wide = { ...asked, ranges: { ...ranges, trucksFrom: 1, tractorsTo: 8 } };
    expect(nextSteps(nearest(1, 8, ["density"]), wide).wider).toBeNull();
    expect(nextSteps(nearest(5, 4, ["density"]), { ...asked, mostTractors: 5 }).wider).toEqual({ ...ranges, tractorsTo: 5 });
  });

  it("is to try every rule, unless every rule was tried", () => {
    expect(nextSteps(nearest(5, 2, ["density"]), asked).rules).toBe(true);
    expect(nextSteps(nearest(5, 2, ["density"]), { ...asked, ranges: { ...ranges, anyRule: true } }).rules).toBe(false);
  });

  it("is to be content with as many days as the nearest plan surely does it on, where it does it at all", () => {
    expect(nextSteps(nearest(5, 2, ["density"], 0.38), asked).sure).toBe(35);
    for (const low of [0, 0.04, 0.93]) expect(nextSteps(nearest(5, 2, ["density"], low), asked).sure).toBeNull();
  });
});
