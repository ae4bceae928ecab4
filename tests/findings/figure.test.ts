/** How figures stand in the engine's sentences: beside a table, to the table's own digit. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { figure, metres, sumOfMoney, tonnes } from "../../sim/findings/figure.ts";
import { formatNumber, formatQuantity } from "../../sim/scenario/units.ts";
import { turned } from "../../sim/scenario/turned.ts";

describe("A figure in a sentence", () => {
  it("of 20 t or more is the one of the tables, thousands set apart", () => {
    expect(tonnes(1_006_400)).toBe("1,006 t");
    fc.assert(fc.property(fc.double({ min: 20_000, max: 1e9, noNaN: true }), (kg) => {
      expect(tonnes(kg)).toBe(`${formatNumber(kg / 1000, 0)} t`);
    }), { numRuns: 300 });
  });

  it("of a small mass has a decimal where that says something, and none where it does not", () => {
    expect([16_000, 12_400, 640, 0].map(tonnes)).toEqual(["16 t", "12.4 t", "0.6 t", "0 t"]);
  });

  it("of money is whole, as in the account", () => {
    expect(sumOfMoney(12_748.3, "EUR")).toBe("12,748 EUR");
  });

  it("of a length is right to the decimetre, a small one to two figures: nobody is told to stand nearer than by the rule", () => {
    expect([12.3, 16, 39.62, 0.034].map(metres)).toEqual(["12.3 m", "16 m", "39.6 m", "0.034 m"]);
  });

  it("is turned into US units whole, thousands and all", () => {
    expect(turned(`Of ${tonnes(1_006_400)} stored`)).toBe(`Of ${formatQuantity(1_006_000, "mass", "us", 0)} stored`);
  });
});

describe("A figure to be redone by hand", () => {
  it("has its thousands set apart like every other, and is never rounded beyond whole units", () => {
    expect(figure(123_456.7, "EUR")).toBe("123,457 EUR");
    expect(figure(1_006.4, "t", 3)).toBe("1,006 t");
    expect([figure(1234.5, "t"), figure(0.2, "1"), figure(-1250, "L"), figure(0, "h")]).toEqual(["1,234.5 t", "0.2", "-1,250 L", "0 h"]);
    fc.assert(fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), fc.integer({ min: 1, max: 8 }), (value, digits) => {
      const shown = Number.parseFloat(figure(value, "t", digits).replaceAll(",", ""));
      // Half a unit of the last digit that is kept: that of the significant ones, or that of whole units where these reach further.
      const last = value === 0 ? 1 : Math.min(1, 10 ** (Math.floor(Math.log10(Math.abs(value))) + 1 - digits));
      expect(Math.abs(shown - value)).toBeLessThanOrEqual(last / 2 * (1 + 1e-9) + 1e-20);
    }), { numRuns: 500 });
  });

  it("says in words what is no number, and leaves the unit of a share away", () => {
    expect([figure(Infinity, "min"), figure(NaN, "t"), figure(0.345678, "1")]).toEqual(["never", "not known", "0.34568"]);
  });
});
