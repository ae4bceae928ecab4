/** The tractors of one storage: who is there, who rolls the open lift, and how long it still wants. Rolling is a rate, never a tick. */
import { effortFor, heaviestFirst, secondsToReach } from "../forage/packing.ts";
import type { Scenario, Storage } from "../scenario/types.ts";
import type { CrewChange, Lift } from "./daylog.ts";
import type { Load } from "./load.ts";
import type { Clock, Machine } from "./machine.ts";
import type { PastLift } from "./start.ts";
import { cycleAtTarget, layerSeen, paceAtLayer, paceAtReference, plannedVolume, rollingShares, roomKeepsFrom, roomOn } from "./pace.ts";

export class Crew {
  readonly machines: Machine[];
  readonly masses: readonly number[];
  private readonly order: readonly number[];
  private readonly isBlade: readonly boolean[];
  private readonly present: boolean[];
  /** tractors that the wedge has room for; the others take turns */ private room: number;
  /** m3 from which that stays as it is: most loads of a day come later, and the wedge need not be looked at for them */
  private readonly roomKeepsFrom: number;
  private roomKeeps = false;
  /** kg/s that the blades present push together at the reference layer */ private spreading = 0;
  /** true while the blades push: they do not roll then */ private pushing = false;
  /** seconds rolled on the open lift, by tractor; null while nothing lies open */ private rolled: Float64Array | null = null;
  private settledAt: number;
  /** share of the time that each tractor really rolls: while all do, and beside blades that push */
  private rollingAll: readonly number[] = [];
  private rollingBeside: readonly number[] = [];
  private readonly ahead: Float64Array;
  /** m3 that the crop meant for the storage will fill */ private readonly whole: number;
  readonly changes: CrewChange[] = [];
  /** t* of the usual load with everybody, s */ private readonly fullCycle: number;
  /** t* of the usual load with those present, s */ private cycleNow: number;

  constructor(
    private readonly clock: Clock,
    private readonly scenario: Scenario,
    private readonly storageIndex: number,
    private readonly depth: number,
    enlist: (name: string, kind: "blade" | "roller", index: number) => Machine,
    /** the load that the debt is reckoned in */ private readonly usual: Load,
  ) {
    const { tractors } = this.storage;
    this.masses = tractors.map((tractor) => tractor.mass);
    this.order = heaviestFirst(this.masses);
    this.isBlade = tractors.map((tractor) => tractor.spreads !== null);
    this.machines = tractors.map((tractor, i) => enlist(tractor.name, this.isBlade[i] ? "blade" : "roller", i));
    this.present = this.machines.map((machine) => !machine.isAway);
    this.settledAt = clock.sim.now;
    this.whole = plannedVolume(scenario, storageIndex);
    this.ahead = new Float64Array(tractors.length);
    this.fullCycle = cycleAtTarget(scenario, this.storage, usual, depth);
    this.cycleNow = this.fullCycle;
    this.room = this.roomAt(0);
    this.roomKeepsFrom = roomKeepsFrom(scenario, this.storage, this.whole);
    this.reckon();
    for (const machine of this.machines) if (machine.awayUntil === Infinity) machine.goHome();
  }

  private get storage(): Storage {
    return this.scenario.storages[this.storageIndex]!;
  }

  /** kg/s that the blades present push together. */
  pushRate(layer: number): number {
    return paceAtLayer(this.spreading, layer);
  }

  /** The blades begin to push, or are done with it. */
  setPushing(pushing: boolean): void {
    this.settle();
    this.pushing = pushing;
    this.showStates();
  }

  /** So many m3 lie now, at planned density: a wedge that has grown has room for more tractors. */
  seeWedge(volume: number): void {
    if (this.roomKeeps) return;
    this.roomKeeps = volume >= this.roomKeepsFrom;
    const room = this.roomAt(volume);
    if (room === this.room) return;
    this.settle();
    this.room = room;
    this.reckon();
  }

  /** A load has been pushed: the blades there when it lies share its mass by their rates. */
  bookPushed(mass: number): void {
    const { tractors } = this.storage;
    for (const machine of this.machines) {
      if (!this.isBlade[machine.index] || !this.present[machine.index]) continue;
      machine.loads++;
      machine.mass += mass * (tractors[machine.index]!.spreads! / this.spreading);
    }
  }

  /** A new lift lies open; from now on rolling counts for it. Null: nothing lies open. */
  turnTo(lift: Float64Array | null): void {
    this.settle();
    this.rolled = lift;
    this.showStates();
  }

  /** A tractor breaks down or comes back. */
  setPresent(i: number, present: boolean): void {
    this.settle();
    this.present[i] = present;
    this.reckon();
  }

  /** s by tractor that give forage which lies already the density it has, had all rolled it together. */
  rolledBefore({ mass, dryMass, layer, density }: PastLift): Float64Array {
    const target = effortFor(density, mass, dryMass / mass, layerSeen(this.scenario, layer), this.depth);
    const rates = this.storage.tractors.map((tractor) => tractor.rolling);
    const seconds = secondsToReach({ target, masses: this.masses, order: this.order, rates, have: new Float64Array(rates.length), ahead: null });
    return Float64Array.from(rates, (rate) => rate * seconds);
  }

  /** Books the rolling since the last look to the open lift. */
  settle(): void {
    const now = this.clock.sim.now;
    if (this.rolled && now > this.settledAt) {
      const seconds = this.clock.breaks.open(this.settledAt, now);
      const { rates } = this;
      for (let i = 0; i < rates.length; i++) this.rolled[i]! += seconds * rates[i]!;
    }
    this.settledAt = now;
  }

  /**
   * Working seconds until the open lift, with what the machines staying on it add while the next load is spread, has the target
   * density by the relation with its own packing, at the set layer and the planned depth; 0 when nothing lies open. Nobody rolling:
   * Infinity. A lift that was laid thicker while the crew buried is held no longer than another: nobody rolls again what is behind.
   */
  secondsToTarget(open: Lift | null, spreadSeconds: number): number {
    if (!open || !this.rolled) return 0;
    this.settle();
    const target = effortFor(this.scenario.targets.dryDensity, open.mass, open.dryMass / open.mass, layerSeen(this.scenario, this.scenario.packing.layer), this.depth);
    for (let i = 0; i < this.ahead.length; i++) this.ahead[i] = this.rollingBeside[i]! * spreadSeconds;
    return secondsToReach({ target, masses: this.masses, order: this.order, rates: this.rates, have: this.rolled, ahead: this.ahead });
  }

  goHome(): void {
    for (const machine of this.machines) machine.goHome();
  }

  /** kg/s that those present pack at target density in steady work. */
  packingRate(): number {
    return this.usual.mass / this.cycleNow;
  }

  private get rates(): readonly number[] {
    return this.pushing ? this.rollingBeside : this.rollingAll;
  }

  private roomAt(volume: number): number {
    return roomOn(this.scenario, this.storage, volume, this.whole);
  }

  /** Who is there, or the room for them, has changed: what they roll, and what their work pays. */
  private reckon(): void {
    const { tractors } = this.storage;
    const present = (i: number) => this.present[i]!;
    this.spreading = paceAtReference(tractors, present);
    this.rollingAll = rollingShares(tractors, this.room, false, present);
    this.rollingBeside = rollingShares(tractors, this.room, true, present);
    this.cycleNow = cycleAtTarget(this.scenario, this.storage, this.usual, this.depth, present, this.room);
    this.changes.push({ storage: this.storageIndex, at: this.clock.sim.now, pays: Number.isFinite(this.cycleNow) ? this.fullCycle / this.cycleNow : 0 });
    this.showStates();
  }

  private showStates(): void {
    const idle = this.rolled ? "rolling" : "standing";
    for (let i = 0; i < this.machines.length; i++) {
      const state = !this.present[i] ? "broken" : this.pushing && this.isBlade[i] ? "pushing" : idle;
      if (this.machines[i]!.state !== state) this.machines[i]!.enter(state, this.storageIndex);
    }
  }
}
