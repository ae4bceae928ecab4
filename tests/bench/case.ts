/** What a benchmark case gives back, and how times are taken. */
export interface Figure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** the value should be at most this */ readonly bar?: number;
}

export interface Case {
  readonly name: string;
  /** Throws when the work it timed was not right. */ readonly run: () => readonly Figure[] | Promise<readonly Figure[]>;
}

/**
 * Best wall time of each of several pieces of work, ms, taken in turn in one run, so that all of them see the same machine in the same mood.
 * The best of many is what the work costs; the rest is what the machine did besides.
 */
export function bestTimes<Name extends string>(works: Readonly<Record<Name, () => void>>, rounds: number): Record<Name, number> {
  const names = Object.keys(works) as Name[];
  const best = Object.fromEntries(names.map((name) => [name, Infinity])) as Record<Name, number>;
  for (let round = 0; round < rounds; round += 1) {
    for (const name of names) {
      const start = performance.now();
      works[name]();
      best[name] = Math.min(best[name], performance.now() - start);
    }
  }
  return best;
}

/** Relative agreement, or an error: a speed-up must not change what is computed. */
export function expectSame(what: string, value: number, reference: number, tolerance = 1e-9): void {
  if (!(Math.abs(value / reference - 1) <= tolerance)) throw new Error(`${what}: ${value}, not ${reference}`);
}
