/**
 * The loss ledger: from the dry matter cut to the dry matter fed, a line a cause, each with its range, mark and switch.
 *
 * How the lines stand side by side without counting a loss twice (assumption of this project):
 * - Every line is a share of the dry matter stored, as published; none is applied to what another leaves. Switching one off moves no other.
 * - The density line is not Ruppel's total. His line is everything lost at a density; here a lift enters with the *difference* to the
 *   densest row of that table (22 lb DM/ft3), where what remains is left to the other lines.
 *   Loose lifts lose more; a lift denser than that loses nothing by this line.
 * - Each kilogram lies either in the top layer or below it. What the layer loses was measured with all causes together, so fermentation
 *   and density are reckoned on what lies below the layer (central depth), and effluent and face on everything.
 * - Where a source gives only a range, the central figure is the geometric middle of its ends.
 * - No line takes more than the lines before it leave. This matters only where a storage is absurdly thin or wet.
 */
import { effluent } from "../forage/effluent.ts";
import { lossLineRange, lossSaved, rangesOnly } from "../forage/losses.ts";
import type { Range, Sourced } from "../forage/sourced.ts";
import { topLayerLoss, wholeLoss } from "../forage/toplayer.ts";
import { LOSS_SWITCHES, type LossSwitch, type Scenario, type Storage } from "../scenario/types.ts";
import type { Span } from "./types.ts";

/** Dry matter in a litre of effluent. */
export const juiceDryMatter: Sourced<Range> = {
  value: [0.03, 0.1], unit: "kg DM/L", source: "no figure found in print", mark: "assumption of this project",
};

/** Depth of the top layer, m: the range of the meta-analysis. */
export const topLayerDepth: Range = topLayerLoss.plain.range;

/**
 * What the top layer loses without any cover: the loss under plain film times what uncovered bunkers lost over covered ones. The two come
 * from different trials, and the bunkers were small; nothing was found in print for the layer itself.
 */
const uncoveredLoss: Sourced = {
  value: (topLayerLoss.plain.value * wholeLoss.uncovered.value) / wholeLoss.covered.value, unit: "1",
  source: `${topLayerLoss.plain.source}, times ${wholeLoss.uncovered.value} / ${wholeLoss.covered.value} from ${wholeLoss.uncovered.source}`,
  mark: "assumption of this project",
};

/** kg of dry matter by line. */
export type LossAmounts = Readonly<Record<LossSwitch, Span>>;

/** A storage as it was filled; lifts and densities side by side. */
export interface Ensiled {
  readonly lifts: readonly { readonly mass: number; readonly dryMass: number }[];
  /** kg DM/m3 */ readonly densities: readonly number[];
  /** m3 */ readonly volume: number;
  /** m2 under the sky */ readonly surface: number;
}

/** The geometric middle of a range. */
export const middleOf = ([low, high]: Range): number => Math.sqrt(low * high);

const spanOf = (range: Range, of: number): Span => ({ low: range[0] * of, central: middleOf(range) * of, high: range[1] * of });

/** Share of the dry matter that the top layer loses under a kind of cover. */
export const layerLoss = (cover: Storage["cover"]): Sourced => (cover === "none" ? uncoveredLoss : topLayerLoss[cover]);

/** kg of dry matter that each line takes from a storage; zeros where nothing lies. Lines that are off are reckoned too, see `fedOf`. */
export function lossesOf({ losses }: Pick<Scenario, "losses">, cover: Storage["cover"], { lifts, densities, volume, surface }: Ensiled): LossAmounts {
  const dry = lifts.reduce((sum, lift) => sum + lift.dryMass, 0);
  // Even density assumed: the layer's share of the dry matter is its share of the volume.
  const inLayer = (depth: number) => (volume > 0 ? Math.min(1, (depth * surface) / volume) : 0);
  const below = 1 - inLayer(middleOf(topLayerDepth));

  const litres = lifts.reduce((sum, lift) => sum + (lift.mass > 0 ? (lift.mass / 1000) * effluent(lift.dryMass / lift.mass) : 0), 0);
  const loose = lifts.reduce((sum, lift, i) => {
    const { bySlope, byGrassTrial } = lossSaved(densities[i]!, lossLineRange[1]);
    return { bySlope: sum.bySlope + lift.dryMass * Math.max(0, bySlope), byTrial: sum.byTrial + lift.dryMass * byGrassTrial };
  }, { bySlope: 0, byTrial: 0 });
  const top = (depth: number) => dry * layerLoss(cover).value * inLayer(depth);

  return within(dry, losses, {
    effluent: spanOf(juiceDryMatter.value, litres),
    fermentation: spanOf(rangesOnly.fermentation.value, dry * below),
    density: { low: loose.byTrial * below, central: loose.bySlope * below, high: loose.bySlope * below },
    topLayer: { low: top(topLayerDepth[0]), central: top(middleOf(topLayerDepth)), high: top(topLayerDepth[1]) },
    face: spanOf(rangesOnly.face.value, dry),
  });
}

/** Holds every line to what the lines before it leave. */
function within(dry: number, on: Scenario["losses"], lines: LossAmounts): LossAmounts {
  let left = dry;
  const held = (cause: LossSwitch): Span => {
    const central = Math.min(lines[cause].central, left);
    if (on[cause]) left -= central;
    return { low: Math.min(lines[cause].low, central), central, high: Math.min(lines[cause].high, dry) };
  };
  return Object.fromEntries(LOSS_SWITCHES.map((cause) => [cause, held(cause)])) as Record<LossSwitch, Span>;
}

/** What the lines that are on take together, all low ends, all central figures, all high ends. */
export function lostOf({ losses }: Pick<Scenario, "losses">, amounts: LossAmounts): Span {
  const sum = (end: keyof Span) => LOSS_SWITCHES.reduce((total, cause) => total + (losses[cause] ? amounts[cause][end] : 0), 0);
  return { low: sum("low"), central: sum("central"), high: sum("high") };
}

/** What is left to feed of so much stored, kg: the widest range, every line at its high or its low end at once; never below none. */
export function fedOf(dry: number, lost: Span): Span {
  return { low: Math.max(0, dry - lost.high), central: dry - lost.central, high: dry - lost.low };
}

/** Amounts added up line by line, over storages or over days, each times a weight. */
export function addedUp(all: readonly LossAmounts[], weight = 1): LossAmounts {
  const span = (cause: LossSwitch): Span => addedSpans(all.map((amounts) => amounts[cause]), weight);
  return Object.fromEntries(LOSS_SWITCHES.map((cause) => [cause, span(cause)])) as Record<LossSwitch, Span>;
}

/** Spans added up end by end, times a weight. */
export function addedSpans(spans: readonly Span[], weight = 1): Span {
  const sum = (end: keyof Span) => weight * spans.reduce((total, span) => total + span[end], 0);
  return { low: sum("low"), central: sum("central"), high: sum("high") };
}
