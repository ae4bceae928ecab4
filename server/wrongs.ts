/** Counts wrong tokens by address, so that nobody tries for long. */

/** Addresses that are remembered; the one that came first is forgotten first. */
const MOST = 10_000;

export class Wrongs {
  readonly #most: number;
  readonly #window: number;
  readonly #counts = new Map<string, { count: number; readonly until: number }>();

  /** `most` wrong ones in `window` ms. */
  constructor(most: number, window: number) {
    this.#most = most;
    this.#window = window;
  }

  /** ms until an address may try again; 0 when it may now. */
  waitOf(address: string, now = Date.now()): number {
    const found = this.#counts.get(address);
    return found !== undefined && found.count >= this.#most ? Math.max(0, found.until - now) : 0;
  }

  add(address: string, now = Date.now()): void {
    const found = this.#counts.get(address);
    if (found !== undefined && found.until > now) found.count += 1;
    else {
      this.#counts.delete(address);
      this.#counts.set(address, { count: 1, until: now + this.#window });
      for (const first of this.#counts.keys()) {
        if (this.#counts.size <= MOST) break;
        this.#counts.delete(first);
      }
    }
  }
}
