/**
 * Two sample paths fixed to the last digit, for any engine: the same draws in the same order must give the same end times.
 * Draw k of a stream: u = mulberry32(seed), the usual 32-bit counter generator scaled by 2^-32; x = -ln(1 - u) x mean.
 */

/** The usual 32-bit counter generator; numbers in [0, 1). */
export function mulberry32(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** The first `count` exponential draws of a stream. */
export function exponentials(seed: number, mean: number, count: number): Float64Array {
  const draw = mulberry32(seed);
  return Float64Array.from({ length: count }, () => -Math.log(1 - draw()) * mean);
}

/**
 * One first-come server. Customer i arrives `interarrival[i]` after the one before; the k-th service to start takes `service[k]`;
 * ends when the last customer leaves.
 */
export const MM1 = {
  customers: 1_000_000,
  interarrival: { seed: 1, mean: 1.25 },
  service: { seed: 2, mean: 1 },
  endsAt: 1249476.1017275131,
  meanWait: 3.9958583357828976,
} as const;

/**
 * Load (one server) -> haul -> unload (one server) -> pack (one server) -> return, first come first served. All trucks stand at load
 * at time 0, truck 0 first; the k-th occurrence of an activity to start takes draw k of its stream; a cycle is complete when the
 * truck ends its return trip; the run ends with the last cycle over all trucks. `waited`: total time in each line.
 */
export const LOOP = {
  trucks: 20,
  cycles: 100_000,
  load: { seed: 11, mean: 4 },
  haul: { seed: 12, mean: 10 },
  unload: { seed: 13, mean: 2.5 },
  pack: { seed: 14, mean: 3.5 },
  return: { seed: 15, mean: 8 },
  endsAt: 411254.96479120216,
  waited: { load: 3517139.2616, unload: 370238.2146, pack: 1537492.7404 },
} as const;
