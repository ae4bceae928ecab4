/** What to know of a campaign before its figures are trusted, in words: what does not go as it should, and everything that was assumed. */
import { counted, percent, upTo } from "../findings/figure.ts";
import { dried } from "../forage/drying.ts";
import { sealingDelay } from "../forage/losses.ts";
import { dryMatterWindowOf, windowSide } from "../forage/window.ts";
import { dateOf } from "../scenario/dates.ts";
import type { Campaign } from "../scenario/types.ts";
import type { CampaignRun, Farm } from "./campaign.ts";

const DAY = 86_400;

export function campaignNotes(farms: readonly Farm[], campaign: Campaign, runs: readonly CampaignRun[]): { readonly notes: string[]; readonly assumptions: string[] } {
  return { notes: [...farms.flatMap((farm) => beforeItStarts(farm, campaign)), ...notIn(runs, campaign), ...leftOpen(runs)], assumptions: assumed(farms, campaign) };
}

/** A window that is past, or not yet there, on the first day. */
function beforeItStarts({ scenario, drying, perSecond, measured }: Farm, { starts }: Campaign): string[] {
  const [low, high] = dryMatterWindowOf(scenario.crop.kind).value;
  const onFirst = (dryMatter: number) => (drying.way === "standing" ? dried(dryMatter, perSecond, (starts - measured) * DAY) : dryMatter);
  const names = (side: string) => scenario.fields.filter(({ dryMatter }) => windowSide(onFirst(dryMatter), scenario.crop.kind) === side).map(({ name }) => name);
  const say = (which: readonly string[]) => (which.length === scenario.fields.length ? `the crop of "${scenario.name}" is` : `${which.slice(0, 5).join(", ")}${which.length > 5 ? " and others" : ""} at "${scenario.name}" ${which.length === 1 ? "is" : "are"}`);
  const [dry, wet] = [names("too dry"), names("too wet")];
  const window = `${percent(low)} to ${percent(high)} dry matter`;
  return [
    ...(dry.length > 0 ? [`On ${dateOf(starts)}, when the campaign starts, the window of ${window} is past: ${say(dry)} drier already.`] : []),
    ...(wet.length > 0 ? [`On ${dateOf(starts)}, when the campaign starts, ${say(wet)} still wetter than the window of ${window}.`] : []),
  ];
}

function notIn(runs: readonly CampaignRun[], { days }: Campaign): string[] {
  const out = runs.filter(({ allIn }) => !allIn);
  if (out.length === 0) return [];
  const used = out.filter((run) => run.days.length >= days).length;
  const why = used === out.length ? `the ${days} days were over before` : used === 0 ? "no storage had room for the rest, or the shift was too short to cut any" : `on some the ${days} days were over before, on others no storage had room for the rest`;
  return [`${out.length === runs.length ? "Not everything comes in" : `On ${counted(out.length)} of ${counted(runs.length)} campaigns not everything comes in`}: ${why}. What is left stands; nothing is lost of what was cut.`];
}

function leftOpen(runs: readonly CampaignRun[]): string[] {
  const longest = Math.max(0, ...runs.flatMap((run) => run.days.map(({ openFor }) => openFor)));
  return longest > 0 ? [`A wedge lies open for up to ${counted(longest / 3600)} h between two days of filling. ${sealingDelay.caution} ${sealingDelay.evidence}`] : [];
}

function assumed(farms: readonly Farm[], { rain, dew }: Campaign): string[] {
  const rates = farms.map(({ scenario, drying: { way, rate }, perSecond }) => {
    const [low, high] = rate.range ?? [rate.value, rate.value];
    const own = way === "standing" ? perSecond * 100 * DAY : perSecond * 100 * 3600;
    const unit = way === "standing" ? "a day" : "an hour";
    const given = Math.abs(own / rate.value - 1) < 1e-9;
    return `"${scenario.name}": ${scenario.crop.kind} loses ${upTo(own, 2)} points of moisture ${unit} (${given ? `${rate.source}; ${rate.mark}` : "as the file says"}). `
      + `Between campaigns the rate varies as ${low} to ${high} about ${rate.value} do, a triangle with the rate as its mean (assumption of this project); not where nothing varies.`;
  });
  return [
    ...new Set(rates),
    ...(farms.some(({ drying }) => drying.way === "standing") ? ["A standing crop dries on every day of the calendar, rain or not, in a straight line, and not within a day (assumption of this project)."] : []),
    ...(farms.some(({ drying }) => drying.way === "mown") ? ["A mown crop is mown anew for each day: in the morning, when work may begin, it has the dry matter of the file, then dries by the hour; each field counts as dry as it is in the middle of its cutting (assumption of this project)."] : []),
    "Dry mass stays in the field while it dries: no leaf or ear is lost by waiting (assumption of this project).",
    `${typeof rain === "number" ? "Each day is lost to rain by the same chance, whatever the day before was; a" : "A"} day of rain is lost as a whole, and the next one is not slower (assumption of this project).`,
    ...(dew === null ? [] : ["Nobody starts before the dew is off, packing included (assumption of this project)."]),
    "Everything cut is packed in the evening; next morning the crew begins on the lift that lay open. No loss is put on the open face: no verified rate exists.",
    "A field's yield is drawn once a campaign. Depth is planned for the whole crop from the first day on (assumption of this project).",
    ...(farms.length > 1 ? ["Farms follow in their order, one a day: choppers and trucks of the first move over night, packing crews are each farm's own (assumption of this project)."] : []),
    "Costs are those of the days on which something is cut: machines, drivers and fuel as each farm reckons them. Film and covering, moves between farms and standing on a wet day are not in them.",
    "The window of a pile is that of a bunker (assumption of this project).",
  ];
}
