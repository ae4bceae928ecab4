/** The chopper's working day: wait for a truck, cut until it is full, turn at the row ends, move to the next field. */
import { Store, type Interrupt, type Process, type Simulation, type Wait, type Work } from "../kernel/index.ts";
import type { Chopper as ChopperPlan } from "../scenario/types.ts";
import type { Clamp } from "./clamp.ts";
import { Cutting } from "./cutting.ts";
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
  readonly slowness: () => number;
  readonly loadMass: () => number;
  readonly loadedRoad: () => number;
  readonly emptyRoad: () => number;
  first = true;
  readonly beckoning = new Beckoning(this);
  readonly cutting: Cutting;

  constructor(readonly yard: Yard, readonly machine: Machine, readonly plan: ChopperPlan, readonly index: number) {
    this.line = new Store(yard.clock.sim, `${plan.name}: trucks in line`);
    this.move = plan.move;
    this.cutting = new Cutting(machine.stint, plan.turnTime);
    const place = `chopper ${index}`;
    this.slowness = yard.luck.at("cutting", place);
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

  /** Begins to fill a truck: as much as it, the room in the storage and today's luck allow. */
  takeOn(truck: Truck, crop: StandingCrop, clamp: Clamp): Filling {
    const { yard } = this;
    const slow = this.slowness();
    const room = Math.min(truck.kind.load * this.loadMass(), clamp.room / crop.dryMatter);
    clamp.speakFor(room * crop.dryMatter);
    const trip = yard.newTrip(truck, this, crop, clamp);
    truck.machine.enter("filling", crop.index);
    clamp.coming++;
    const changeover = this.first ? 0 : this.plan.changeover;
    this.first = false;
    const cutting = this.cutting.into(trip, room, crop, { pace: yard.paceFor(this, crop, clamp), slow, changeover });
    return { trip, crop, clamp, room, cutting };
  }

  /** Sends it off with what has been cut into it; one stopped in the instant it begins has cut nothing but a rounding: that is no load. */
  sendOff(truck: Truck, { trip, crop, clamp, room }: Filling): void {
    this.cutting.end();
    trip.filled = this.yard.clock.sim.now;
    trip.dryMass = trip.mass * crop.dryMatter;
    clamp.speakFor(trip.dryMass - room * crop.dryMatter);
    if (trip.mass > NOTHING * room) {
      this.machine.mass += trip.mass;
      this.machine.loads++;
      this.yard.keep(truck, trip);
      dismiss(truck, trip);
    } else {
      clamp.coming--;
      dismiss(truck, null);
    }
  }

  /** The truck under the spout has broken down: whatever the chopper does waits with it. */
  standWith(breakdown: Stoppage): void {
    this.yard.clock.sim.interrupt(this.machine.process!, breakdown);
  }
}

/** What a truck under the spout is being filled with. */
interface Filling {
  readonly trip: Trip;
  readonly crop: StandingCrop;
  readonly clamp: Clamp;
  /** kg it can take */ readonly room: number;
  /** to wait for */ readonly cutting: Wait;
}

/** Stands until a truck is alongside that runs. */
class Beckoning implements Wait {
  constructor(private readonly chopper: Chopper) {}

  begin(process: Process, simulation: Simulation): boolean {
    const { chopper } = this;
    chopper.machine.enter("waiting", chopper.fieldIndex);
    chopper.yard.waits.begin(chopper);
    return chopper.line.take().begin(process, simulation);
  }

  cancel(process: Process): void {
    this.chopper.line.take().cancel(process);
  }

  *standThrough(stop: Interrupt): Work {
    const { chopper } = this;
    chopper.yard.waits.end(chopper);
    yield* endure(chopper.machine, stop, chopper.fieldIndex);
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
  const { sim } = yard.clock;
  try {
    const works: boolean = yield* arrive(machine);
    for (let crop = works ? yard.takeField(chopper) : null; crop; crop = yard.takeField(chopper)) {
      const comesFromAnother = chopper.field !== null;
      chopper.field = crop;
      if (comesFromAnother) yield work(machine, chopper.move, "moving", crop.index);

      while (crop.left > 0 && yard.storageFor(crop)) {
        const truck: Truck = yield chopper.beckoning;
        yard.waits.end(chopper);
        // Another chopper may have filled the storage meanwhile.
        const clamp = yard.storageFor(crop);
        if (!clamp) {
          dismiss(truck, null);
          continue;
        }
        const load = chopper.takeOn(truck, crop, clamp);
        try {
          yield load.cutting;
          machine.stint.end();
        } finally {
          chopper.sendOff(truck, load);
        }
      }

      if (crop.left > 0) crop.abandoned = true;
      else yard.tell({ kind: "field-done", at: sim.now, field: crop.index, chopper: chopper.index });
    }
  } catch (stop) {
    stoppageOf(stop, "shift-end");
    yard.tell({ kind: "shift-end", at: sim.now, chopper: chopper.index });
  }
  chopper.done = true;
  machine.goHome();
  for (const truck of [...chopper.line.items]) {
    chopper.line.remove(truck);
    dismiss(truck, null);
  }
  yard.tellWhoIsDone();
}
