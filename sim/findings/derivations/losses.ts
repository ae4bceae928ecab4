/** The lines of the loss ledger in words: what each rests on, how far its source reaches, and what qualifies it here. */
import { effluentCurve, effluentEnds } from "../../forage/effluent.ts";
import { contraryTrials, lossAtDensity, lossLine, lossLineRange, rangesOnly, sealingDelay } from "../../forage/losses.ts";
import { isOutside } from "../../forage/sourced.ts";
import { topLayerLoss } from "../../forage/toplayer.ts";
import { LOSS_SWITCHES, type Scenario } from "../../scenario/types.ts";
import type { DayFacts } from "../facts.ts";
import { figure, meanOver, named, percent } from "../figure.ts";
import { addedSpans, addedUp, juiceDryMatter, layerLoss, lostOf, middleOf, topLayerDepth } from "../ledger.ts";
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
  const t = (value: number) => figure(value, "t", 3);
  return {
    cutT: meanOver(days, (day) => day.cut) / KG_PER_T, storedT, fedT,
    inWords: `Of ${t(storedT)} of dry matter stored, ${t(fedT.low)} to ${t(fedT.high)} are left to feed, ${t(fedT.central)} by the central figures; the ends take every line `
      + `at its high end, or every line at its low end, at once.${crossCheck(scenario, days, storedT)}`
      + (off.length > 0 ? ` Switched off and not counted: ${named(off.map((cause) => LOSS_WORDS[cause].toLowerCase()), off.length)}.` : ""),
  };
}

/** The sum of the lines beside the only published totals: what would be counted twice would show here. */
function crossCheck(scenario: Scenario, days: readonly DayFacts[], storedT: number): string {
  const density = densityOf(days);
  if (!(storedT > 0) || LOSS_SWITCHES.some((cause) => !scenario.losses[cause])) return "";
  const { low, high } = lossAtDensity(density);
  const lost = lostOf(scenario, addedUp(days.flatMap((day) => day.storages.map((storage) => storage.losses)), 1 / days.length / KG_PER_T)).central;
  return ` Together the lines lose ${percent(lost / storedT, 1)}; the trials behind the density line lost ${percent(low, 1)} (four corn bunkers) to ${percent(high, 1)} (alfalfa) `
    + `in all at ${Math.round(density)} kg DM/m3.`;
}

/** kg DM/m3 of all storages together. */
function densityOf(days: readonly DayFacts[]): number {
  const sum = (what: "dryMass" | "volume") => days.reduce((total, day) => total + day.storages.reduce((all, storage) => all + storage[what], 0), 0);
  return sum("dryMass") / sum("volume");
}

const shares = ([low, high]: readonly [number, number]): string => `${percent(low, 1)} to ${percent(high, 1)}`;

const SAID: Readonly<Record<LossCause, (scenario: Scenario, days: readonly DayFacts[]) => Said>> = {
  effluent: ({ fields }) => ({
    mark: `${effluentCurve.mark}; dry matter of the juice: ${juiceDryMatter.mark}`, source: `${effluentCurve.source}; ${effluentEnds.source}`,
    range: `${effluentCurve.range.map((d) => percent(d / 1000, 1)).join(" to ")} dry matter of the crop`,
    outside: fields.some((field) => field.dryMatter * 1000 < effluentCurve.range[0]),
    note: `Juice by the curve, load by load, at ${juiceDryMatter.value.join(" to ")} kg of dry matter in a litre; ${MIDDLE}. `
      + `None above ${percent(effluentEnds.value / 1000)} dry matter.`,
  }),
  fermentation: () => ({
    mark: rangesOnly.fermentation.mark, source: rangesOnly.fermentation.source, range: shares(rangesOnly.fermentation.value), outside: false,
    note: `Of what lies below the top layer, whose loss has its own line; ${MIDDLE}.`,
  }),
  density: ({ crop }, days) => {
    const density = densityOf(days);
    return {
      mark: `${lossLine.per.mark}; counted from the densest row of the table: assumption of this project`, source: `${lossLine.per.source}; ${contraryTrials.corn.source}; ${contraryTrials.grass.source}`,
      range: `${lossLineRange.map((end) => Math.round(end)).join(" to ")} kg DM/m3, storages of alfalfa`, outside: Number.isFinite(density) && isOutside(density, lossLineRange),
      note: `What each lift loses more than the densest storages of the table, ${Math.round(lossLineRange[1])} kg DM/m3, by the table's slope of ${lossLine.per.value} points a lb DM/ft3, `
        + `and only below the top layer; what is lost at any density stands in the other lines. ${cropInWords(crop.kind)} The slope is the central figure and the high end; the low end is ${contraryTrials.grass.source}, which found no difference.`,
    };
  },
  topLayer: ({ storages }) => {
    const covers = [...new Set(storages.map((storage) => storage.cover))];
    const rates = covers.map((cover) => `${cover === "none" ? "no cover" : `${cover} film`} ${percent(layerLoss(cover).value, 1)}`);
    const depth = topLayerDepth.map((m) => Math.round(100 * m));
    return {
      mark: [...new Set(covers.map((cover) => layerLoss(cover).mark))].join("; "), source: [...new Set(covers.map((cover) => layerLoss(cover).source))].join("; "),
      range: `a layer ${depth.join(" to ")} cm deep`, outside: false,
      note: `Share of the layer's dry matter: ${named(rates, rates.length)}. The layer lies under all that is open to the sky, ${depth.join(" to ")} cm deep, ${Math.round(100 * middleOf(topLayerDepth))} cm for the `
        + `central figure (geometric middle, assumption of this project), as dense as the rest.${covers.includes("none") ? ` Without a cover the ${percent(topLayerLoss.plain.value, 1)} under plain film grow as whole losses did in small bunkers.` : ""}`,
    };
  },
  delay: (_scenario, days) => ({
    mark: sealingDelay.mark, source: sealingDelay.source, range: null, outside: false,
    note: `No figure: ${sealingDelay.caution} ${sealingDelay.evidence}${fillInWords(meanOver(days, (day) => day.measures.fillTime))}`,
  }),
  face: () => ({
    mark: rangesOnly.face.mark, source: rangesOnly.face.source, range: shares(rangesOnly.face.value), outside: false,
    note: `${MIDDLE[0]!.toUpperCase()}${MIDDLE.slice(1)}: no verified rate ties it to the pace of the face, but a face slower than advised belongs near the high end.`,
  }),
};

const fillInWords = (hours: number): string => (Number.isFinite(hours) ? ` Here from the first tip to the last lift closed: ${hours.toFixed(1)} h, and then the cover.` : "");

function cropInWords(kind: Scenario["crop"]["kind"]): string {
  if (kind === "alfalfa") return "The table is of alfalfa, as here.";
  const own = kind === "corn" ? ` Four corn bunkers showed the same slope, ${contraryTrials.corn.value} points lower.` : "";
  return `The table is of alfalfa, used here for ${kind}.${own}`;
}
