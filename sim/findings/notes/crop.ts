/** What qualifies the day as a whole: a crop outside its window, a chopper driven as few are, crop left standing, a storage that fills up. */
import { workingSpeed } from "../../forage/capacity.ts";
import { dryingOf } from "../../forage/drying.ts";
import { isOutside, type Range, type Sourced } from "../../forage/sourced.ts";
import { chopLengthWindow, daysToReach, dryMatterWindowOf, windowSide } from "../../forage/window.ts";
import { counted, meanOver, named, percent, tonnes, upTo } from "../figure.ts";
import type { Note } from "./note.ts";

/** kg left standing from which it is told: less than any load (assumption of this project). */
const WORTH_TELLING = 500;

const shares = ({ value: [low, high] }: Sourced<Range>): string => `${percent(low)} to ${percent(high)}`;

/** Fields too wet or too dry for a bunker. */
export const dryMatter: Note = ({ crop, fields }) => (["too wet", "too dry"] as const).flatMap((side) => {
  const off = fields.filter((field) => windowSide(field.dryMatter, crop.kind) === side);
  if (off.length === 0) return [];
  const window = dryMatterWindowOf(crop.kind);
  return [`${named(off.map((field) => `${field.name} (${percent(field.dryMatter, 1)})`))} ${off.length > 1 ? "are" : "is"} ${side} for the `
    + `${shares(window)} dry matter advised for ${crop.kind} in a bunker (${window.mark})${side === "too wet" ? daysToWait(crop.kind, Math.min(...off.map((field) => field.dryMatter)), window.value[0]) : ""}.`];
});

/** For how long a standing crop would have to wait; nothing for a mown one, whose rate hangs on the weather and was not found in print. */
function daysToWait(crop: string, wettest: number, fit: number): string {
  const { way, rate } = dryingOf(crop);
  if (way === "mown" || !rate.range) return "";
  const days = (points: number) => Math.max(1, Math.round(daysToReach(1 - wettest, 1 - fit, points)));
  const daysOf = (n: number) => `${counted(n)} ${n === 1 ? "day" : "days"}`;
  const [slow, fast] = rate.range;
  return `, and the wettest would be fit in about ${daysOf(days(rate.value))} at ${rate.value} points of moisture a day, in ${days(fast)} to ${days(slow)} at the rates of single counties (${rate.source}; ${rate.mark})`;
}

/** A chopper set to a speed that few drive: a slip of the pen shows here. */
export const speed: Note = ({ choppers }) => choppers.flatMap((chopper) => {
  const { value: [slow, fast], unit, mark } = workingSpeed;
  // Speeds are kept in m/s to twelve digits.
  if (!isOutside(chopper.speed * 3.6, [slow * (1 - 1e-9), fast * (1 + 1e-9)])) return [];
  return [`${chopper.name} is set to ${upTo(chopper.speed * 3.6, 1)} ${unit} in the row, where ${slow} to ${fast} ${unit} are usual for a forage harvester (${mark}).`];
});

/** Chop length outside common practice. */
export const chopLength: Note = ({ crop }) => {
  const { value: [low, high], mark } = chopLengthWindow;
  // A length that was typed as 13 or 19 mm is meant as the half or three quarters of an inch that the window ends at.
  const slack = 0.0005;
  if (!isOutside(crop.chopLength, [low - slack, high + slack])) return [];
  const mm = (m: number) => Math.round(1000 * m);
  return [`A chop length of ${mm(crop.chopLength)} mm is ${crop.chopLength < low ? "shorter" : "longer"} than the usual ${mm(low)} to `
    + `${mm(high)} mm (${mark}); the packing relation does not know chop length.`];
};

/** Crop that the day leaves standing, on average. */
export const uncut: Note = (_scenario, days) => {
  const left = meanOver(days, (day) => day.uncut);
  if (left < WORTH_TELLING) return [];
  const forRoom = days.filter((day) => day.uncutForRoom).length > days.length / 2;
  return [`${tonnes(left)} of the crop ${forRoom ? "find no room and stay standing" : "are still standing when the shift ends"}`
    + `${days.length > 1 ? ", mean over the rehearsals" : ""}: tonnes, costs and finish hold for what was cut.`];
};

/** Storages that were filled up at the planned density. */
export const full: Note = ({ storages }, days) => storages.flatMap((storage, s) => {
  const often = days.filter((day) => day.storages[s]!.full).length;
  if (often === 0) return [];
  return [`${storage.name} is full at the planned density${days.length > 1 ? ` in ${counted(often)} of ${counted(days.length)} rehearsals` : ""}: what comes `
    + "after goes to the next storage named, or is not cut."];
});
