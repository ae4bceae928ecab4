/** Grass over a long road: the trucks are short, and one more of them pays. */
import { describe, expect, it } from "vitest";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { altered, days, example, mean } from "./example.ts";

const N = 60;
const withTrucks = (count: number) => (count === 4 ? example("grass-long-road") : altered("grass-long-road", "count: 4", `count: ${count}`));
const runs = new Map([4, 5, 6].map((count) => [count, days(withTrucks(count), N).map(({ facts }) => facts)]));
const meanOf = (count: number, name: "chopperWaiting" | "costPerTonne" | "deliveryRate" | "finishedAt") => mean(runs.get(count)!.map(({ measures }) => measures[name]));

describe("grass over a long road", () => {
  it("waits for trucks, not for packing: hauling is the bottleneck and packing keeps pace", () => {
    const { verdict, handCheck } = rehearse(withTrucks(4), { rehearsals: N }).findings;
    expect(verdict).toMatchObject({ keepsPace: true, bottleneck: "hauling" });
    const bound = (name: string) => handCheck.find(({ station }) => station === name)!.boundTPerH;
    expect(bound("hauling")).toBeLessThan(bound("packing"));
    expect(bound("hauling")).toBeLessThan(bound("cutting"));
    for (const { waits } of runs.get(4)!) expect(waits.hauling).toBeGreaterThan(waits.weighing + waits.tipping + waits.spreading + waits.packing);
  });

  it("fills a truck by volume before it is full by weight", () => {
    expect(withTrucks(4).trucks[0]!.load).toBeCloseTo(44 * 300, 9);
  });

  it("lets the chopper stand a quarter of its time with four trucks and a tenth with five", () => {
    expect(meanOf(4, "chopperWaiting")).toBeGreaterThan(0.22);
    expect(meanOf(4, "chopperWaiting")).toBeLessThan(0.28);
    expect(meanOf(5, "chopperWaiting")).toBeGreaterThan(0.08);
    expect(meanOf(5, "chopperWaiting")).toBeLessThan(0.12);
  });

  it("is helped by a fifth truck on every day: more is delivered, it is done sooner, and each tonne costs less", () => {
    runs.get(4)!.forEach(({ measures }, i) => {
      const more = runs.get(5)![i]!.measures;
      expect(more.deliveryRate).toBeGreaterThan(measures.deliveryRate);
      expect(more.finishedAt).toBeLessThan(measures.finishedAt);
      expect(more.costPerTonne).toBeLessThan(measures.costPerTonne);
    });
    expect(meanOf(5, "deliveryRate") / meanOf(4, "deliveryRate")).toBeGreaterThan(1.1);
  });

  it("gains nothing from a sixth: its cost eats what it saves, a tenth at the most of what the fifth brought", () => {
    const fifth = meanOf(4, "costPerTonne") - meanOf(5, "costPerTonne");
    const sixth = meanOf(5, "costPerTonne") - meanOf(6, "costPerTonne");
    expect(fifth).toBeGreaterThan(1);
    expect(sixth).toBeLessThan(0.1 * fifth);
    expect(Math.abs(sixth)).toBeLessThan(0.2 * fifth);
  });
});
