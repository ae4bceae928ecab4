/** A plan held against the first: the main measures, their difference, and whether the model and the days can tell them apart. Pure. */
import type { Findings, MeasureName, Span } from "../../sim/findings/types.ts";
import type { Comparison } from "../../sim/study/compare.ts";
import { aheadAt, isLeftOpen, type PlanDifference, type Ranged } from "../../sim/study/sides.ts";

export const SIDE_MEASURES = [
  "dryDensity", "shareUnderTarget", "fillTime", "deliveryRate", "chopperWaiting", "truckWaiting", "coverArea", "dryMatterStored", "dryMatterFed", "costPerTonne", "costPerTonneFed",
] as const satisfies readonly (MeasureName | "coverArea")[];
export type SideMeasure = (typeof SIDE_MEASURES)[number];

type Ends = readonly [low: number, high: number];

/** One side of a row; units as in `MEASURES`, m2 for the cover. */
export interface SideFigure {
  readonly value: number;
  /** what the model leaves open: the relation's band, the ledger's range */ readonly range: Ends | null;
}

export interface SideRow {
  readonly measure: SideMeasure;
  readonly now: SideFigure | null;
  readonly other: SideFigure | null;
  /** now less other; null where either is missing or they are in different money */ readonly difference: number | null;
  /** within which it lies by the luck of the days, from pairs of days; null while there are none */ readonly limits: Ends | null;
  /** why the difference says little: the scatter of the published relation, the range of the loss ledger, the luck of the days; null when it is told apart */
  readonly within: PlanDifference["within"] | "luck";
}

/** What a comparison day by day says of one plan against the first. */
export type Paired = Comparison["differences"][number]["figures"];

export function sideBySide(now: Findings, other: Findings, paired: Paired | null = null): SideRow[] {
  return SIDE_MEASURES.map((measure): SideRow => {
    const a = figureOf(now, measure);
    const b = figureOf(other, measure);
    const isMoney = measure === "costPerTonne" || measure === "costPerTonneFed";
    const comparable = a !== null && b !== null && (!isMoney || now.money.currency === other.money.currency);
    const pairs = comparable && measure !== "coverArea" && Math.max(now.rehearsals, other.rehearsals) > 1 ? paired?.[measure] ?? null : null;
    return {
      measure, now: a, other: b, difference: comparable ? a.value - b.value : null, limits: pairs && [pairs.low, pairs.high],
      within: !comparable ? null : pairs ? pairs.within ?? (pairs.sure ? null : "luck") : withinOf(measure, a, b),
    };
  });
}

/** What leaves open which of the two is more, until a comparison of them says it. */
function withinOf(measure: SideMeasure, a: SideFigure, b: SideFigure): PlanDifference["within"] {
  const isRanged = (figure: SideFigure): figure is Ranged => figure.range !== null;
  if (!isRanged(a) || !isRanged(b) || !isLeftOpen(a, b)) return null;
  return measure === "dryDensity" ? "relation" : "ledger";
}

function figureOf(findings: Findings, measure: SideMeasure): SideFigure | null {
  const { storages, ledger, money } = findings;
  if (measure === "coverArea") return { value: storages.reduce((sum, { coverArea }) => sum + coverArea, 0), range: null };
  const told = findings.measures[measure];
  if (!told) return null;
  switch (measure) {
    case "dryDensity": return { value: told.mean, range: bandOf(findings) };
    case "dryMatterFed": return { value: told.mean, range: endsOf(ledger.fedT) };
    case "costPerTonneFed": return { value: told.mean, range: money.perTonne.fed && endsOf(money.perTonne.fed) };
    default: return { value: told.mean, range: null };
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

/** Measures at which the one and the other plan come out ahead. */
export interface Ahead { readonly now: readonly SideMeasure[]; readonly other: readonly SideMeasure[] }

/**
 * What tells two plans apart: that the days are sure of a difference is no win where the model could not tell the two apart.
 * @param isTold whether the difference of a row is large enough to be printed
 */
export function toldApart(rows: readonly SideRow[], paired: Paired, isTold: (row: SideRow) => boolean): { readonly better: Ahead; /** by less than the loss ledger leaves open */ readonly ledger: Ahead } {
  const shows = (name: SideMeasure) => rows.some((row) => row.measure === name && row.difference !== null && isTold(row));
  const ahead = (within: PlanDifference["within"]): Ahead => ({ now: aheadAt(paired, true, within).filter(shows), other: aheadAt(paired, false, within).filter(shows) });
  return { better: ahead(null), ledger: ahead("ledger") };
}
