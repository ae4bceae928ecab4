/** One storage at work: the places to tip, the apron, the crew, and the lifts that grow out of it. */
import { capacityOf } from "../forage/geometry/index.ts";
import { Level, Resource, Signal, Store } from "../kernel/index.ts";
import { behindOf } from "../scenario/behind.ts";
import type { Scenario, Storage } from "../scenario/types.ts";
import { Crew } from "./crew.ts";
import type { Lift } from "./daylog.ts";
import { NOTHING } from "./field.ts";
import type { Load } from "./load.ts";
import type { Luck } from "./luck.ts";
import type { Clock, Machine } from "./machine.ts";
import { plannedDepth, usualLoad } from "./pace.ts";
import type { StorageStart } from "./start.ts";

/** A tipped load, ready to be spread. */
export interface TippedLoad extends Load {
  /** index into `Day.trips`; -1 for one that lay there when the day started */ readonly trip: number;
}

export class Clamp {
  readonly places: Resource;
  readonly apron: Level;
  /** tipped and ready to be spread, oldest first; null says that nothing more comes */ readonly ready: Store<TippedLoad | null>;
  readonly crew: Crew;
  /** tells the blades that something has changed while they wait */ readonly urge: Signal;
  readonly depth: number;
  /** the blades wait for packing before they bury the open lift */ waitsForPacking = false;
  pushes = false;
  /** a crew that holds until the apron is full: burying until it is half empty */ burying = false;
  /** loads cut for it and not yet tipped */ coming = 0;
  /** the crew has been told that nothing more comes */ told = false;
  full = false;
  readonly tipTime: () => number;
  private dryRoom: number;
  open: Lift | null = null;
  /** m3 that lie, at planned density */ private laid = 0;
  readonly storage: Storage;
  private readonly scenario: Scenario;

  constructor(
    clock: Clock,
    scenario: Scenario,
    readonly index: number,
    luck: Luck,
    enlist: (name: string, kind: "blade" | "roller", index: number) => Machine,
    private readonly lifts: Lift[],
    { lifts: past, apron: lying }: StorageStart = { lifts: [], apron: [] },
  ) {
    const { sim } = clock;
    this.scenario = scenario;
    this.storage = scenario.storages[index]!;
    const { name, tippingPlaces, apron } = this.storage;
    this.places = new Resource(sim, `${name}: tipping places`, tippingPlaces);
    this.apron = new Level(sim, `${name}: apron`, apron, lying.reduce((sum, load) => sum + load.mass, 0));
    this.ready = new Store(sim, `${name}: ready to spread`);
    this.urge = new Signal(sim);
    this.dryRoom = capacityOf(this.storage) * scenario.targets.dryDensity;
    this.tipTime = luck.at("tip", `storage ${index}`);
    this.depth = plannedDepth(scenario, index);
    this.crew = new Crew(clock, scenario, index, this.depth, enlist, usualLoad(scenario, index));
    for (const load of lying) {
      this.ready.put({ ...load, trip: -1 });
      this.speakFor(load.dryMass);
    }
    for (const lift of past) {
      this.speakFor(lift.dryMass);
      this.openUp({ ...lift, trip: -1 }, lift.layer, sim.now, sim.now, this.crew.rolledBefore(lift));
    }
  }

  /** kg of dry matter for which there is still room at the planned density, less what is on its way. */
  get room(): number {
    return this.dryRoom;
  }

  /** Loads tipped that no blade has taken yet. The word that nothing more comes stands behind them and is none. */
  get loadsReady(): number {
    return this.ready.size - (this.told ? 1 : 0);
  }

  /** A load of so much dry matter will come. */
  speakFor(dry: number): void {
    this.dryRoom -= dry;
  }

  /** There is room on the apron for a load; a load larger than the apron fits when it is bare. */
  fits(mass: number): boolean {
    const { apron } = this;
    return apron.waitingPuts === 0 && (apron.level === 0 || apron.level + mass <= apron.capacity * (1 + NOTHING));
  }

  /** A truck on a tipping place asks for room: where there is none, a crew that holds only until the apron is full begins to bury. */
  noticeCrowding(mass: number): void {
    if (this.fits(mass) || this.burying || behindOf(this.scenario).holds !== "until-full") return;
    this.burying = true;
    this.urge.fire();
  }

  /** The load lies: the lift before it is closed for good, this one opens. */
  lay(load: TippedLoad, layer: number, spreadFrom: number, now: number): void {
    this.openUp(load, layer, spreadFrom, now, new Float64Array(this.crew.masses.length));
    this.crew.bookPushed(load.mass);
  }

  /** The day's work on the open lift is over. */
  close(now: number): void {
    this.crew.turnTo(null);
    if (this.open) this.open.closed = now;
    this.open = null;
  }

  private openUp(load: TippedLoad, layer: number, spreadFrom: number, now: number, rolled: Float64Array): void {
    this.crew.turnTo(rolled);
    if (this.open) this.open.closed = now;
    this.open = { storage: this.index, trip: load.trip, mass: load.mass, dryMass: load.dryMass, layer, spreadFrom, opened: now, closed: NaN, rolled };
    this.lifts.push(this.open);
    this.laid += load.dryMass / this.scenario.targets.dryDensity;
    this.crew.seeWedge(this.laid);
  }
}
