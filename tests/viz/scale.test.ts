import { scaleLinear as reference } from "d3";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { scaleLinear } from "../../viz/drawings/scale.ts";

/** Figures as they come in a day: to a thousandth. */
const figure = fc.integer({ min: -1_000_000, max: 1_000_000 }).map((n) => n / 1000);
/** From the lesser to the greater, as every drawing has it. */
const figures = fc.tuple(figure, fc.integer({ min: 1, max: 1_000_000 })).map(([from, more]) => [from, from + more / 1000]);
const px = fc.tuple(fc.integer({ min: -50, max: 2000 }), fc.integer({ min: -50, max: 2000 }));

describe("a scale in a straight line", () => {
  it("puts every figure where the general-purpose one puts it, and finds it again; with the same round figures on it", () => {
    fc.assert(fc.property(figures, px, figure, fc.integer({ min: 1, max: 12 }), (domain, range, value, count) => {
      for (const [ours, theirs] of [[scaleLinear(domain, range), reference(domain, range)], [scaleLinear(domain, range).nice(count), reference(domain, range).nice(count)]] as const) {
        expect(ours(value)).toBeCloseTo(theirs(value), 6);
        expect(ours(domain[0]!)).toBeCloseTo(theirs(domain[0]!), 6);
        expect(ours.ticks(count)).toEqual(theirs.ticks(count));
        if (range[0] !== range[1]) expect(ours.invert(range[0])).toBeCloseTo(theirs.invert(range[0]), 6);
      }
    }));
  });
});
