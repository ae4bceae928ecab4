/** A campaign of several days: from words to SI. */
import { z } from "zod";
import { dryingOf } from "../forage/drying.ts";
import { dateOf, dayOf } from "./dates.ts";
import type { Desk } from "./desk.ts";
import { LIMITS } from "./limits.ts";
import { clock, clockOf, count, group, measured, several } from "./pieces.ts";
import type { Campaign, Scenario } from "./types.ts";
import { found } from "./words.ts";
import type { Path } from "./words.ts";

/** A day of the calendar. */
function date(about: string) {
  const would = "a day of the calendar such as \"2026-09-14\" would do, year, month, day";
  const trouble = (input: unknown) => (input === undefined ? `is missing: ${would}` : `is ${found(input)}: ${would}`);
  return z.string({ error: ({ input }) => trouble(input) })
    .superRefine((text, context) => {
      if (dayOf(text) === null) context.addIssue({ code: "custom", message: trouble(text) });
    })
    .meta({ description: about, pattern: "^\\s*\\d{4}-\\d{2}-\\d{2}\\s*$", examples: ["2026-09-14"] });
}

/** The key `campaign` of the file. Only `starts` must be there. */
export const writtenCampaign = group({
  starts: date("The first day of cutting."),
  measured: date("The day on which the dry matter of this file was true; the first day of cutting when left out.").optional(),
  drying: measured("campaign.drying").optional(),
  rain: z.union([measured("campaign.rain"), several(date("A day lost to rain."), LIMITS.campaignDays, "days")], {
    error: ({ input }) => `is ${found(input)}: a chance for each day such as "20 %", or a list of days such as [2026-09-16] would do`,
  }).meta({ description: "Days lost to rain: a chance for each day, or a list of days; none when left out." }).optional(),
  dew: clock("Nothing is cut before this time of day; the start of the shift when left out.").optional(),
  days: count(1, LIMITS.campaignDays, "Days of the calendar that the campaign may take, those lost to rain among them.").optional(),
}, "Several days, one after another: the crop dries while it waits.");

type WrittenCampaign = z.infer<typeof writtenCampaign>;

export function campaignOf(written: WrittenCampaign, { crop, shift }: Scenario, desk: Desk): Campaign {
  const at: Path = ["campaign"];
  const starts = dayOf(written.starts)!;
  const since = written.measured === undefined ? starts : dayOf(written.measured)!;
  if (since > starts) desk.problems.add([...at, "measured"], `is ${found(written.measured)}, after the first day of cutting: that day or one before it would do`);
  else if (starts - since > LIMITS.campaignWait) desk.problems.add([...at, "measured"], `is ${found(written.measured)}, ${starts - since} days before the first day of cutting: up to ${LIMITS.campaignWait} would do`);
  const drying = desk.siOrNull(written.drying, "campaign.drying");
  if (drying !== null && dryingOf(crop.kind).way === "standing" && drying > desk.si(FASTEST_STANDING, "campaign.drying")) {
    desk.problems.add([...at, "drying"], `is ${found(written.drying)}: ${crop.kind} is cut standing and dries by the day, up to ${FASTEST_STANDING} would do`);
  }
  const dew = written.dew === undefined ? null : clockOf(written.dew)!;
  if (dew !== null && dew >= shift.end) desk.problems.add([...at, "dew"], `is ${found(written.dew)}, when the shift is over: a time before its end would do`);
  return {
    starts, measured: since, drying, dew, days: desk.countOr(written.days, "campaign.days"),
    rain: Array.isArray(written.rain) ? rainDays(written.rain, since, [...at, "rain"], desk) : desk.siOr(written.rain, "campaign.rain"),
  };
}

/** The most that a standing crop may dry: three times the driest county. */
const FASTEST_STANDING = "3 % per day";

function rainDays(written: readonly string[], from: number, at: Path, desk: Desk): number[] {
  const days = written.map((text) => dayOf(text)!);
  const last = from + LIMITS.campaignWait + LIMITS.campaignDays - 1;
  days.forEach((day, i) => {
    if (day < from || day > last) desk.problems.add([...at, i], `is ${found(written[i])}, outside the campaign: a day from ${dateOf(from)} to ${dateOf(last)} would do`);
    else if (days.indexOf(day) < i) desk.problems.add([...at, i], `is ${found(written[i])}, which is in this list already`);
  });
  return days;
}
