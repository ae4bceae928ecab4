/** The loss ledger ready to be drawn: where each line begins and where it leaves off. */
import type { LedgerEnds, LossLine } from "../sim/findings/types.ts";
import { number, type UnitSystem } from "./quantity.ts";

export interface LedgerStep {
  readonly line: LossLine;
  /** t of dry matter there before this line, and after it by its central figure. A line that is off shows what it would take; the next one begins where it began. */ readonly from: number;
  readonly until: number;
}

export function fallingLedger({ storedT }: LedgerEnds, losses: readonly LossLine[]): LedgerStep[] {
  let left = storedT;
  return losses.map((line) => {
    const from = left;
    const until = Math.max(0, from - (line.dryT?.central ?? 0));
    if (line.on) left = until;
    return { line, from, until };
  });
}

/** Tonnes in the reader's unit, without it: a decimal where it says something. */
export function massIn(tonnes: number, system: UnitSystem): string {
  return number(tonnes * 1000, "mass", system, tonnes > 0 && tonnes < 9.95 ? 1 : 0);
}
