import { describe, expect, it } from "vitest";
import { derivationsOf } from "../../sim/findings/derivations.ts";
import { MEASURES, type MeasureName } from "../../sim/findings/types.ts";
import { RESTS_ON, withNumbers } from "../../viz/derived.ts";
import { LONG_STRIP, rehearsed, sound } from "../findings/rehearsed.ts";

const [scenario, days, measures] = rehearsed(sound(LONG_STRIP));
const sources = derivationsOf(scenario, days, measures);

/** What a printed reckoning comes to: units and the marks between thousands taken off, clocks as hours, sums left to the language. */
function reckoned(line: string): number {
  const plain = line.replaceAll(/(\d+):(\d\d)/g, (_, hours: string, minutes: string) => String(Number(hours) + Number(minutes) / 60))
    .replaceAll(/(\d),(?=\d{3})/g, "$1").replaceAll(" x ", " * ").replaceAll(/ [A-Za-z][^\s)]*/g, "");
  if (!/^[\d.+*/()\s-]+$/.test(plain)) throw new Error(`not a reckoning: ${plain}`);
  return Number(new Function(`return ${plain};`)());
}

/** Units of the reckoning in units of the measure, where they differ. */
const TURNED: Partial<Record<MeasureName, number>> = { dryDensity: 1000, wetDensity: 1000 };

describe("a formula with the numbers in it", () => {
  it("comes to the figure itself when it is worked out, for every figure that is not simply counted", () => {
    const lines = (Object.keys(sources) as MeasureName[]).flatMap((name) => {
      const line = withNumbers(name, sources[name]!);
      return line === null ? [] : [[name, line] as const];
    });
    expect(lines.length).toBeGreaterThan(15);
    for (const [name, line] of lines) {
      const { mean } = measures[name]!;
      // Inputs carry five digits, up to eight go into one line; a clock is told to the minute, and pore space is a difference of figures near 1.
      const rounding = name === "fillTime" || name === "finishedAt" ? 2 / 60 : name === "poreSpace" ? 2e-4 : Math.max(8 * 5e-5 * Math.abs(mean), 1e-9);
      expect(Math.abs(reckoned(line) * (TURNED[name] ?? 1) - mean), `${name}: ${line} against ${mean}`).toBeLessThanOrEqual(rounding);
    }
  });

  it("is left out where an input goes by another name, rather than shown with a hole", () => {
    const { load: _, ...others } = sources.packingRateAtTarget!.inputs;
    expect(withNumbers("packingRateAtTarget", { ...sources.packingRateAtTarget!, inputs: { ...others, "load, North": "16 t" } })).toBeNull();
  });
});

describe("what a figure rests on", () => {
  it("are figures that there are, and following them never comes back", () => {
    const below = (name: MeasureName, above: readonly MeasureName[]): void => {
      expect(above).not.toContain(name);
      for (const next of RESTS_ON[name] ?? []) {
        expect(Object.keys(MEASURES)).toContain(next);
        below(next, [...above, name]);
      }
    };
    for (const name of Object.keys(MEASURES) as MeasureName[]) below(name, []);
  });
});
