/** The chopper's working day: wait for a truck, cut until it is full, turn at the row ends, move to the next field. */
import { Store, type Work } from "../kernel/index.ts";
import type { Chopper as ChopperPlan } from "../scenario/types.ts";
import type { Clamp } from "./clamp.ts";
import { WAIT_CAUSES, type Trip, type WaitCause } from "./daylog.ts";
import { NOTHING, type StandingCrop } from "./field.ts";
import { arrive, endure, stoppageOf, work, type Machine, type Stoppage } from "./machine.ts";
import type { Truck } from "./truck.ts";
import type { Yard } from "./yard.ts";

export class Chopper {
  /** empty trucks waiting for it, first come, first served */ readonly line: Store<Truck>;
  /** trucks on their way to it, in its line or alongside */ committed = 0;
  field: StandingCrop | null = null;
  /** it takes no more trucks today */ done = false;
  readonly waits = Object.fromEntries(WAIT_CAUSES.map((cause) => [cause, 0])) as Record<WaitCause, number>;
  readonly move: number;
  /** draws that belong to this chopper's loads, so that they stay when trucks come and go */
  readonly cutting: () => number;
  readonly loadMass: () => number;
  readonly loadedRoad: () => number;
  readonly emptyRoad: () => number;
  first = true;

  constructor(readonly yard: Yard, readonly machine: Machine, readonly plan: ChopperPlan, readonly index: number) {
    this.line = new Store(yard.clock.sim, `${plan.name}: trucks in line`);
    this.move = plan.move;
    const place = `chopper ${index}`;
    this.cutting = yard.luck.at("cutting", place);
    this.loadMass = yard.luck.at("load", place);
    this.loadedRoad = yard.luck.at("loaded", place);
    this.emptyRoad = yard.luck.at("empty", place);
  }

  get fieldIndex(): number {
    return this.field?.index ?? -1;
  }

  /** A truck comes to stand in line; one that comes too late is sent away at once. */
  join(truck: Truck): void {
    if (this.done) dismiss(truck, null);
    else this.line.put(truck);
  }

  /** The truck under the spout has broken down: whatever the chopper does waits with it. */
  standWith(breakdown: Stoppage): void {
    this.yard.clock.sim.interrupt(this.machine.process!, breakdown);
  }
}

/** Lets a truck go, with its load or without one. */
function dismiss(truck: Truck, trip: Trip | null): void {
  truck.trip = trip;
  truck.dismissed = true;
  truck.chopper.committed--;
  truck.called.fire();
}

/** The day of one chopper: field after field until the crop or the shift ends. */
export function* chopperDay(chopper: Chopper, yard: Yard): Work {
  const { machine } = chopper;
  try {
    const works: boolean = yield* arrive(machine);
    for (let crop = works ? yard.takeField(chopper) : null; crop; crop = yard.takeField(chopper)) {
      const comesFromAnother = chopper.field !== null;
      chopper.field = crop;
      if (comesFromAnother) yield* work(machine, chopper.move, "moving", crop.index);
      yield* cutField(chopper, crop, yard);
      if (crop.left > 0) crop.abandoned = true;
      else yard.tell({ kind: "field-done", at: yard.clock.sim.now, field: crop.index, chopper: chopper.index });
    }
  } catch (stop) {
    stoppageOf(stop, "shift-end");
    yard.tell({ kind: "shift-end", at: yard.clock.sim.now, chopper: chopper.index });
  }
  chopper.done = true;
  machine.goHome();
  for (const truck of [...chopper.line.items]) {
    chopper.line.remove(truck);
    dismiss(truck, null);
  }
  yard.tellWhoIsDone();
}

/** Load after load until the field is bare or no storage has room for it. */
function* cutField(chopper: Chopper, crop: StandingCrop, yard: Yard): Work {
  while (crop.left > 0) {
    if (!yard.storageFor(crop)) return;
    const truck: Truck = yield* nextTruck(chopper, yard);
    // Another chopper may have filled the storage meanwhile.
    const clamp = yard.storageFor(crop);
    if (clamp) yield* fill(chopper, truck, crop, clamp, yard);
    else dismiss(truck, null);
  }
}

/** Stands until a truck is alongside that runs. */
function* nextTruck(chopper: Chopper, yard: Yard): Work<Truck> {
  const { machine, line } = chopper;
  machine.enter("waiting", chopper.fieldIndex);
  yard.waits.begin(chopper);
  try {
    for (;;) {
      try {
        return yield line.take();
      } catch (stop) {
        yard.waits.end(chopper);
        yield* endure(machine, stop, chopper.fieldIndex);
        machine.enter("waiting", chopper.fieldIndex);
        yard.waits.begin(chopper);
      }
    }
  } finally {
    yard.waits.end(chopper);
  }
}

/** Fills one truck, or as much of it as the field, the room in the storage or the shift allows, and sends it off. */
function* fill(chopper: Chopper, truck: Truck, crop: StandingCrop, clamp: Clamp, yard: Yard): Work {
  const { machine, plan } = chopper;
  const { sim } = yard.clock;
  const slow = chopper.cutting();
  const room = Math.min(truck.kind.load * chopper.loadMass(), clamp.room / crop.dryMatter);
  clamp.speakFor(room * crop.dryMatter);
  const trip = yard.newTrip(truck, chopper, crop, clamp);
  truck.machine.enter("filling", crop.index);
  clamp.coming++;
  try {
    if (!chopper.first) yield* work(machine, plan.changeover, "changeover", crop.index);
    chopper.first = false;
    trip.fillFrom = sim.now;
    const pace = yard.paceFor(chopper, crop, clamp);
    while (room - trip.mass > NOTHING * room && crop.left > 0) {
      if (crop.owesTurn) {
        yield* work(machine, plan.turnTime, "turning", crop.index);
        crop.owesTurn = false;
        if (trip.mass === 0) trip.fillFrom = sim.now;
      }
      const piece = crop.pieceFor(room - trip.mass);
      try {
        yield* work(machine, crop.secondsFor(piece, pace) * slow, "cutting", crop.index);
        trip.mass += crop.cut(piece, pace);
      } catch (stop) {
        trip.mass += crop.cut(crop.massAfter(crop.secondsFor(piece, pace) - machine.left / slow, pace), pace);
        throw stop;
      }
    }
  } finally {
    trip.filled = sim.now;
    trip.dryMass = trip.mass * crop.dryMatter;
    clamp.speakFor(trip.dryMass - room * crop.dryMatter);
    // One stopped in the instant it begins has cut nothing but a rounding: that is no load.
    if (trip.mass > NOTHING * room) {
      machine.mass += trip.mass;
      machine.loads++;
      yard.keep(truck, trip);
      dismiss(truck, trip);
    } else {
      clamp.coming--;
      dismiss(truck, null);
    }
  }
}
