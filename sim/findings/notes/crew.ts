/** What qualifies the crew's figures: rules of thumb and farm observations beside them, and how packing time is counted. */
import { capacityOf, crowdingNote, firstWedgeShare } from "../../forage/geometry/index.ts";
import { massRules, observedMinutes, observedPackingTime, rulesOfThumb } from "../../forage/thumb.ts";
import { roomOn } from "../../harvest/pace.ts";
import { rollingShares } from "../derivations/lifts.ts";
import { counted, named, percent, tonnes } from "../figure.ts";
import { formatNumber } from "../../scenario/units.ts";
import { METRIC } from "../headline.ts";
import type { Note } from "./note.ts";

/** t/h in one kg/s */
const KG_PER_S = 3.6;

/** Every rule of thumb beside the crew's mass and the delivery rate; they disagree, so none stands alone. Of several crews that one chopper keeps busy in turn, the lightest. */
export const thumb: Note = ({ choppers, storages }, days, measures) => {
  const rate = measures.deliveryRate?.mean;
  if (rate === undefined) return [];
  const crews = storages.filter((_, s) => days.some((day) => day.storages[s]!.mass > 0)).map(({ tractors }) => tractors.reduce((sum, tractor) => sum + tractor.mass, 0));
  const inTurn = crews.length > 1 && choppers.length === 1;
  const mass = inTurn ? Math.min(...crews) : crews.reduce((sum, crew) => sum + crew, 0);
  const says = rulesOfThumb(mass, rate / KG_PER_S).map(({ rule, massWanted, enough }) =>
    `${counted(massRules[rule].value)} kg per t/h (${massRules[rule].note}) wants ${tonnes(massWanted)}, ${enough ? "met" : "not met"}`);
  return [`Rules of thumb for the ${tonnes(mass)} of tractors${inTurn ? " of the lightest crew" : ""} at ${METRIC.rate(rate / KG_PER_S)} delivered: ${named(says, says.length)}; they `
    + "disagree by a factor of two and none drives the rehearsal."];
};

/** The crew's packing time beside what was seen on farms at such rates. */
export const observed: Note = (_scenario, _days, measures) => {
  const [rate, time] = [measures.deliveryRate?.mean, measures.packingTimePerTonne?.mean];
  if (rate === undefined || time === undefined) return [];
  const seen = observedPackingTime(rate / KG_PER_S);
  // Printed as 1 and 4 minutes: more digits would turn into 0.998 for whoever reads them as they were printed.
  const [low, high] = (seen ?? []).map((secondsPerKg) => formatNumber((secondsPerKg * 1000) / 60, 1));
  const beside = seen === null
    ? "for such a rate of delivery nothing was found in print to set beside it"
    : `${seen[0] === 0 ? `under ${high}` : `${low} to ${high}`} min/t was seen on farms at such rates of delivery (${observedMinutes.slow.source})`;
  return [`Rolling by all tractors together came to ${formatNumber(time, 2)} min/t; ${beside}.`];
};

/** Tractors that have to take turns on the wedge: on the first one, and on one of full height. */
export const crowding: Note = (scenario, days) => {
  const { wedgeRoom } = scenario.packing;
  if (wedgeRoom === "off") return ["Room on the wedge is not counted: every tractor rolls in full, however narrow the storage."];
  return scenario.storages.filter((_, s) => days.some((day) => day.storages[s]!.mass > 0)).flatMap((storage) => {
    const whole = capacityOf(storage);
    const note = crowdingNote(storage.tractors.length, roomOn(scenario, storage, whole, whole));
    const first = storage.tractors.length > 1
      ? [`Until about ${percent(firstWedgeShare.value)} of the crop lies, ${storage.name} has room for one tractor (${firstWedgeShare.mark}); `
        + (wedgeRoom === "by-width" ? "that is not counted here, unless the plan asks for it under room on the wedge." : "the others take turns with it.")]
      : [];
    return note ? [...first, `${storage.name}: ${note}`] : first;
  });
};

/** Minutes on the clamp are not minutes of rolling. */
export const rolling: Note = (scenario) => {
  const used = scenario.storages.map((_, s) => s);
  if (scenario.storages.every((storage) => storage.tractors.every((tractor) => tractor.rolling === 1))) return [];
  return [`Packing time counts true rolling only, ${rollingShares({ scenario, used })} of a tractor's time on the clamp (${percent(1)} `
    + "would mean no swaps, no backing off, no looking)."];
};
