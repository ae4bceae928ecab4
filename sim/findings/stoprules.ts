/**
 * Rules that a crew can keep with what it sees: loads on the apron, minutes by the watch, a mark on a stick. Worked out by hand from the
 * scenario, for the morning or for the rest of a day; nothing is simulated here. When to stop cutting is rehearsed, see `rest.ts`.
 */
import { coversWanted, hurryNote, layersPerLoad, passesOver, rollingSpeed, wedgeSurface } from "../forage/geometry/index.ts";
import { cycleAtTarget, plannedDepth, plannedVolume, pushRate, rollingShares, roomOn, usualLoad } from "../harvest/pace.ts";
import { behindOf, type Behind } from "../scenario/behind.ts";
import type { Scenario } from "../scenario/types.ts";
import { counted, upTo } from "./figure.ts";
import { broughtTo, handBounds, offeredRate } from "./hand.ts";

/** What a crew at one storage goes by. */
export interface StopRules {
  readonly storage: string;
  /** whether the crew of this plan lets a lift be packed before it buries it: what it does at `apronLoads` */ readonly holds: Behind["holds"];
  /** with so many loads on the apron, at least 1, the chopper stops, or, where the crew holds until the apron is full, holding ends; see `inWords.apron` */ readonly apronLoads: number;
  /** the same, t */ readonly apronTonnes: number;
  /** true: the crew takes loads as fast as they come, so that the apron should never come so far */ readonly keepsUp: boolean;
  /** min from one spreading to the next that this crew needs for a usual load at target; null when it never gets there */ readonly packMinutesPerLoad: number | null;
  /** loads an hour at target; 0 when it never gets there */ readonly loadsPerHour: number;
  /** m: where the mark on the stick stands, the loose layer as set */ readonly stickMark: number;
  /** layers of that thickness that a usual load makes on the wedge at half the fill */ readonly layersPerLoad: number;
  /** times each spot of each layer is under a wheel while a load gets its time, at the slow and the quick end of rolling pace; null when it never gets there */
  readonly passes: readonly [number, number] | null;
  /** covers wanted of each layer */ readonly passesWanted: number;
  /** what happens to the slope if all of a full apron is laid at once; null when it stays as flat as is advised */ readonly hurry: string | null;
  /** how each figure is reckoned */ readonly inWords: { readonly apron: string; readonly load: string; readonly passes: string };
  readonly mark: "assumption of this project";
}

/** Who is there, by storage and place in its crew; everybody when left out. */
export type Presence = (storage: number, tractor: number) => boolean;

const KG = 1000;
const n1 = (value: number) => upTo(value, 1);
const loadsOf = (count: number) => `${n1(count)} ${n1(count) === "1" ? "load" : "loads"}`;

/** The rules of every storage that some field leads to first. */
export function stopRules(scenario: Scenario, present: Presence = () => true): StopRules[] {
  return scenario.storages.flatMap((_, s) => (scenario.fields.some((field) => field.storages[0] === s) ? [rulesAt(scenario, s, (i) => present(s, i))] : []));
}

function rulesAt(scenario: Scenario, s: number, present: (i: number) => boolean): StopRules {
  const storage = scenario.storages[s]!;
  const { layer } = scenario.packing;
  const load = usualLoad(scenario, s);
  const depth = plannedDepth(scenario, s);
  const whole = plannedVolume(scenario, s);
  const half = whole / 2;
  const room = roomOn(scenario, storage, half, whole);
  const cycle = cycleAtTarget(scenario, storage, load, depth, present, room);
  const packs = Number.isFinite(cycle);

  const { holds } = behindOf(scenario);
  const spreading = load.mass / pushRate(storage.tractors, layer, present);
  // Loads that still come once the chopper has been stopped: the one under the spout, and those on the road, less what the crew takes meanwhile: one that buries
  // takes a load as soon as the one before is pushed up, and is never stopped because packing is behind.
  const arrivals = broughtTo(scenario, s, offeredRate(handBounds(scenario))) / load.mass;
  const road = secondsOnTheWay(scenario, s);
  const taken = holds === "never" ? 1 / spreading : 1 / cycle;
  const toCome = Math.max(0, 1 + (arrivals - taken) * road);
  const full = storage.apron / load.mass;
  const apronLoads = Math.max(1, Math.floor((holds === "until-full" ? full : full - toCome) + 1e-9));

  const layers = layersPerLoad(storage, half, load.mass / scenario.crop.looseDensity, layer);
  const covers = (speed: number) => passesOver(
    storage.tractors.map((tractor, i) => ({
      speed, width: tractor.width,
      seconds: rollingShares(storage.tractors, room, false, present)[i]! * (cycle - spreading) + rollingShares(storage.tractors, room, true, present)[i]! * spreading,
    })),
    wedgeSurface(storage, half).area, layers);
  const [slow, quick] = rollingSpeed.value.map((kmh) => kmh / 3.6) as [number, number];
  const passes = packs ? ([covers(slow), covers(quick)] as const) : null;
  const denseVolume = (mass: number) => (mass * (load.dryMass / load.mass)) / scenario.targets.dryDensity;

  return {
    storage: storage.name, holds, apronLoads, apronTonnes: (apronLoads * load.mass) / KG, keepsUp: arrivals * cycle <= 1,
    packMinutesPerLoad: packs ? cycle / 60 : null, loadsPerHour: packs ? 3600 / cycle : 0,
    stickMark: layer, layersPerLoad: layers, passes, passesWanted: coversWanted.value,
    hurry: hurryNote(storage, half, denseVolume(storage.apron)),
    inWords: {
      apron: holds === "until-full" ? `The apron holds ${loadsOf(full)} of ${n1(load.mass / KG)} t: with ${counted(apronLoads)} on it the next finds no room, and the crew holds no longer.`
        : `The apron holds ${loadsOf(full)} of ${n1(load.mass / KG)} t. ${holds === "never" ? "A crew that buries takes a load as soon as the one before is pushed up. " : ""}When the chopper stops, the load under the spout and those on the road still come: `
        + `${n1(arrivals * 3600)} an hour come and ${n1(taken * 3600)} an hour are ${holds === "never" ? "pushed up" : "packed"}. Over the ${n1(road / 60)} min on the way, the one under the spout counted in, `
        + `${n1(toCome) === "0" ? "no more come than are taken: each finds a place." : n1(toCome) === "1" ? "1 load more comes than is taken." : `${n1(toCome)} loads more come than are taken.`} `
        + (full - toCome < 1 - 1e-9
          ? "That leaves room for no whole load: the chopper stops at the first."
          : `That leaves room for ${counted(apronLoads)} whole ${apronLoads === 1 ? "load: the chopper stops as soon as it lies" : "loads: the chopper stops as soon as they lie"} there.`),
      load: packs
        ? `Spreading ${n1(spreading / 60)} min and rolling until the relation gives the target, by those present, ${Math.min(room, storage.tractors.filter((_, i) => present(i)).length)} at a time on the wedge: ${n1(cycle / 60)} min for a load of ${n1(load.mass / KG)} t.`
        : "Nobody there spreads, or nobody rolls: this crew packs no load.",
      passes: passes === null ? "Nothing is rolled." : `Rolling pace ${rollingSpeed.value.join(" to ")} km/h times width times time rolled, over ${counted(layers)} ${layers === 1 ? "layer" : "layers"} of `
        + `${counted(wedgeSurface(storage, half).area)} m2 at half the fill: ${n1(passes[0])} to ${n1(passes[1])} covers, ${coversWanted.value} are wanted.`,
    },
    mark: "assumption of this project",
  };
}

/** s that a load for this storage is on its way, from the spout to the ground, without waiting: the mean over its fields and the trucks. */
function secondsOnTheWay(scenario: Scenario, s: number): number {
  const { trucks, lane, weighing } = scenario;
  const count = trucks.reduce((n, kind) => n + kind.count, 0);
  const mean = (of: (kind: (typeof trucks)[number]) => number) => trucks.reduce((sum, kind) => sum + kind.count * of(kind), 0) / count;
  let mass = 0;
  let distance = 0;
  for (const field of scenario.fields) {
    if (field.storages[0] !== s) continue;
    mass += field.area * field.yield;
    distance += field.area * field.yield * Math.max(0, field.distance - (lane?.length ?? 0));
  }
  return mean((kind) => distance / mass / kind.loadedSpeed + kind.tip) + (lane ? lane.length / lane.speed : 0) + (weighing?.time ?? 0);
}
