/**
 * The one list of cautions. Each says what may hurt whom and where, and leaves the decision to local codes, the maker's limits and
 * licensed practice. The day sheet prints them; a remedy that adds weight, height or hours takes its caution from here by its id.
 */
import { effluent, effluentCurve, effluentEnds } from "../forage/effluent.ts";
import { gasDays, hazardReview, heavyTractor, leastWidth, longShift, standingDistance, steepestSlope, unloaderRule } from "../forage/safety.ts";
import { isOutside, type Mark } from "../forage/sourced.ts";
import { pressureAtFoot, pressureOfMachine, pressurePerDepth } from "../forage/wall.ts";
import type { Scenario, Storage } from "../scenario/types.ts";
import type { DayFacts } from "./facts.ts";
import { counted, figure, meanOver, metres, percent, tonnes } from "./figure.ts";
import type { Caution } from "./types.ts";

const EVERYWHERE = "everywhere";
/** Height above the wall that anybody would see, m (assumption of this project). */
const SHOWS = 0.01;

const from = ({ source, mark }: { readonly source: string; readonly mark: Mark }): string => `${source} (${mark})`;
const PRACTICE = from({ source: "what crews are told everywhere", mark: "common practice, no source" });

const hours = (s: number): string => `${(s / 3600).toFixed(1)} h`;

/** Every caution that applies: those of all silage work first, then by storage, then the road and the people. */
export function cautionsFor(scenario: Scenario, days: readonly DayFacts[]): Caution[] {
  return [
    ...always(),
    ...scenario.storages.flatMap((storage, s) => atStorage(scenario, storage, s, days)),
    ...onTheRoad(scenario),
    ...longDays(scenario, days),
  ];
}

function always(): Caution[] {
  return [
    {
      id: "roll-over", where: EVERYWHERE, source: from(hazardReview),
      text: "Tractors roll over on slopes and at edges, and people fall there: drive straight up and down, keep off edges and soft "
        + "shoulders, wear the belt inside a roll-over frame, and let the maker's limits decide what a tractor may stand on.",
    },
    {
      id: "people-on-foot", where: EVERYWHERE, source: from(hazardReview),
      text: "Nobody on foot where machines move: a driver who works in reverse, on a slope, in a hurry does not see people. Agree on places "
        + "to stand and on a signal before anyone walks in; local codes may ask for more.",
    },
    {
      id: "overhead-wires", where: EVERYWHERE, source: PRACTICE,
      text: "Look for overhead wires above field gates, apron and clamp: a raised body or a clamp that has grown comes close to them. The "
        + "line's owner and local codes say what clearance to keep.",
    },
    {
      id: "silo-gas", where: EVERYWHERE, source: from(gasDays),
      text: `Fresh silage gives off gases that kill, some within hours of filling: for ${gasDays.value / 7} weeks keep people and stock `
        + "away from low places, pits and closed rooms beside it, "
        + "and from any brown or bleach-smelling haze; entering is for people equipped and trained for it, as local codes say.",
    },
  ];
}

function atStorage(scenario: Scenario, storage: Storage, s: number, days: readonly DayFacts[]): Caution[] {
  const cautions: Caution[] = [];
  const caution = (id: string, text: string, source: string) => cautions.push({ id, text, where: storage.name, source });

  const base = storage.width * storage.length;
  const heaped = Math.max(0, ...days.map((day) => day.storages[s]!.over)) / base;
  const top = storage.height + heaped;
  const tractors = storage.tractors;
  const widest = Math.max(0, ...tractors.map((tractor) => tractor.width));
  const heaviest = Math.max(0, ...tractors.map((tractor) => tractor.mass));
  const isPile = storage.form === "pile";

  caution("face-collapse",
    `An open face falls without a warning: nobody stands closer to it than ${standingDistance.value} times its height, here `
    + `${metres(standingDistance.value * top)} if it is opened at ${metres(top)}; local codes may ask for more.`
    + (storage.unloaderReach === null ? " How high the unloader reaches is not given: never build higher than that." : ""), from(standingDistance));

  if (isPile || storage.tipsOnPile) {
    caution("trucks-on-slopes",
      `${storage.tipsOnPile ? "Trucks tip on the forage itself" : "Trucks may have to drive on a pile"}: a raised body on a slope or a soft `
      + "shoulder tips the truck over. Only on level, packed ground, straight up and down, and within what the truck's maker allows.", from(hazardReview));
  }

  const steep = [["Working slope", storage.wedge], ["Sides", isPile ? storage.sideSlope : Infinity]] as const;
  const tooSteep = steep.filter(([, run]) => run < steepestSlope.value);
  if (tooSteep.length > 0) {
    caution("steep-slope",
      `${tooSteep.map(([what, run]) => `${what} 1:${figure(run, "1", 3)}`).join(", ")}, steeper than the 1:${steepestSlope.value} that is `
      + `the most advised for packing: a tractor may slide or roll over, and the slope cannot be packed well. ${steepestSlope.note} `
      + "The tractor maker's limit for slopes goes before any of these.", from(steepestSlope));
  }

  if (storage.width < leastWidth.value * widest) {
    caution("narrow",
      `${metres(storage.width)} wide, under ${leastWidth.value} times the widest tractor there (${metres(widest)}): machines cannot pass or `
      + `keep off the edge, and the middle or the sides stay unpacked. Local codes may ask for more room.`, from(leastWidth));
  }

  if (heaped >= SHOWS) {
    const often = days.filter((day) => day.storages[s]!.over >= SHOWS * base).length;
    caution("overfilled",
      `The forage ends above the ${isPile ? "planned height" : "wall"}${days.length > 1 ? ` in ${counted(often)} of ${counted(days.length)} rehearsals` : ""}, `
      + `by up to ${metres(heaped)} spread level over the base: `
      + (isPile
        ? "slopes get steeper, the top narrower, and tractors nearer to the edge. Start wider or leave the rest for another place; "
          + "the makers' limits for slopes hold here too."
        : "there is a drop at the edge, and the wall bears more than it was filled for. A structural engineer decides whether it may stand "
          + "that high."),
      from(isPile ? hazardReview : pressurePerDepth));
  }

  if (storage.unloaderReach !== null && top > storage.unloaderReach) {
    caution("above-reach",
      `${metres(top)} high, and the unloader reaches ${metres(storage.unloaderReach)}: what hangs above its reach is undercut and falls. `
      + `Build lower, or find a machine that reaches the top within its maker's limits.`, from(unloaderRule));
  }

  if (!isPile) wall(storage, top, heaviest, caution);

  const { litres, wet, wettest } = juice(scenario, s);
  if (wet > 0) {
    caution("effluent",
      `${tonnes(wet)} come in at under ${percent(effluentEnds.range![1] / 1000)} dry matter, ${percent(wettest, 1)} at the wettest: juice may run`
      + (litres >= 1 ? `, about ${figure(litres / 1000, "m3", 2)} by the curve named here` : "")
      + ". It kills the life of a stream. Collect all of it, keep it from drains and water courses, and ask what distance local rules "
      + "want.", from(1000 * wettest <= effluentCurve.range[1] ? effluentCurve : effluentEnds));
  }
  return cautions;
}

/** The wall against the silage: never a design, only a reason to ask. */
function wall(storage: Storage, top: number, heaviest: number, caution: (id: string, text: string, source: string) => void): void {
  const [low, high] = pressureAtFoot(top);
  const measured = `Beside one bunker the pressure on the wall rose by ${pressurePerDepth.value.join(" to ")} kPa for each 1 m of depth, `
    + `and a packing machine of ${tonnes(pressureOfMachine.range![0])} added up to ${pressureOfMachine.value} kPa near the surface`;
  const { wallRating } = storage;
  if (wallRating !== null && high > wallRating) {
    caution("wall-rating",
      `${measured}: ${metres(top)} deep that is ${low.toFixed(0)} to ${high.toFixed(0)} kPa at the foot from the silage `
      + `alone${isOutside(top, pressurePerDepth.range) ? ", deeper than was measured" : ""}, and the wall is rated for `
      + `${figure(wallRating, "kPa", 3)}. A structural engineer decides before it is filled so high.`, from(pressurePerDepth));
  } else if (wallRating === null && heaviest >= heavyTractor.value) {
    caution("wall-rating",
      `What the wall is rated for is not given, and tractors of up to ${tonnes(heaviest)} pack beside it. ${measured}. A structural `
      + `engineer decides before heavier tractors or a higher fill.`, from(pressurePerDepth));
  }
}

/** Fresh kg that may run juice, L by the curve, and the lowest dry matter, of the fields whose first choice this storage is. */
function juice(scenario: Scenario, s: number): { litres: number; wet: number; wettest: number } {
  const fields = scenario.fields.filter((field) => field.storages[0] === s && field.dryMatter * 1000 < effluentEnds.range![1]);
  return {
    wet: fields.reduce((sum, field) => sum + field.area * field.yield, 0),
    litres: fields.reduce((sum, field) => sum + (field.area * field.yield * effluent(field.dryMatter)) / 1000, 0),
    wettest: Math.min(1, ...fields.map((field) => field.dryMatter)),
  };
}

function onTheRoad({ trucks, fields }: Scenario): Caution[] {
  if (fields.every((field) => field.distance === 0)) return [];
  const heaviest = trucks.reduce((most, kind) => (kind.load > most.load ? kind : most));
  return [{
    id: "road-weights", where: heaviest.kind, source: PRACTICE,
    text: `Loads of up to ${tonnes(heaviest.load)}, and the truck's own mass comes on top: road law sets the weight on each axle and in `
      + `all, bridges and culverts may bear less, and tyres and brakes have the maker's limits.`,
  }];
}

function longDays({ shift }: Scenario, days: readonly DayFacts[]): Caution[] {
  // Whoever is there when a day is taken up has been there since the shift began.
  const attended = (seconds: number, from: number) => (seconds > 0 ? seconds + from - shift.start : 0);
  const attendance = (days[0]?.machines ?? []).map((_, id) =>
    meanOver(days, (day) => attended(Object.values(day.machines[id]!.seconds).reduce((sum, seconds) => sum + seconds, 0), day.from)));
  const long = attendance.filter((seconds) => seconds > longShift.value);
  if (long.length === 0) return [];
  return [{
    id: "long-shift", where: EVERYWHERE, source: `${from(longShift)}; fatigue as a hazard: ${from(hazardReview)}`,
    text: `${long.length} of ${attendance.length} machines ${long.length === 1 ? "is" : "are"} at work for more than ${longShift.value / 3600} h, the longest for `
      + `${hours(Math.max(...long))}: tired drivers make the mistakes that hurt. Plan reliefs and rest; `
      + "law on working and driving hours goes before any plan.",
  }];
}

/** What a change that adds hours, starts earlier or takes rests away always carries, however long the day is already. */
export function cautionOfHours(): Caution {
  return {
    id: "long-shift", where: EVERYWHERE, source: `fatigue as a hazard: ${from(hazardReview)}`,
    text: "Longer hours, an earlier start or fewer rests tire drivers, and tired drivers make the mistakes that hurt. Plan reliefs and rest; "
      + "law on working and driving hours goes before any plan.",
  };
}

/** What a change that adds mass on the clamp always carries. */
export function cautionOfWeight({ name, form }: Storage): Caution {
  return {
    id: form === "bunker" ? "wall-rating" : "roll-over", where: name, source: from(form === "bunker" ? pressurePerDepth : hazardReview),
    text: form === "bunker"
      ? "More tractor mass beside a wall: a structural engineer decides what the wall bears, and the tractor maker what its axles and tyres bear, "
        + "on the road to the clamp as well."
      : "More tractor mass on a pile: the maker's limits decide what a tractor may weigh and on which slope it may stand; keep off edges and soft shoulders.",
  };
}

/** What a change that puts more machines in the yard always carries. */
export function cautionOfTraffic(): Caution {
  return {
    id: "people-on-foot", where: EVERYWHERE, source: from(hazardReview),
    text: "More machines in the same yard: agree anew on who gives way where, and keep everybody on foot out of it; local codes may ask for more.",
  };
}
