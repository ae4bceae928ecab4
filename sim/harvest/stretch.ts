/** Parts of a machine's day that are one wait and nearly always run through undisturbed: work in hand, a place in a line. */
import type { Wait, Work } from "../kernel/index.ts";

/**
 * Yielded with `yield*` like the generator it stands for, but made once a machine and used again and again: a new generator for each
 * was about a tenth of what a day cost. Only one that is disturbed goes on as a generator, since then there is something to tell.
 */
export abstract class Stretch implements Iterator<Wait | number, void> {
  private under = false;
  private rest: Work | null = null;
  /** what `next` gives, reused: the kernel reads it at once */ private readonly waiting: IteratorYieldResult<Wait | number> = { done: false, value: 0 };

  /** It begins: what it waits for. */
  protected abstract begin(): Wait | number;
  /** The wait is over. */
  protected abstract end(): void;
  /** The wait was broken off by `stop`: stands through it until the stretch can begin again, or throws it on. */
  protected abstract standThrough(stop: unknown): Work;

  private *afterStop(stop: unknown): Work {
    for (let why = stop; ;) {
      yield* this.standThrough(why);
      try {
        yield this.begin();
        return this.end();
      } catch (again) {
        why = again;
      }
    }
  }

  [Symbol.iterator](): this {
    return this;
  }

  next(value?: unknown): IteratorResult<Wait | number, void> {
    if (this.rest !== null) return this.goOn(() => this.rest!.next(value));
    this.under = !this.under;
    if (this.under) {
      this.waiting.value = this.begin();
      return this.waiting;
    }
    this.end();
    return OVER;
  }

  throw(stop: unknown): IteratorResult<Wait | number, void> {
    if (this.rest !== null) return this.goOn(() => this.rest!.throw(stop));
    this.under = false;
    this.rest = this.afterStop(stop);
    return this.goOn(() => this.rest!.next());
  }

  private goOn(step: () => IteratorResult<Wait | number, void>): IteratorResult<Wait | number, void> {
    let isOver = true;
    try {
      const turn = step();
      isOver = turn.done === true;
      return turn;
    } finally {
      if (isOver) this.rest = null;
    }
  }
}

const OVER: IteratorReturnResult<void> = { done: true, value: undefined };
