/** Does packing keep up? One answer, in one or two honest sentences. */
import { heaviestFirst, steadyCycle } from "../forage/packing.ts";
import { layerSeen, plannedDepth, pushRate, usualLoad } from "../harvest/pace.ts";
import { clockOf } from "./clock.ts";
import { behindOf } from "../scenario/behind.ts";
import type { Scenario } from "../scenario/types.ts";
import type { DayFacts } from "./facts.ts";
import { meanOver } from "./figure.ts";
import { FOR_TRUCKS, headline, STANDS, SURE_ENOUGH, type VerdictFigures } from "./headline.ts";
import { broughtTo, handBounds, offeredRate, paceKept, packingRateAtTarget } from "./hand.ts";
import { quantile } from "./summary.ts";
import type { Measure, Station, Verdict } from "./types.ts";

/** What limits the day, found from what each waited for: the crop for room, the chopper for others, the forage for packing. */
export function bottleneckOf(scenario: Scenario, days: readonly DayFacts[]): Station {
  const most = (count: (day: DayFacts) => boolean) => days.filter(count).length > days.length / 2;
  if (most((day) => day.uncutForRoom)) return "storage";
  const behind = most((day) => day.behindFrom !== null);
  const waits = { hauling: 0, weighing: 0, tipping: 0, spreading: 0, packing: 0 };
  let standing = 0;
  for (const day of days) {
    for (const cause of Object.keys(waits) as (keyof typeof waits)[]) waits[cause] += day.waits[cause];
    standing += day.measures.chopperWaiting;
  }
  if (standing / days.length >= STANDS) {
    // The blades push in any case; only if they wait for packing less than they push is the spreading itself what the chopper waits for.
    const worst = (Object.keys(waits) as (keyof typeof waits)[]).reduce((most, cause) => (waits[cause] > waits[most] ? cause : most));
    // More trucks for a crew that already buries what comes would only bury it faster.
    return worst === "hauling" && behind && behindOf(scenario).holds === "never" ? crewLimit(scenario) : worst;
  }
  return behind || isEased(scenario, days) ? crewLimit(scenario) : "cutting";
}

/** Share by which choppers must cut for longer than they would by themselves before the crew is what slows them: more than the luck of a yield does (assumption of this project). */
const SLOWED = 0.1;

/** Whether the choppers were slowed, by the rule, to what the crews pack: they cut for longer than the thinnest of the fields would have taken them. */
function isEased(scenario: Scenario, days: readonly DayFacts[]): boolean {
  if (!behindOf(scenario).eases) return false;
  let took = 0;
  let alone = 0;
  scenario.choppers.forEach((chopper, id) => {
    const slowest = Math.min(...scenario.fields.map((field) => Math.min(chopper.width * chopper.speed * field.yield, chopper.throughput)));
    for (const { machines } of days) {
      took += machines[id]?.seconds.cutting ?? 0;
      alone += (machines[id]?.mass ?? 0) / slowest;
    }
  });
  return took > alone * (1 + SLOWED);
}

/** Of a crew that is behind: whether its blades or its rolling is short. */
function crewLimit(scenario: Scenario): Station {
  const { spreading, packing } = handBounds(scenario);
  return spreading <= packing * 1.000001 ? "spreading" : "packing";
}

/**
 * kg of further packing tractor, driven like the crew's mean one, with which the crew would pack `rate` kg/s at target; 0 when it
 * does already, null when no tractor helps because the blades cannot spread so fast.
 */
export function shortOf(scenario: Scenario, storage: number, rate: number): number | null {
  const { tractors } = scenario.storages[storage]!;
  const { layer } = scenario.packing;
  const load = usualLoad(scenario, storage);
  const spreadSeconds = load.mass / pushRate(tractors, layer);
  const wanted = load.mass / rate;
  if (spreadSeconds > wanted) return null;
  const meanMass = meanOver(tractors, (tractor) => tractor.mass);
  const meanRolling = meanOver(tractors, (tractor) => tractor.rolling);
  const masses = [...tractors.map((tractor) => tractor.mass), meanMass];
  const cycle = (more: number) => steadyCycle({
    liftMass: load.mass, dryMatter: load.dryMass / load.mass, layer: layerSeen(scenario, layer), depth: plannedDepth(scenario, storage),
    target: scenario.targets.dryDensity, masses, order: heaviestFirst(masses),
    rolling: [...tractors.map((tractor) => tractor.rolling), more * meanRolling],
    pushing: [...tractors.map((tractor) => tractor.spreads !== null), false], spreadSeconds,
  });
  if (cycle(0) <= wanted) return 0;
  let low = 0;
  let high = 1;
  while (cycle(high) > wanted && high < 1000) high *= 2;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (cycle(middle) > wanted) low = middle;
    else high = middle;
  }
  return high * meanMass;
}

/** What the crews are short of where field and road offer `rate` kg/s: kg of further packing tractor for all together, null when blades are short at one of them, and whether the wedges have room for it. */
function shortOverall(scenario: Scenario, rate: number): { readonly short: number | null; readonly room: boolean } {
  let short = 0;
  let room = true;
  for (const s of scenario.storages.keys()) {
    const brought = broughtTo(scenario, s, rate);
    const here = brought > 0 ? shortOf(scenario, s, brought) : 0;
    if (here === null) return { short: null, room };
    short += here;
    if (brought > 0) room &&= hasRoomFor(scenario, s, here, brought);
  }
  return { short, room };
}

/** Whether a crew packs `rate` kg/s at target with so many kg more, as whole tractors like its mean one: those for whom the wedge has no room take turns. */
function hasRoomFor(scenario: Scenario, storage: number, short: number, rate: number): boolean {
  const place = scenario.storages[storage]!;
  const { tractors } = place;
  const mass = meanOver(tractors, (tractor) => tractor.mass);
  const like = { ...tractors[0]!, mass, rolling: meanOver(tractors, (tractor) => tractor.rolling), spreads: null };
  const more = Array.from({ length: Math.ceil(short / mass - 1e-9) }, () => like);
  const helped = { ...scenario, storages: scenario.storages.map((each) => (each === place ? { ...place, tractors: [...tractors, ...more] } : each)) };
  return packingRateAtTarget(helped, storage) >= rate * (1 - 1e-6);
}

/** The figures of a verdict from the days. */
export function verdictFigures(scenario: Scenario, days: readonly DayFacts[], dryDensity: Measure | null): VerdictFigures {
  const behind = days.map((day) => day.behindFrom).filter((at) => at !== null);
  const given = (figure: (day: DayFacts) => number): number | null => {
    const mean = meanOver(days, figure);
    return Number.isFinite(mean) ? mean : null;
  };
  const offered = offeredRate(handBounds(scenario));
  const { pace: kept, weakest } = paceKept(scenario);
  const crews = new Set(scenario.fields.map((field) => field.storages[0])).size;
  const waits = days.reduce((sum, day) => ({
    storage: sum.storage + day.waits.weighing + day.waits.tipping + day.waits.spreading + day.waits.packing, hauling: sum.hauling + day.waits.hauling,
  }), { storage: 0, hauling: 0 });
  return {
    chance: days.filter((day) => day.keepsPace).length / days.length,
    behindFrom: behind.length > 0 ? quantile(behind, 0.5) : null,
    behindOn: behind.length / days.length,
    paceKept: kept, offered,
    ...(offered > kept ? shortOverall(scenario, offered) : { short: 0, room: true }),
    weakest: crews > 1 ? scenario.storages[weakest]!.name : null,
    density: dryDensity?.mean ?? null, target: scenario.targets.dryDensity,
    under: given((day) => day.measures.shareUnderTarget),
    bottleneck: bottleneckOf(scenario, days),
    standing: given((day) => day.measures.chopperWaiting),
    standingForStorage: given((day) => day.measures.chopperWaitingOnStorage),
    standingCause: waits.storage >= waits.hauling ? "for the clamp" : FOR_TRUCKS,
    whoPays: scenario.choppers.some((chopper) => chopper.paid === "by-hour") ? "farm" : "contractor",
    uncut: meanOver(days, (day) => day.uncut),
    choppers: scenario.choppers.length,
    loads: meanOver(days, (day) => day.measures.loads),
    days: days.length,
  };
}

/** The verdict of a study. */
export function verdictOf(figures: VerdictFigures): Verdict {
  return {
    keepsPace: figures.chance >= SURE_ENOUGH, chance: figures.chance, headline: headline(figures),
    behindFrom: figures.behindFrom === null ? null : clockOf(figures.behindFrom),
    paceKept: figures.paceKept * 3.6, bottleneck: figures.bottleneck, figures,
  };
}
