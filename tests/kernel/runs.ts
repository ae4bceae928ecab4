/** How many generated cases a property is tried on: all of them in the long run, a sample in `npm test`. */
export function runs(long: number): { numRuns: number } {
  return { numRuns: process.env.CLAMPSIDE_LONG ? long : Math.ceil(long / 5) };
}
