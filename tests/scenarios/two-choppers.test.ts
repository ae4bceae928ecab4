/** Two choppers, one clamp: the one tipping place caps what comes in; a second place frees the choppers and loosens the clamp. */
import { describe, expect, it } from "vitest";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { altered, days, deliveredBetween, example, mean } from "./example.ts";

const N = 40;
const onePlace = example("two-choppers-one-clamp");
const twoPlaces = altered("two-choppers-one-clamp", "tippingPlaces: 1", "tippingPlaces: 2");
const [one, two] = [days(onePlace, N), days(twoPlaces, N)];

describe("two choppers on one clamp", () => {
  it("are those of the description: fields at 3.5 and 9 km, 14 trucks of 15 t, five tractors of 12 to 20 t", () => {
    expect(onePlace.fields.map(({ distance }) => distance)).toEqual([3500, 9000]);
    expect(onePlace.trucks).toMatchObject([{ count: 14, load: 15_000 }]);
    const masses = onePlace.storages[0]!.tractors.map(({ mass }) => mass);
    expect([masses.length, Math.min(...masses), Math.max(...masses)]).toEqual([5, 12_000, 20_000]);
  });

  it("are held by one tipping place to 225 t/h: they come close to it in the morning, pass it on no day, and tipping is called the bottleneck", () => {
    const { findings } = rehearse(onePlace, { rehearsals: N });
    expect(findings.handCheck.find(({ station }) => station === "tipping")!.boundTPerH).toBeCloseTo(225, 9);
    expect(findings.handCheck.find(({ station }) => station === "cutting")!.boundTPerH).toBeGreaterThan(260);
    expect(findings.verdict.bottleneck).toBe("tipping");
    const morning = mean(one.map(({ day }) => deliveredBetween(day, 8, 12.5)));
    // About 67 tips fall into these hours. Their times vary by 0.40 each (assumption), so that the mean of 40 mornings is known to 0.40 / sqrt(67 x 40) = 0.8 %.
    expect(morning).toBeGreaterThan(0.93 * 225);
    expect(morning).toBeLessThan(225 * (1 + 3 * 0.008));
    expect(findings.measures.chopperWaitingOnStorage!.low).toBeGreaterThan(0.1);
  });

  it("are set free by a second place: they stand less on every day, deliver no slower and finish no later on any, and faster and sooner on nearly all", () => {
    let faster = 0;
    one.forEach(({ facts }, i) => {
      const [held, free] = [facts.measures, two[i]!.facts.measures];
      expect(free.chopperWaitingOnStorage).toBeLessThan(held.chopperWaitingOnStorage);
      // On a thin crop the chopper that never waits anyway may be the last to finish: then the day's end stays where it was.
      expect(free.deliveryRate).toBeGreaterThan(held.deliveryRate * (1 - 1e-9));
      expect(free.finishedAt).toBeLessThan(held.finishedAt * (1 + 1e-9));
      if (free.deliveryRate > 1.02 * held.deliveryRate && free.finishedAt < held.finishedAt) faster += 1;
    });
    expect(faster / N).toBeGreaterThan(0.9);
    expect(mean(two.map(({ facts }) => facts.measures.chopperWaitingOnStorage))).toBeLessThan(0.01);
    expect(mean(two.map(({ day }) => deliveredBetween(day, 8, 12.5)))).toBeGreaterThan(1.1 * 225);
  });

  it("leave a looser clamp when they are free, on every single day, and packing is the bottleneck then", () => {
    one.forEach(({ facts }, i) => expect(two[i]!.facts.measures.dryDensity).toBeLessThan(facts.measures.dryDensity));
    const lost = mean(one.map(({ facts }, i) => facts.measures.dryDensity - two[i]!.facts.measures.dryDensity));
    expect(lost).toBeGreaterThan(8);
    expect(lost).toBeLessThan(20);
    expect(rehearse(twoPlaces, { rehearsals: N }).findings.verdict.bottleneck).toBe("packing");
  });
});
