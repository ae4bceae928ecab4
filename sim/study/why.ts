/** Why a remedy does nothing: the sentence a practitioner would want, with the figures of the rehearsed days. */
import { STATION_WORDS } from "../findings/words.ts";
import { SURE_ENOUGH } from "../findings/headline.ts";
import { bottleneckOf } from "../findings/verdict.ts";
import { counted, meanOver, percent } from "../findings/figure.ts";
import { capacityOf } from "../forage/geometry/index.ts";
import { roomOn } from "../harvest/pace.ts";
import { behindOf } from "../scenario/behind.ts";
import { formatNumber } from "../scenario/units.ts";
import type { Effect, Rehearsed } from "./effects.ts";
import type { Remedy } from "./remedies.ts";

const minutes = (value: number): string => `${formatNumber(value, value < 10 ? 1 : 0)} min`;

/** Share of the chopper's field time under which its waiting is nothing to speak of (assumption of this project). */
const LITTLE = 0.02;
/** The same under which it would be told as 0 %. */
const NEVER = 0.005;
/** min by which a wait must grow to be seen as a queue that has moved (assumption of this project). */
const QUEUE_GROWS = 0.5;
/** Share by which density may differ and still be called the same, and share of an apron under which it was never full (assumptions of this project). */
const SAME_DENSITY = 0.002;
const NEARLY_FULL = 0.9;

/** One sentence or two. `before` is the plan as it is, `after` with the remedy; `waiting` what it does to the chopper's waiting. */
export function whyNothing({ family, storage }: Pick<Remedy, "family" | "storage">, before: Rehearsed, after: Rehearsed, waiting: Effect): string {
  const [a, b] = [before.days, after.days];
  const standing = meanOver(a, (day) => day.measures.chopperWaiting);
  const onTrucks = standing - meanOver(a, (day) => day.measures.chopperWaitingOnStorage);
  const limit = STATION_WORDS[bottleneckOf(before.scenario, a)];
  const elsewhere = waiting.moves && family !== "truck-more" && family !== "truck-fewer";
  if (elsewhere) return `It only moves the waiting elsewhere: the chopper stands ${percent(standing + waiting.mean)} of its time instead of ${percent(standing)}, and neither density nor the end of the day moves.`;
  const place = storage === null ? null : before.scenario.storages[storage]!;
  const stood = waiting.moves ? ` The chopper stands ${percent(standing + waiting.mean)} of its time instead of ${percent(standing)}, and the day ends no earlier.` : "";
  switch (family) {
    case "truck-more": {
      const [waits, then] = [a, b].map((days) => meanOver(days, (day) => day.measures.truckWaiting)) as [number, number];
      const [round, longer] = [a, b].map((days) => meanOver(days, (day) => day.measures.truckCycle)) as [number, number];
      const stands = onTrucks < LITTLE ? `The chopper ${onTrucks < NEVER ? "never waits for trucks" : `waits for trucks only ${percent(onTrucks)} of its time`}.` : `What limits the day is ${limit}.`;
      if (then - waits >= QUEUE_GROWS && then - waits >= (longer - round) / 2) return `${stands} One more only moves the queue to the storage: a truck waits ${minutes(then)} there each trip instead of ${minutes(waits)}.${stood}`;
      if (longer - round >= QUEUE_GROWS) return `${stands} One more only stands in line for the chopper: a round takes ${minutes(longer)} instead of ${minutes(round)}.`;
      return stands;
    }
    case "truck-fewer": {
      const waits = meanOver(b, (day) => day.measures.chopperWaiting - day.measures.chopperWaitingOnStorage);
      return `The trucks that are left bring as much: the chopper ${waits < NEVER ? "never waits for them" : `waits for them ${percent(waits)} of its time`}.`;
    }
    case "tractor-more": case "ballast": {
      const light = family === "tractor-more" && b.every((day) => day.storages[storage!]!.uncredited.includes(after.scenario.storages[storage!]!.tractors.length - 1));
      if (light) return "The relation gives a tractor this light no credit beside the heavier ones.";
      const whole = capacityOf(place!);
      const room = roomOn(before.scenario, place!, whole, whole);
      if (family === "tractor-more" && bottleneckOf(before.scenario, a) === "packing" && room <= place!.tractors.length) return `The wedge has room for ${counted(room)} at a time: one more takes turns with the others.`;
      return `The crew that is there has no debt ${percent(meanOver(a, (day) => day.measures.packingIdle))} of its time; what limits the day is ${limit}.`;
    }
    case "tractor-fewer":
      return b.every((day, i) => Math.abs(day.measures.dryDensity / a[i]!.measures.dryDensity - 1) < SAME_DENSITY)
        ? "The relation gives it no credit, or the others pack as much without it." : "The others make up for it.";
    case "thinner-layer": return `Lifts reach what the rule asks for at the set layer already; what limits the day is ${limit}.`;
    case "slower-chopper": return behindOf(before.scenario).eases && standing < LITTLE ? "The chopper is slowed further than that already, to what the crew packs."
      : `The chopper does not set the pace: it stands ${percent(standing)} of its time.`;
    case "tipping-place": {
      const waits = meanOver(a, (day) => day.measures.truckWaiting);
      if (waits < QUEUE_GROWS) return `${minutes(waits) === minutes(0) ? "No truck waits" : `A truck waits ${minutes(waits)} a trip`}: there is no queue to shorten.`;
      return `Trucks wait ${minutes(waits)} a trip, but not for a place: what limits the day is ${limit}.`;
    }
    case "apron": {
      const peak = Math.max(...a.map((day) => day.measures.apronPeak)) * 1000;
      if (peak < NEARLY_FULL * place!.apron) return `The apron was never more than ${percent(peak / place!.apron)} full.`;
      const bigger = Math.max(...b.map((day) => day.measures.apronPeak)) * 1000;
      if (bigger < NEARLY_FULL * after.scenario.storages[storage!]!.apron) return `The apron is full at times, and hardly anybody waits for room on it; what limits the day is ${limit}.`;
      return `The bigger apron fills as well, only later; what limits the day is ${limit}.`;
    }
    case "second-clamp":
      if (before.scenario.fields.length === 1 && b.every((day) => day.storages.at(-1)!.mass === 0)) return "Nothing goes to the second place: all the crop is of one field, which fills one place before it turns to the other.";
      return a.some((day) => day.storages[0]!.full) ? "The second place takes little: the first is full late or seldom." : `The first is never full, and what limits the day is ${limit}.`;
    case "rule":
      return [a, b].every((days) => meanOver(days, (day) => (day.keepsPace ? 1 : 0)) >= SURE_ENOUGH) ? "Packing keeps pace, so that no rule is called on." : "The day comes out the same under either rule.";
    case "rolling": return bottleneckOf(before.scenario, a) === "packing" ? "Packing is what limits the day, but so little more rolling moves nothing noticeably." : `Packing is not what limits the day: ${limit} is.`;
    case "breaks": return "What is made up in the breaks is lost again in waiting.";
    case "longer": return "The crop is in before the shift ends, or nothing more gets packed in the time it adds.";
    case "earlier": return "The day is as long, only earlier.";
  }
}
