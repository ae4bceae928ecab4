/** A truck's working day: stand in line at the chopper, be filled, drive, be weighed, tip, drive back. */
import { Signal, type Interrupt, type Process, type Simulation, type Wait, type Work } from "../kernel/index.ts";
import type { TruckKind } from "../scenario/types.ts";
import type { Chopper } from "./chopper.ts";
import type { Trip } from "./daylog.ts";
import { passLane } from "./lane.ts";
import { arrive, endure, stoppageOf, work, type Machine } from "./machine.ts";
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
  /** its turn at the chopper, to wait for */ readonly turn = new Turn(this);
  private readonly standing = new Standing(this);

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

  /** Empty, it joins the line at its chopper. */
  standInLine(): void {
    const { machine, chopper } = this;
    this.trip = null;
    this.dismissed = false;
    this.inLineSince = machine.clock.sim.now;
    machine.enter("in-line", chopper.fieldIndex);
    chopper.join(this);
  }

  /** To wait for at the storage: the scale, a tipping place, room on the apron. */
  queueFor(queue: Queue): Wait {
    return this.standing.in(queue);
  }

  /** It stands in no line at the storage any more. */
  isServed(): void {
    this.queue = null;
    this.yard.waits.recharge();
  }

  /** Pooled trucks go to any chopper; a tied one to its own, or to any when it may cross over. */
  mayServe(chopper: Chopper): boolean {
    return this.kind.chopper === null || this.kind.lends || this.kind.chopper === chopper.index;
  }
}

/** The day of one truck. */
export function* truckDay(truck: Truck, yard: Yard): Work {
  const { machine, kind } = truck;
  const { sim } = machine.clock;
  if (!(yield* setOut(truck, yard))) return machine.goHome();
  for (;;) {
    let ahead = 1;
    if (truck.underWay === null) {
      truck.standInLine();
      yield truck.turn;
    } else {
      ahead = truck.underWay;
      truck.underWay = null;
    }
    const { trip } = truck;
    if (!trip) {
      const next = yard.dispatch(truck);
      if (!next) break;
      yield work(machine, next.move, "empty-road");
      continue;
    }

    const clamp = yard.clamps[trip.storage]!;
    const slow = truck.chopper.loadedRoad();
    truck.slowBack = truck.chopper.emptyRoad();
    yield work(machine, (yard.roadTo(trip.field) / kind.loadedSpeed) * slow * ahead, "loaded-road", trip.storage, truck.tripIndex);
    trip.atLane = trip.inLane = sim.now;
    if (yard.lane) trip.inLane = yield* passLane(yard.lane, truck, "loaded", slow);

    trip.atScale = trip.weighFrom = trip.weighed = sim.now;
    if (yard.scale) {
      yield truck.queueFor("scale");
      truck.isServed();
      trip.weighFrom = sim.now;
      yield work(machine, yard.scenario.weighing!.time * yard.weighingTime(), "weighing", clamp.index);
      trip.weighed = sim.now;
      yard.scale.release();
    }

    // A tipping place first, then room on the apron, then the tip.
    trip.atStorage = sim.now;
    yield truck.queueFor("place");
    truck.isServed();
    trip.placed = sim.now;
    clamp.noticeCrowding(trip.mass);
    yield truck.queueFor("room");
    truck.isServed();
    trip.tipFrom = sim.now;
    yield work(machine, kind.tip * clamp.tipTime(), "tipping", clamp.index, truck.tripIndex);
    trip.tipped = sim.now;
    clamp.places.release();
    clamp.ready.put({ mass: trip.mass, dryMass: trip.dryMass, trip: truck.tripIndex });
    machine.mass += trip.mass;
    machine.loads++;
    clamp.coming--;
    yard.tellWhoIsDone();

    const next = yard.dispatch(truck);
    if (!next) break;
    if (yard.lane) yield* passLane(yard.lane, truck, "empty", truck.slowBack);
    // A chopper that is away still has no field; it will come to where this load was cut.
    const back = next.fieldIndex >= 0 ? next.fieldIndex : trip.field;
    yield work(machine, (yard.roadTo(back) / kind.emptySpeed) * truck.slowBack, "empty-road", back);
    trip.back = sim.now;
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

/** In the chopper's line and under its spout, until it is filled or not wanted any more. */
class Turn implements Wait {
  constructor(private readonly truck: Truck) {}

  begin(process: Process, simulation: Simulation): boolean {
    return this.truck.dismissed || this.truck.called.wait().begin(process, simulation);
  }

  cancel(process: Process): void {
    this.truck.called.wait().cancel(process);
  }

  /** In line it steps aside and joins again at the tail; alongside, the chopper has to stand with it. */
  *standThrough(stop: Interrupt): Work {
    const { truck } = this;
    const { machine, chopper } = truck;
    const { state } = machine;
    const stoodAside = chopper.line.remove(truck);
    if (!stoodAside && !truck.dismissed) chopper.standWith(stoppageOf(stop, "breakdown"));
    yield* endure(machine, stop);
    machine.enter(state ?? "in-line", chopper.fieldIndex);
    if (stoodAside) chopper.join(truck);
  }
}

const QUEUE_STATES = { scale: "scale-line", place: "place-line", room: "room-wait" } as const;

/** A place in a line at the storage; a truck that breaks down there steps out and joins again at the tail. */
class Standing implements Wait {
  private queue: Queue = "scale";

  constructor(private readonly truck: Truck) {}

  in(queue: Queue): this {
    this.queue = queue;
    return this;
  }

  begin(process: Process, simulation: Simulation): boolean {
    const { truck, queue } = this;
    truck.machine.enter(QUEUE_STATES[queue], truck.trip!.storage);
    truck.queue = queue;
    truck.yard.waits.recharge();
    return this.ask().begin(process, simulation);
  }

  cancel(process: Process): void {
    this.ask().cancel(process);
  }

  *standThrough(stop: Interrupt): Work {
    const { truck } = this;
    truck.isServed();
    yield* endure(truck.machine, stop, truck.trip!.storage);
  }

  private ask(): Wait {
    const { yard, trip } = this.truck;
    const { places, apron } = yard.clamps[trip!.storage]!;
    switch (this.queue) {
      case "scale": return yard.scale!.seize();
      case "place": return places.seize();
      case "room": return apron.put(trip!.mass);
    }
  }
}
