/** What is left to feed, in words: said by the engine, and anew for readers of US units. */
import type { UnitSystem } from "../scenario/units.ts";
import { tonnes } from "./figure.ts";
import type { LedgerEnds } from "./types.ts";
import { US } from "./words.ts";

const KG_PER_T = 1000;

/** The sentence about both ends of the ledger, which its `inWords` begins with. */
export function leftToFeed({ storedT, fedT }: Pick<LedgerEnds, "storedT" | "fedT">, mass: (kg: number) => string = tonnes): string {
  const t = (value: number) => mass(value * KG_PER_T);
  return `Of ${t(storedT)} of dry matter stored, ${t(fedT.low)} to ${t(fedT.high)} are left to feed, ${t(fedT.central)} by the central figures; `
    + "the ends take every line at its high end, or every line at its low end, at once.";
}

/** What the ledger says of itself; a figure that was rounded before it was turned would not be the table's. */
export const ledgerIn = (system: UnitSystem, ledger: LedgerEnds): string =>
  (system === "us" ? ledger.inWords.replace(leftToFeed(ledger), leftToFeed(ledger, US.crop)) : ledger.inWords);
