/** Work that waits for its turn: so many at once, so many behind them, first come, first served. */

/** The line is as long as it may get. */
export class NoPlace extends Error {}

export class Turns {
  #free: number;
  readonly #places: number;
  /** those who wait, in the order they came */ readonly #waiting = new Set<() => void>();

  constructor(atOnce: number, places: number) {
    this.#free = atOnce;
    this.#places = places;
  }

  get waiting(): number {
    return this.#waiting.size;
  }

  /** Nobody more may wait. */
  get isFull(): boolean {
    return this.#free === 0 && this.#waiting.size >= this.#places;
  }

  /**
   * Resolves when the turn has come, with the function that gives it back. Rejects with `NoPlace` when there is no place
   * to wait, and with the signal's reason when it is aborted while waiting; once the turn has come the signal means nothing here.
   */
  turn(signal: AbortSignal): Promise<() => void> {
    return new Promise((resolve, reject) => {
      if (signal.aborted) return reject(signal.reason);
      if (this.#free > 0) {
        this.#free -= 1;
        return resolve(this.#giveBack());
      }
      if (this.#waiting.size >= this.#places) return reject(new NoPlace());
      const come = () => {
        signal.removeEventListener("abort", leave);
        resolve(this.#giveBack());
      };
      const leave = () => {
        this.#waiting.delete(come);
        reject(signal.reason);
      };
      this.#waiting.add(come);
      signal.addEventListener("abort", leave, { once: true });
    });
  }

  /** Hands the turn straight to the next in line; a second call does nothing. */
  #giveBack(): () => void {
    let given = false;
    return () => {
      if (given) return;
      given = true;
      const [next] = this.#waiting;
      if (next === undefined) this.#free += 1;
      else {
        this.#waiting.delete(next);
        next();
      }
    };
  }
}
