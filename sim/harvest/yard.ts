/** Everything that works today, and the few decisions that nobody takes alone: which field, which chopper, which storage, how fast. */
import { Resource } from "../kernel/index.ts";
import { behindOf } from "../scenario/behind.ts";
import { truckName } from "../scenario/trucknames.ts";
import type { Scenario, TruckKind } from "../scenario/types.ts";
import { Chopper } from "./chopper.ts";
import { Clamp } from "./clamp.ts";
import type { Day, DayEvent, Lift, MachineKind, StateLog, Trip } from "./daylog.ts";
import { StandingCrop } from "./field.ts";
import { Lane } from "./lane.ts";
import type { Load } from "./load.ts";
import type { Luck } from "./luck.ts";
import { Machine, type Clock } from "./machine.ts";
import { usualLoad } from "./pace.ts";
import { awayUntil, MORNING, wayAhead, type DayStart } from "./start.ts";
import { Truck } from "./truck.ts";
import { Waits } from "./waits.ts";

/** Share of a usual load below which the room left in a storage is not worth a truck (assumption of this project). */
const WORTH_A_TRUCK = 0.01;

export class Yard {
  readonly machines: Machine[] = [];
  readonly choppers: Chopper[];
  readonly trucks: Truck[] = [];
  readonly crops: StandingCrop[];
  readonly clamps: Clamp[];
  readonly scale: Resource | null;
  readonly weighingTime: () => number;
  readonly lane: Lane | null;
  readonly waits: Waits;
  readonly trips: Trip[] = [];
  readonly lifts: Lift[] = [];
  readonly events: DayEvent[] = [];
  private readonly usual: Load[];

  constructor(readonly clock: Clock, readonly scenario: Scenario, readonly luck: Luck, private readonly start: DayStart = MORNING) {
    const { sim } = clock;
    this.waits = new Waits(this);
    this.choppers = scenario.choppers.map((plan, i) => new Chopper(this, this.enlist(plan.name, "chopper", i, null), plan, i));
    scenario.trucks.forEach((kind, k) => {
      for (let i = 0; i < kind.count; i++) {
        const name = truckName(kind.kind, i);
        const goesAt = start.sentHome.find((each) => each.name === name)?.at;
        this.trucks.push(new Truck(this, this.enlist(name, "truck", k, null), kind, this.firstFor(kind), goesAt));
      }
    });
    this.crops = scenario.fields.map((field, i) => new StandingCrop(field, i, field.yield * luck.at("yield", `field ${i}`)(), start.fields[i]));
    this.usual = scenario.storages.map((_, s) => usualLoad(scenario, s));
    this.clamps = scenario.storages.map((_, s) => new Clamp(
      clock, scenario, s, luck,
      (name, kind, index) => this.enlist(name, kind, index, s), this.lifts, start.storages[s]));
    this.scale = scenario.weighing ? new Resource(sim, "scale", scenario.weighing.lanes) : null;
    this.weighingTime = luck.at("weighing", "scale");
    this.lane = scenario.lane ? new Lane(this, scenario.lane) : null;
    this.putOnTheRoad();
    for (const truck of this.trucks) if (truck.isAtChopper) truck.chopper.committed++;
  }

  tell(event: DayEvent): void {
    this.events.push(event);
  }

  /** The next field that nobody cuts yet, those begun before the day started first, in the order of the file, that this chopper may cut and some storage has room for. */
  takeField(chopper: Chopper): StandingCrop | null {
    const free = (c: StandingCrop) => c.left > 0 && c.cutter === null && mayCut(chopper, c) && this.storageFor(c) !== null;
    const crop = this.crops.find((c) => c.begun && free(c)) ?? this.crops.find(free);
    if (!crop) return null;
    crop.startWith(chopper);
    return crop;
  }

  /** The first storage named for this field that still has room worth a truck; null when all are spoken for. */
  storageFor(crop: StandingCrop): Clamp | null {
    const { storages } = crop.field;
    for (let i = 0; i < storages.length; i++) {
      const clamp = this.clamps[storages[i]!]!;
      if (this.hasRoom(clamp)) return clamp;
      if (!clamp.full) {
        clamp.full = true;
        this.tell({ kind: "storage-full", at: this.clock.sim.now, storage: clamp.index, turnedTo: this.firstWithRoom(storages.slice(i + 1)) });
      }
    }
    return null;
  }

  /**
   * Where an empty truck goes: of the choppers it may serve that still work, the one with the fewest trucks on their way to it, in its
   * line or alongside, then the lowest index. Null: its day is over.
   */
  dispatch(truck: Truck): Chopper | null {
    if (truck.goesAt <= this.clock.sim.now) return null;
    let best: Chopper | null = null;
    for (const chopper of this.choppers) {
      if (chopper.done || !truck.mayServe(chopper)) continue;
      // One that is not there yet gets a truck only when there is no other.
      const away = Number(chopper.machine.isAway) - Number(best?.machine.isAway ?? false);
      if (best === null || away < 0 || (away === 0 && chopper.committed < best.committed)) best = chopper;
    }
    if (!best) return null;
    truck.chopper = best;
    best.committed++;
    return best;
  }

  /** m of road between a field and the storage, without the single-lane stretch at its end. */
  roadTo(field: number): number {
    return Math.max(0, this.scenario.fields[field]!.distance - (this.lane?.shape.length ?? 0));
  }

  newTrip(truck: Truck, chopper: Chopper, crop: StandingCrop, clamp: Clamp): Trip {
    const now = this.clock.sim.now;
    return {
      truck: truck.machine.id, chopper: chopper.index, field: crop.index, storage: clamp.index, mass: 0, dryMass: 0,
      arrived: truck.inLineSince, alongside: now, fillFrom: now, filled: NaN, atLane: NaN, inLane: NaN, atScale: NaN, weighFrom: NaN,
      weighed: NaN, atStorage: NaN, placed: NaN, tipFrom: NaN, tipped: NaN, back: NaN,
    };
  }

  /** The load leaves the field: from now on it is one of the day's trips. */
  keep(truck: Truck, trip: Trip): void {
    truck.tripIndex = this.trips.push(trip) - 1;
  }

  /**
   * kg/s at which forage flows from this chopper: width x speed x yield, up to its throughput. Where the rule eases, it is slowed so that
   * all choppers cutting for the storage together deliver, turns and changeovers included, what the crew present packs at target.
   */
  paceFor(chopper: Chopper, crop: StandingCrop, clamp: Clamp): number {
    const natural = naturalPace(chopper, crop);
    if (!behindOf(this.scenario).eases) return natural;
    const { mass } = this.usual[clamp.index]!;
    let delivery = 0;
    for (const other of this.choppers) {
      if (other.done || !other.field || (other !== chopper && this.firstWithRoom(other.field.field.storages) !== clamp.index)) continue;
      delivery += mass / (mass / naturalPace(other, other.field) + lostPerLoad(other, other.field, mass));
    }
    const eased = clamp.crew.packingRate() / delivery;
    if (!(eased > 0 && eased < 1)) return natural;
    const lost = lostPerLoad(chopper, crop, mass);
    return mass / ((mass / natural + lost) / eased - lost);
  }

  /** Tells every crew for which nothing more can come that the load before was the last. */
  tellWhoIsDone(): void {
    for (const clamp of this.clamps) {
      if (clamp.told || this.mayStillCome(clamp)) continue;
      clamp.told = true;
      clamp.ready.put(null);
    }
  }

  /** The day as it went; to be read when the simulation has come to its end. */
  record(): Day {
    const machines = this.machines.map((machine) => machine.record());
    return {
      trips: this.trips, lifts: this.lifts, machines,
      crew: this.clamps.flatMap((clamp) => clamp.crew.changes),
      chopperWaits: this.choppers.map((chopper, i) => {
        // What it stood for other reasons, such as a truck that broke down under the spout, is the hauling's.
        const charged = chopper.waits.weighing + chopper.waits.tipping + chopper.waits.spreading + chopper.waits.packing;
        return { ...chopper.waits, hauling: Math.max(0, (machines[i]!.seconds.waiting ?? 0) - charged) };
      }),
      events: this.events,
      uncut: this.crops.map((crop) => crop.left),
      from: this.start.at ?? this.scenario.shift.start,
      until: Math.max(...machines.map((machine) => machine.until)),
      plannedDepth: this.clamps.map((clamp) => clamp.depth),
      states: this.clock.states && inOrder(this.clock.states),
      steps: this.clock.sim.events,
      ...(this.start === MORNING ? {} : { start: this.start }),
    };
  }

  private firstWithRoom(storages: readonly number[]): number | null {
    return storages.find((s) => this.hasRoom(this.clamps[s]!)) ?? null;
  }

  private hasRoom(clamp: Clamp): boolean {
    return clamp.room > WORTH_A_TRUCK * this.usual[clamp.index]!.dryMass;
  }

  private mayStillCome(clamp: Clamp): boolean {
    if (clamp.coming > 0) return true;
    if (!this.hasRoom(clamp)) return false;
    return this.crops.some((crop) => crop.left > 0 && !crop.abandoned && crop.field.storages.includes(clamp.index)
      && (crop.cutter ? !crop.cutter.done : this.choppers.some((chopper) => !chopper.done && mayCut(chopper, crop))));
  }

  /** The chopper a truck starts at: its own, or in turns those that are there. */
  private firstFor({ chopper, lends }: TruckKind): Chopper {
    const own = chopper === null ? null : this.choppers[chopper]!;
    if (own && !(lends && own.machine.isAway)) return own;
    const there = this.choppers.filter(({ machine }) => !machine.isAway);
    const choice = there.length > 0 ? there : this.choppers;
    return choice[this.trucks.length % choice.length]!;
  }

  /** Loads that were filled before the day started, in the first trucks that are there, spread evenly along the road. */
  private putOnTheRoad(): void {
    const { onTheRoad } = this.start;
    const there = this.trucks.filter(({ machine }) => !machine.isAway);
    if (there.length < onTheRoad.length) throw new RangeError(`${onTheRoad.length} loads are on the road, but there are only ${there.length} trucks.`);
    onTheRoad.forEach((load, i) => {
      const truck = there[i]!;
      const clamp = this.clamps[load.storage]!;
      truck.trip = { ...this.newTrip(truck, truck.chopper, this.crops[load.field]!, clamp), mass: load.mass, dryMass: load.dryMass, filled: this.clock.sim.now };
      truck.underWay = wayAhead(i, onTheRoad.length);
      this.keep(truck, truck.trip);
      clamp.coming++;
      clamp.speakFor(load.dryMass);
    });
  }

  private enlist(name: string, kind: MachineKind, index: number, storage: number | null): Machine {
    const machine = new Machine(this.clock, this.machines.length, name, kind, index, storage, awayUntil(this.start, kind, name));
    this.machines.push(machine);
    return machine;
  }
}

/** By time: a machine tells what it did in one go when that is over. Those of one instant stay as they were told. */
function inOrder({ time, machine, state, place, load }: StateLog): StateLog {
  const rows = time.map((_, row) => row).sort((a, b) => time[a]! - time[b]! || a - b);
  const sorted = <T>(column: readonly T[]): T[] => rows.map((row) => column[row]!);
  return { time: sorted(time), machine: sorted(machine), state: sorted(state), place: sorted(place), load: sorted(load) };
}

const mayCut = (chopper: Chopper, crop: StandingCrop): boolean => crop.field.chopper === null || crop.field.chopper === chopper.index;

function naturalPace({ plan }: Chopper, crop: StandingCrop): number {
  return Math.min(plan.width * plan.speed * crop.yieldNow, plan.throughput);
}

/** s that a load costs the chopper besides cutting: its changeover and its share of the turns. */
function lostPerLoad({ plan }: Chopper, crop: StandingCrop, mass: number): number {
  return plan.changeover + plan.turnTime * (mass / crop.rowMass);
}
