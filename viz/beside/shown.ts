/** One plan on the sheet. */
import type { Findings } from "../../sim/findings/types.ts";
import type { Document } from "../document.ts";
import type { Rehearsed } from "../rehearsed.ts";

export interface Shown {
  /** what it is called here; no two alike */ readonly name: string;
  readonly document: Document;
  readonly findings: Findings;
  readonly story: Rehearsed;
}
