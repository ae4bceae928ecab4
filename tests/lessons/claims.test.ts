/** What each lesson claims, asserted of the engine's own answer to its plans: a lesson that is not true is not given. */
import { describe, expect, it } from "vitest";
import { coinToss } from "../../viz/lessons/lesson-coin-toss.ts";
import { anotherTruck } from "../../viz/lessons/lesson-another-truck.ts";
import { drierCrop } from "../../viz/lessons/lesson-drier-crop.ts";
import { february } from "../../viz/lessons/lesson-february.ts";
import { sameHours } from "../../viz/lessons/lesson-same-hours.ts";
import { secondTippingPlace } from "../../viz/lessons/lesson-second-tipping-place.ts";
import { whoPays } from "../../viz/lessons/lesson-who-pays.ts";
import { gainOf, meanOf, rolledHours, type Lesson, type Outcome } from "../../viz/lessons/lesson.ts";
import { plansOf, told } from "./rehearsed.ts";

const outcomes = (lesson: Lesson) => plansOf(lesson).map((plan) => told(plan));
const density = (outcome: Outcome) => outcome.findings.storages[0]!.dryDensity;

describe("a truck more, where trucks already stand in line", () => {
  const [before, now] = outcomes(anotherTruck) as [Outcome, Outcome];

  it("changes the delivery by under one part in a hundred, and lengthens every truck's wait", () => {
    expect(anotherTruck.truth([before, now])).toBe("hardly");
    expect(Math.abs(gainOf("deliveryRate", before, now))).toBeLessThan(0.01);
    expect(meanOf(now, "truckWaiting")).toBeGreaterThan(meanOf(before, "truckWaiting") + 1);
    expect(meanOf(now, "costPerTonne")).toBeGreaterThan(meanOf(before, "costPerTonne"));
  });

  it("leaves the choppers standing as they stood, for trucks that stand at the clamp", () => {
    expect(meanOf(now, "chopperWaiting")).toBeGreaterThan(0.1);
    expect(meanOf(before, "chopperWaiting") - meanOf(now, "chopperWaiting")).toBeLessThan(0.02);
  });
});

describe("a second tipping place", () => {
  const [before, now] = outcomes(secondTippingPlace) as [Outcome, Outcome];

  it("brings more tonnes an hour, frees choppers and trucks, and loosens the clamp", () => {
    expect(secondTippingPlace.truth([before, now])).toBe("looser");
    expect(gainOf("deliveryRate", before, now)).toBeGreaterThan(0.1);
    expect(meanOf(now, "chopperWaiting")).toBeLessThan(0.05);
    expect(meanOf(now, "truckWaiting")).toBeLessThan(1);
    // Told apart by the luck of the days: the limits of the two means do not touch.
    expect(now.findings.measures.dryDensity!.high).toBeLessThan(before.findings.measures.dryDensity!.low);
  });

  it("does not touch what the crew packs at target", () => {
    expect(meanOf(now, "packingRateAtTarget")).toBeCloseTo(meanOf(before, "packingRateAtTarget"), 9);
  });
});

describe("hold, bury or ease", () => {
  const [hold, bury, ease] = outcomes(whoPays) as [Outcome, Outcome, Outcome];

  it("lets the chopper stand under hold, and nobody under bury and ease", () => {
    expect(meanOf(hold, "chopperWaiting")).toBeGreaterThan(0.4);
    for (const rule of [bury, ease]) expect(meanOf(rule, "chopperWaiting")).toBeLessThan(0.02);
  });

  it("lets the clamp pay under bury: nearly all of it under target, where the others reach it", () => {
    expect(meanOf(bury, "shareUnderTarget")).toBeGreaterThan(0.9);
    for (const rule of [hold, ease]) expect(meanOf(rule, "dryDensity")).toBeGreaterThan(240);
  });

  it("lets the crop pay under ease: the least of it is in by the evening", () => {
    expect(whoPays.truth([hold, bury, ease])).toBe("ease");
    expect(meanOf(ease, "delivered")).toBeLessThan(0.95 * meanOf(hold, "delivered"));
    expect(meanOf(hold, "delivered")).toBeLessThan(0.7 * meanOf(bury, "delivered"));
  });
});

describe("the same hours, unevenly", () => {
  const [even, uneven] = outcomes(sameHours) as [Outcome, Outcome];

  it("has the same tonnes, the same hours of rolling and the same tonnes an hour on both days", () => {
    expect(meanOf(uneven, "delivered")).toBeCloseTo(meanOf(even, "delivered"), 6);
    expect(rolledHours(uneven) / rolledHours(even)).toBeGreaterThan(0.98);
    expect(rolledHours(uneven) / rolledHours(even)).toBeLessThan(1.02);
    expect(Math.abs(gainOf("deliveryRate", even, uneven))).toBeLessThan(0.01);
  });

  it("ends looser on the uneven day", () => {
    expect(sameHours.truth([even, uneven])).toBe("looser");
    expect(gainOf("dryDensity", even, uneven)).toBeLessThan(-0.03);
  });
});

describe("a plan that predicts the target", () => {
  const [plan] = outcomes(coinToss) as [Outcome];

  it("is a coin toss for it", () => {
    const { mean, chanceOfTarget } = density(plan);
    expect(Math.abs(mean - plan.scenario.targets.dryDensity)).toBeLessThan(3);
    expect(Math.abs(chanceOfTarget - 0.5)).toBeLessThan(0.05);
    expect(coinToss.truth([plan])).toBe(Math.round(100 * chanceOfTarget));
  });

  it("owes that to the relation's scatter, beside which the luck of the day is small", () => {
    const { ci, band } = density(plan);
    expect(band[1] - band[0]).toBeGreaterThan(10 * (ci[1] - ci[0]));
  });
});

describe("the same meadow, drier", () => {
  const [wet, dry] = outcomes(drierCrop) as [Outcome, Outcome];

  it("stores the same dry matter, denser, with more pore space", () => {
    expect(drierCrop.truth([wet, dry])).toBe("parted");
    expect(Math.abs(gainOf("dryMatterStored", wet, dry))).toBeLessThan(0.01);
    expect(gainOf("dryDensity", wet, dry)).toBeGreaterThan(0.1);
    expect(meanOf(dry, "poreSpace")).toBeGreaterThan(meanOf(wet, "poreSpace") + 0.1);
  });

  it("meets one target each: pore space when wet, dry matter when dry", () => {
    const { dryDensity, poreSpace } = wet.scenario.targets;
    expect([meanOf(wet, "dryDensity") >= dryDensity, meanOf(wet, "poreSpace") <= poreSpace]).toEqual([false, true]);
    expect([meanOf(dry, "dryDensity") >= dryDensity, meanOf(dry, "poreSpace") <= poreSpace]).toEqual([true, false]);
  });
});

describe("loose and firm in February", () => {
  const [loose, firm] = outcomes(february) as [Outcome, Outcome];
  const fed = ({ findings }: Outcome) => findings.ledger.fedT;

  it("leaves more to feed in the firm clamp, some days of it, by the ledger's central figures", () => {
    expect(february.truth([loose, firm])).toBe("few");
    expect(fed(firm).central).toBeGreaterThan(fed(loose).central + 5);
    expect(meanOf(firm, "dryDensity") - meanOf(loose, "dryDensity")).toBeGreaterThan(40);
  });

  it("says that the ranges overlap, and that at their best end the two clamps feed alike", () => {
    expect(fed(loose).high).toBeGreaterThan(fed(firm).low);
    // Not to the last digit: of a denser, smaller clamp the top layer is a larger share.
    expect(Math.abs(fed(firm).high / fed(loose).high - 1)).toBeLessThan(0.001);
  });

  it("does not pay for the roller by that line alone, at the feed value of the plan", () => {
    const saved = (fed(firm).central - fed(loose).central) * firm.scenario.money.feedValuePerTonne;
    expect(saved).toBeLessThan(firm.findings.money.total - loose.findings.money.total);
  });
});
