import { describe, expect, it } from "vitest";
import { remedyLabel } from "../../sim/study/figuretext.ts";

const tractor = { what: "One more packing tractor", figure: { dimension: "machineMass", from: 0, to: 15_000 } } as const;
const ballast = { what: "Ballast", figure: { dimension: "machineMass", from: 30_500, to: 33_250 } } as const;

describe("a remedy in words", () => {
  it("tells a machine's mass in tonnes with a tenth where there is one, and in whole pounds", () => {
    const [metric, us] = (["metric", "us"] as const).map((system) => [tractor, ballast].map((remedy) => remedyLabel(remedy, { system, currency: "EUR" })));
    expect(metric).toEqual(["One more packing tractor (15 t)", "Ballast: 33.3 t instead of 30.5 t"]);
    // 1 lb = 0.45359237 kg exactly.
    expect(us).toEqual(["One more packing tractor (33,069 lb)", "Ballast: 73,304 lb instead of 67,241 lb"]);
  });
});
