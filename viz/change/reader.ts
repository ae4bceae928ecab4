/** How this reader is told the figures of a study: units and money, and a true minus before what is less. */
import type { Difference } from "../../sim/study/difference.ts";
import { limits as plainLimits, signed as plainSigned, type Reader } from "../../sim/study/figuretext.ts";
import type { FigureName } from "../../sim/study/figures.ts";
import { withMinus } from "../quantity.ts";
import { findings, units } from "../state.ts";

export const reader = (): Reader => ({ system: units.value, currency: findings.value?.money.currency ?? "" });

export const signed = (name: FigureName, value: number): string => withMinus(plainSigned(name, value, reader()));
export const limits = (name: FigureName, difference: Difference): string => withMinus(plainLimits(name, difference, reader()));
