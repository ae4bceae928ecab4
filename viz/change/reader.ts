/** How this reader is told the figures of a study: units and money, and a true minus before what is less. */
import type { Difference } from "../../sim/study/difference.ts";
import { figureLabel, limits as plainLimits, signed as plainSigned, type Reader } from "../../sim/study/figuretext.ts";
import type { FigureName } from "../../sim/study/figures.ts";
import { withMinus } from "../quantity.ts";
import { findings, units } from "../state.ts";
import { words } from "../words/change.ts";

export const reader = (): Reader => ({ system: units.value, currency: findings.value?.money.currency ?? "" });

/** What differs, with its unit; by how long a clamp closes earlier or later is no time of day. */
export const differenceLabel = (name: FigureName): string => (name === "closedAt" ? words.fixes.closes : figureLabel(name, reader()));

export const signed = (name: FigureName, value: number): string => withMinus(plainSigned(name, value, reader()));
export const limits = (name: FigureName, difference: Difference): string => withMinus(plainLimits(name, difference, reader()));
