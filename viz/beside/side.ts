/** Two answers side by side: the main measures, their difference, and whether the model can tell them apart. Pure. */
import type { Findings, MeasureName, Span } from "../../sim/findings/types.ts";

export const SIDE_MEASURES = [
  "dryDensity", "fillTime", "deliveryRate", "chopperWaiting", "truckWaiting", "coverArea", "dryMatterFed", "costPerTonneFed",
] as const satisfies readonly (MeasureName | "coverArea")[];
export type SideMeasure = (typeof SIDE_MEASURES)[number];

type Ends = readonly [low: number, high: number];

/** One side of a row; units as in `MEASURES`, m2 for the cover. */
export interface SideFigure {
  readonly value: number;
  /** what the model leaves open: the relation's band, the ledger's range */ readonly range: Ends | null;
  /** 95 % limits of the mean over the days rehearsed, null for one day */ readonly luck: Ends | null;
}

export interface SideRow {
  readonly measure: SideMeasure;
  readonly now: SideFigure | null;
  readonly other: SideFigure | null;
  /** now less other; null where either is missing or they are in different money */ readonly difference: number | null;
  /** why the difference says little: the scatter of the published relation, the range of the loss ledger, the luck of the days; null when it is told apart */
  readonly within: "relation" | "ledger" | "luck" | null;
}

export function sideBySide(now: Findings, other: Findings): SideRow[] {
  return SIDE_MEASURES.map((measure): SideRow => {
    const a = figureOf(now, measure);
    const b = figureOf(other, measure);
    const comparable = a !== null && b !== null && (measure !== "costPerTonneFed" || now.money.currency === other.money.currency);
    return { measure, now: a, other: b, difference: comparable ? a.value - b.value : null, within: comparable ? withinOf(measure, a, b) : null };
  });
}

function withinOf(measure: SideMeasure, a: SideFigure, b: SideFigure): SideRow["within"] {
  if (a.value === b.value) return null;
  // Each lies where the other could as well: the model does not tell them apart.
  const holds = ([low, high]: Ends, value: number) => value >= low && value <= high;
  if (a.range && b.range && holds(a.range, b.value) && holds(b.range, a.value)) return measure === "dryDensity" ? "relation" : "ledger";
  if (a.luck && b.luck && a.luck[0] <= b.luck[1] && b.luck[0] <= a.luck[1]) return "luck";
  return null;
}

function figureOf(findings: Findings, measure: SideMeasure): SideFigure | null {
  const { storages, ledger, money, rehearsals } = findings;
  if (measure === "coverArea") return { value: storages.reduce((sum, { coverArea }) => sum + coverArea, 0), range: null, luck: null };
  const told = findings.measures[measure];
  if (!told) return null;
  const luck: Ends | null = rehearsals > 1 ? [told.low, told.high] : null;
  switch (measure) {
    case "dryDensity": return { value: told.mean, range: bandOf(findings), luck };
    case "dryMatterFed": return { value: told.mean, range: endsOf(ledger.fedT), luck };
    case "costPerTonneFed": return { value: told.mean, range: money.perTonne.fed && endsOf(money.perTonne.fed), luck };
    default: return { value: told.mean, range: null, luck };
  }
}

const endsOf = ({ low, high }: Span): Ends => [low, high];

/** The relation's band over all storages, each weighing as much as the dry matter in it. */
function bandOf({ storages }: Findings): Ends | null {
  const dry = storages.reduce((sum, { dryT }) => sum + dryT, 0);
  if (!(dry > 0)) return null;
  const mean = (end: 0 | 1) => storages.reduce((sum, { dryT, dryDensity }) => sum + (dryT > 0 ? dryT * dryDensity.band[end] : 0), 0) / dry;
  return [mean(0), mean(1)];
}
