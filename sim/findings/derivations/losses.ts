/** The lines of the loss ledger in words: what each rests on, how far its source reaches, and what qualifies it here. */
import { effluentCurve, effluentEnds } from "../../forage/effluent.ts";
import { contraryTrials, lossAtDensity, lossLine, lossLineRange, rangesOnly, sealingDelay } from "../../forage/losses.ts";
import { isOutside, type Range } from "../../forage/sourced.ts";
import { topLayerLoss } from "../../forage/toplayer.ts";
import { LOSS_SWITCHES, type Scenario } from "../../scenario/types.ts";
import type { DayFacts } from "../facts.ts";
import { counted, meanOver, named, percent } from "../figure.ts";
import { formatNumber } from "../../scenario/units.ts";
import { capital } from "../../scenario/words.ts";
import { leftToFeed } from "../left.ts";
import { addedSpans, addedUp, juiceDryMatter, layerLoss, middleOf, topLayerDepth } from "../ledger.ts";
import { LOSS_CAUSES, type LedgerEnds, type LossCause, type LossLine } from "../types.ts";
import { LOSS_WORDS } from "../words.ts";

/** What a line says beside its figures. */
type Said = Pick<LossLine, "mark" | "source" | "range" | "outside" | "note">;

const MIDDLE = "the central figure is the geometric middle of the range (assumption of this project)";
const KG_PER_T = 1000;

/** The lines in the order of the ledger, means over the days, t of dry matter. */
export function lossLines(scenario: Scenario, days: readonly DayFacts[]): LossLine[] {
  const amounts = addedUp(days.flatMap((day) => day.storages.map((storage) => storage.losses)), 1 / days.length / KG_PER_T);
  const stored = meanOver(days, (day) => day.measures.dryMatterStored);
  return LOSS_CAUSES.map((cause) => {
    const said = SAID[cause](scenario, days);
    if (cause === "delay") return { cause, dryT: null, share: null, ...said, on: true };
    return { cause, dryT: amounts[cause], share: stored > 0 ? amounts[cause].central / stored : 0, ...said, on: scenario.losses[cause] };
  });
}

/** Where the ledger begins and where it ends. */
export function ledgerEnds(scenario: Scenario, days: readonly DayFacts[]): LedgerEnds {
  const storedT = meanOver(days, (day) => day.measures.dryMatterStored);
  const fedT = addedSpans(days.flatMap((day) => day.storages.map((storage) => storage.fed)), 1 / days.length / KG_PER_T);
  const off = LOSS_SWITCHES.filter((cause) => !scenario.losses[cause]);
  const words = !(storedT > 0) ? ["No dry matter was stored."] : [
    leftToFeed({ storedT, fedT }),
    off.length > 0
      ? `Switched off and not counted: ${named(off.map((cause) => LOSS_WORDS[cause].toLowerCase()), off.length)}.`
      : crossCheck(days, storedT, storedT - fedT.central),
  ];
  return { cutT: meanOver(days, (day) => day.cut) / KG_PER_T, storedT, fedT, inWords: words.filter((word) => word !== "").join(" ") };
}

/** The sum of all lines beside the only published totals: what is counted twice would show here. */
function crossCheck(days: readonly DayFacts[], storedT: number, lostT: number): string {
  const density = densityOf(days);
  const { low, high } = lossAtDensity(density);
  return `Together the lines lose ${percent(lostT / storedT, 1)}; the trials behind the density line lost ${percent(low, 1)} (four corn bunkers) `
    + `to ${percent(high, 1)} (alfalfa) in all at ${counted(density)} kg DM/m3.`;
}

/** kg DM/m3 of all storages together, as the measure has it: the mean of the days on which anything was stored. */
const densityOf = (days: readonly DayFacts[]): number =>
  meanOver(days.filter((day) => Number.isFinite(day.measures.dryDensity)), (day) => day.measures.dryDensity);

const shares = ([low, high]: Range): string => `${percent(low, 1)} to ${percent(high, 1)}`;
const distinct = (words: readonly string[]): string => [...new Set(words)].join("; ");

function effluentLine({ fields }: Scenario): Said {
  return {
    mark: `${effluentCurve.mark}; dry matter of the juice: ${juiceDryMatter.mark}`, source: `${effluentCurve.source}; ${effluentEnds.source}`,
    range: `${effluentCurve.range.map((d) => percent(d / 1000, 1)).join(" to ")} dry matter of the crop`,
    outside: fields.some((field) => field.dryMatter * 1000 < effluentCurve.range[0]),
    note: `Juice by the curve, load by load, at ${juiceDryMatter.value.join(" to ")} kg of dry matter in a litre; ${MIDDLE}. `
      + `None above ${percent(effluentEnds.value / 1000)} dry matter.`,
  };
}

function fermentationLine(): Said {
  const { mark, source, value } = rangesOnly.fermentation;
  return { mark, source, range: shares(value), outside: false, note: `Of what lies below the top layer, whose loss has its own line; ${MIDDLE}.` };
}

function densityLine({ crop }: Scenario, days: readonly DayFacts[]): Said {
  const density = densityOf(days);
  const [loosest, densest] = lossLineRange.map((end) => Math.round(end));
  return {
    mark: `${lossLine.per.mark}; counted from the densest row of the table: assumption of this project`,
    source: [lossLine.per, contraryTrials.corn, contraryTrials.grass].map(({ source }) => source).join("; "),
    range: `${loosest} to ${densest} kg DM/m3, storages of alfalfa`, outside: Number.isFinite(density) && isOutside(density, lossLineRange),
    note: `What each lift loses more than the densest storages of the table, ${densest} kg DM/m3, by the table's slope of ${lossLine.per.value} points `
      + "a lb DM/ft3, and only below the top layer; what is lost at any density stands in the other lines. "
      + `${cropInWords(crop.kind)} The slope is the central figure and the high end; the low end is ${contraryTrials.grass.source}, which found no difference.`,
  };
}

function cropInWords(kind: Scenario["crop"]["kind"]): string {
  if (kind === "alfalfa") return "The table is of alfalfa, as here.";
  const own = kind === "corn" ? ` Four corn bunkers showed the same slope, ${contraryTrials.corn.value} points lower.` : "";
  return `The table is of alfalfa, used here for ${kind}.${own}`;
}

function topLayerLine({ storages }: Scenario, days: readonly DayFacts[]): Said {
  const covers = [...new Set(storages.filter((_, s) => days.some((day) => day.storages[s]!.mass > 0)).map((storage) => storage.cover))];
  const rates = covers.map((cover) => `${cover === "none" ? "no cover" : `${cover} film`} ${percent(layerLoss(cover).value, 1)}`);
  const depth = `${topLayerDepth.map((m) => Math.round(100 * m)).join(" to ")} cm deep`;
  const bare = covers.includes("none")
    ? ` Without a cover the ${percent(topLayerLoss.plain.value, 1)} under plain film grow as whole losses did in small bunkers.` : "";
  return {
    mark: distinct(covers.map((cover) => layerLoss(cover).mark)) || topLayerLoss.plain.mark,
    source: distinct(covers.map((cover) => layerLoss(cover).source)) || topLayerLoss.plain.source,
    range: `a layer ${depth}`, outside: false,
    note: `${rates.length > 0 ? `Share of the layer's dry matter: ${named(rates, rates.length)}. ` : ""}The layer lies under all that is open to the sky, ${depth}, `
      + `${Math.round(100 * middleOf(topLayerDepth))} cm for the central figure (geometric middle, assumption of this project), as dense as the rest.${bare}`,
  };
}

function delayLine(_scenario: Scenario, days: readonly DayFacts[]): Said {
  const hours = meanOver(days, (day) => day.measures.fillTime);
  const here = Number.isFinite(hours) ? ` Here from the first tip to the last lift closed: ${formatNumber(hours, 1)} h, and then the cover.` : "";
  const { mark, source, caution, evidence } = sealingDelay;
  return { mark, source, range: null, outside: false, note: `No figure: ${caution} ${evidence}${here}` };
}

function faceLine(): Said {
  const { mark, source, value } = rangesOnly.face;
  return {
    mark, source, range: shares(value), outside: false,
    note: `${capital(MIDDLE)}: no verified rate ties it to the pace of the face, but a face slower than advised belongs near the high end.`,
  };
}

const SAID: Readonly<Record<LossCause, (scenario: Scenario, days: readonly DayFacts[]) => Said>> = {
  effluent: effluentLine, fermentation: fermentationLine, density: densityLine, topLayer: topLayerLine, delay: delayLine, face: faceLine,
};
