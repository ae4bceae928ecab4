import alea from "seedrandom/lib/alea.js";

/** Half a step of the generator: moves its multiples of 2^-32 in [0, 1) to the middle of each step, so 0 and 1 never come. */
const HALF_STEP = 2 ** -33;

/**
 * Named streams of random numbers. A stream depends on seed, rehearsal and name only: not on what other streams there are, on who
 * draws first, or on the machine. A stream is seeded when it is first asked for.
 */
export class Streams {
  private readonly root: string;
  private readonly made = new Map<string, () => number>();

  constructor(seed: number, rehearsal: number) {
    this.root = `${seed}/${rehearsal}/`;
  }

  /** The stream of that name; asking again gives the same stream, where it stands. Uniform in the open interval (0, 1), one number a draw. */
  stream(name: string): () => number {
    const known = this.made.get(name);
    if (known !== undefined) return known;
    const draw = alea(this.root + name);
    const stream = () => draw() + HALF_STEP;
    this.made.set(name, stream);
    return stream;
  }
}
