import { expect } from "vitest";

/** A figure agrees with a printed one when it is at most half a unit of the last printed digit away, once for each of so many printed figures that go in. */
export function expectPrinted(actual: number, printed: string, figures = 1): void {
  const decimals = printed.split(".")[1]?.length ?? 0;
  expect(Math.abs(actual - Number(printed)), `${actual} against ${printed} as printed`).toBeLessThanOrEqual(figures * 0.5 * 10 ** -decimals * (1 + 1e-9));
}
