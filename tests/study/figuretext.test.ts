import { describe, expect, it } from "vitest";
import { remedyLabel } from "../../sim/study/figuretext.ts";

const tractor = { what: "One more packing tractor", figure: { dimension: "machineMass", from: 0, to: 15_000 } } as const;
const ballast = { what: "Ballast", figure: { dimension: "machineMass", from: 30_500, to: 33_250 } } as const;

describe("a remedy in words", () => {
  it("tells a machine's mass in tonnes with a tenth where there is one, and to the hundred pounds as the page does", () => {
    const [metric, us] = (["metric", "us"] as const).map((system) => [tractor, ballast].map((remedy) => remedyLabel(remedy, { system, currency: "EUR" })));
    expect(metric).toEqual(["One more packing tractor (15 t)", "Ballast: 33.3 t instead of 30.5 t"]);
    // 1 lb = 0.45359237 kg exactly.
    expect(us).toEqual(["One more packing tractor (33,100 lb)", "Ballast: 73,300 lb instead of 67,200 lb"]);
  });

  it("tells a mass of forage without a tenth from twenty on, in either system", () => {
    const apron = (from: number, to: number) => ({ what: "A bigger apron", figure: { dimension: "mass", from, to } }) as const;
    expect((["metric", "us"] as const).map((system) => remedyLabel(apron(60_000, 120_000), { system, currency: "EUR" }))).toEqual(["A bigger apron: 120 t instead of 60 t", "A bigger apron: 132 ton instead of 66 ton"]);
    expect(remedyLabel(apron(8_000, 16_000), { system: "us", currency: "EUR" })).toBe("A bigger apron: 17.6 ton instead of 8.8 ton");
  });
});
