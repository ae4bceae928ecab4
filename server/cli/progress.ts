/** A quiet count on standard error, only on a terminal, only when there is something to wait for. */

const PATIENCE_MS = 400;
const EVERY_MS = 100;

/** `tick` after each unit of work; `done` wipes the line. */
export function countProgress(what: string, total: number): { readonly tick: () => void; readonly done: () => void } {
  const { stderr } = process;
  if (!stderr.isTTY) return { tick: () => {}, done: () => {} };
  const begun = performance.now();
  let shown = 0;
  let count = 0;
  return {
    tick() {
      count++;
      const now = performance.now();
      if (now - begun < PATIENCE_MS || now - shown < EVERY_MS) return;
      shown = now;
      stderr.write(`\r${count.toLocaleString("en")} of ${total.toLocaleString("en")} ${what}`);
    },
    done() {
      if (shown > 0) stderr.write("\r\u001b[K");
    },
  };
}
