/** Ask while the answer before is still on its way: the newest question always gets its answer, and no older one comes after it. */

export interface Latest<Q> {
  /** Asks at once when nothing is under way; else remembers the question, in place of any that waits already. */
  ask(question: Q): void;
  /** Drops what waits and hangs up on what is under way. */
  stop(): void;
}

/**
 * @param run answers one question; it must stop when the signal is aborted, and report its own failures. It can ask whether a newer
 *   question waits already, and be content with less then.
 * @param patience ms that a question under way may still take once a newer one waits; then it is hung up on.
 *   While a slider is dragged, quick answers are shown as they come and a slow one holds nobody up.
 */
export function latest<Q>(run: (question: Q, signal: AbortSignal, isOutdated: () => boolean) => Promise<void>, patience: number): Latest<Q> {
  let under: AbortController | null = null;
  let waiting: { readonly question: Q } | null = null;
  let alarm: ReturnType<typeof setTimeout> | undefined;

  async function go(question: Q): Promise<void> {
    const own = new AbortController();
    under = own;
    try {
      await run(question, own.signal, () => waiting !== null);
    } finally {
      if (under === own) next();
    }
  }

  function next(): void {
    clearTimeout(alarm);
    alarm = undefined;
    under = null;
    const then = waiting;
    waiting = null;
    if (then) void go(then.question);
  }

  function hangUp(): void {
    under?.abort();
    next();
  }

  return {
    ask(question) {
      if (!under) return void go(question);
      waiting = { question };
      alarm ??= setTimeout(hangUp, patience);
    },
    stop() {
      waiting = null;
      if (under) hangUp();
    },
  };
}
