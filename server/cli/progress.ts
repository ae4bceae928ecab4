/** A quiet count or bar on standard error, only on a terminal, only when there is something to wait for. */
import { counted } from "../../sim/findings/figure.ts";

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
      stderr.write(`\r${counted(count)} of ${counted(total)} ${what}`);
    },
    done() {
      if (shown > 0) stderr.write("\r\u001b[K");
    },
  };
}

/** Marks of a full bar. */
const BAR = 30;

/** The same quiet manner for a study, whose total may still change: a bar with its count. `done` wipes the line. */
export function studyProgress(what: string): { readonly at: (count: number, total: number) => void; readonly done: () => void } {
  const { stderr } = process;
  if (!stderr.isTTY) return { at: () => {}, done: () => {} };
  const begun = performance.now();
  let shown = 0;
  return {
    at(count, total) {
      const now = performance.now();
      if (now - begun < PATIENCE_MS || now - shown < EVERY_MS) return;
      shown = now;
      const full = Math.min(BAR, Math.round((BAR * count) / Math.max(1, total)));
      stderr.write(`\r[${"#".repeat(full)}${".".repeat(BAR - full)}] ${counted(count)} of about ${counted(total)} ${what} \u001b[K`);
    },
    done() {
      if (shown > 0) stderr.write("\r\u001b[K");
    },
  };
}
