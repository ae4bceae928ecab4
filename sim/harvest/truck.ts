/** A truck's working day: stand in line at the chopper, be filled, drive, be weighed, tip, drive back. */
import { Signal, type Wait, type Work } from "../kernel/index.ts";
import type { TruckKind } from "../scenario/types.ts";
import type { Chopper } from "./chopper.ts";
import type { Clamp } from "./clamp.ts";
import type { Trip } from "./daylog.ts";
import { passLane } from "./lane.ts";
import { arrive, endure, stoppageOf, work, type Machine } from "./machine.ts";
import { Stretch } from "./stretch.ts";
import type { Yard } from "./yard.ts";

/** Where a truck stands queued on the storage's account, for charging the chopper's waiting to its cause. */
export type Queue = "scale" | "place" | "room";

export class Truck {
  /** wakes it: filled, sent away, or let into the lane */ readonly called: Signal;
  letIn = false;
  /** the chopper it goes to, stands at or was last filled by */ chopper: Chopper;
  /** its load and round in hand; null while it is empty */ trip: Trip | null = null;
  /** index of `trip` into `Day.trips` */ tripIndex = -1;
  /** it may leave the chopper: full, or not wanted any more */ dismissed = false;
  /** it starts the day with `trip` on the road: share of the way that lies ahead */ underWay: number | null = null;
  /** factor on its next empty drive, drawn with the load */ slowBack = 1;
  queue: Queue | null = null;
  /** joined the line it stands in */ inLineSince: number;
  /** its place in a line at the storage */ readonly standing = new Standing(this);

  constructor(
    readonly yard: Yard,
    readonly machine: Machine,
    readonly kind: TruckKind,
    first: Chopper,
    /** s after midnight: it goes home after the load it has then */ readonly goesAt = Infinity,
  ) {
    this.called = new Signal(yard.clock.sim);
    this.chopper = first;
    this.inLineSince = yard.clock.sim.now;
  }

  /** It stands empty at its chopper when the day starts. */
  get isAtChopper(): boolean {
    return !this.machine.isAway && this.underWay === null && this.goesAt > this.machine.clock.sim.now;
  }

  /** Pooled trucks go to any chopper; a tied one to its own, or to any when it may cross over. */
  mayServe(chopper: Chopper): boolean {
    return this.kind.chopper === null || this.kind.lends || this.kind.chopper === chopper.index;
  }
}

/** The day of one truck. */
export function* truckDay(truck: Truck, yard: Yard): Work {
  const { machine, kind } = truck;
  if (!(yield* setOut(truck, yard))) return machine.goHome();
  for (;;) {
    const { underWay } = truck;
    const trip: Trip | null = underWay === null ? yield* beFilled(truck) : truck.trip;
    truck.underWay = null;
    if (!trip) {
      const next = yard.dispatch(truck);
      if (!next) break;
      yield* work(machine, next.move, "empty-road");
      continue;
    }
    const clamp = yard.clamps[trip.storage]!;
    const slow = truck.chopper.loadedRoad();
    truck.slowBack = truck.chopper.emptyRoad();

    yield* work(machine, (yard.roadTo(trip.field) / kind.loadedSpeed) * slow * (underWay ?? 1), "loaded-road", trip.storage, truck.tripIndex);
    trip.atLane = trip.inLane = machine.clock.sim.now;
    if (yard.lane) trip.inLane = yield* passLane(yard.lane, truck, "loaded", slow);
    yield* beWeighed(truck, trip, clamp);
    yield* tip(truck, trip, clamp);

    const next = yard.dispatch(truck);
    if (!next) break;
    if (yard.lane) yield* passLane(yard.lane, truck, "empty", truck.slowBack);
    // A chopper that is away still has no field; it will come to where this load was cut.
    const back = next.fieldIndex >= 0 ? next.fieldIndex : trip.field;
    yield* work(machine, (yard.roadTo(back) / kind.emptySpeed) * truck.slowBack, "empty-road", back);
    trip.back = machine.clock.sim.now;
  }
  machine.goHome();
}

/** Whether the truck works at all today: not one that stays away or has been sent home. One that comes later is sent to a chopper when it is there. */
function* setOut(truck: Truck, yard: Yard): Work<boolean> {
  const { machine } = truck;
  if (truck.underWay !== null || truck.isAtChopper) return true;
  if (!(yield* arrive(machine)) || truck.goesAt <= machine.clock.sim.now) return false;
  return yard.dispatch(truck) !== null;
}

/** Stands in the chopper's line and under its spout. Returns the load, or null when this chopper wants no more trucks. */
function* beFilled(truck: Truck): Work<Trip | null> {
  const { machine, chopper } = truck;
  truck.trip = null;
  truck.dismissed = false;
  truck.inLineSince = machine.clock.sim.now;
  machine.enter("in-line", chopper.fieldIndex);
  chopper.join(truck);
  while (!truck.dismissed) {
    try {
      yield truck.called.wait();
    } catch (stop) {
      // In line it steps aside and joins again at the tail; alongside, the chopper has to stand with it.
      const { state } = machine;
      const stoodAside = chopper.line.remove(truck);
      if (!stoodAside && !truck.dismissed) chopper.standWith(stoppageOf(stop, "breakdown"));
      yield* endure(machine, stop);
      machine.enter(state ?? "in-line", chopper.fieldIndex);
      if (stoodAside) chopper.join(truck);
    }
  }
  return truck.trip;
}

function* beWeighed(truck: Truck, trip: Trip, clamp: Clamp): Work {
  const { yard, machine } = truck;
  const { sim } = yard.clock;
  trip.atScale = trip.weighFrom = trip.weighed = sim.now;
  if (!yard.scale) return;
  yield* truck.standing.of("scale-line", "scale", clamp.index, () => yard.scale!.seize());
  trip.weighFrom = sim.now;
  yield* work(machine, yard.scenario.weighing!.time * yard.weighingTime(), "weighing", clamp.index);
  trip.weighed = sim.now;
  yard.scale.release();
}

/** A tipping place first, then room on the apron, then the tip. */
function* tip(truck: Truck, trip: Trip, clamp: Clamp): Work {
  const { yard, machine } = truck;
  const { sim } = yard.clock;
  trip.atStorage = sim.now;
  yield* truck.standing.of("place-line", "place", clamp.index, () => clamp.places.seize());
  trip.placed = sim.now;
  clamp.noticeCrowding(trip.mass);
  yield* truck.standing.of("room-wait", "room", clamp.index, () => clamp.apron.put(trip.mass));
  trip.tipFrom = sim.now;
  yield* work(machine, truck.kind.tip * clamp.tipTime(), "tipping", clamp.index, truck.tripIndex);
  trip.tipped = sim.now;
  clamp.places.release();
  clamp.ready.put({ mass: trip.mass, dryMass: trip.dryMass, trip: truck.tripIndex });
  machine.mass += trip.mass;
  machine.loads++;
  clamp.coming--;
  yard.tellWhoIsDone();
}

/** Waits its turn; a truck that breaks down in line steps out of it and joins again at the tail. */
class Standing extends Stretch {
  private state: "scale-line" | "place-line" | "room-wait" = "scale-line";
  private queue: Queue = "scale";
  private place = -1;
  private ask!: () => Wait;

  constructor(private readonly truck: Truck) {
    super();
  }

  of(state: "scale-line" | "place-line" | "room-wait", queue: Queue, place: number, ask: () => Wait): this {
    this.state = state;
    this.queue = queue;
    this.place = place;
    this.ask = ask;
    return this;
  }

  protected begin(): Wait {
    const { truck } = this;
    truck.machine.enter(this.state, this.place);
    truck.queue = this.queue;
    truck.yard.waits.recharge();
    return this.ask();
  }

  protected end(): void {
    this.truck.queue = null;
    this.truck.yard.waits.recharge();
  }

  protected *standThrough(stop: unknown): Work {
    this.end();
    yield* endure(this.truck.machine, stop, this.place);
  }
}
