/** A machine's work in hand: one piece after another, all known when it begins, and nearly always run through undisturbed. */
import { Alarm, type Interrupt, type Process, type Simulation, type Wait, type Work } from "../kernel/index.ts";
import type { MachineState } from "./daylog.ts";
import { endure, type Machine } from "./machine.ts";

/**
 * One wait for all of its pieces, made once a machine and used again and again; only what stops it has to look how far it has come.
 * Breaks pause it, it stands through breakdowns and goes on with the remainder; anything else that interrupts it breaks it off.
 */
export class Stint implements Wait {
  private place = -1;
  private load = -1;
  private readonly states: MachineState[] = [];
  /** s of working time left of each piece */ private readonly left: number[] = [];
  /** when each piece began, or will if nothing stops it, and when the last one is over */ private readonly begins: number[] = [];
  /** since when the piece in hand is worked on: later than it began where it was stopped */ private since = 0;
  private pieces = 0;
  /** pieces that are done */ private through = 0;
  private readonly alarm = new Alarm();

  constructor(private readonly machine: Machine) {}

  /** A new stint, from this instant, at a field or storage, with a load. */
  at(place: number, load = -1): this {
    this.place = place;
    this.load = load;
    this.pieces = this.through = 0;
    this.begins[0] = this.machine.clock.sim.now;
    return this;
  }

  /** One piece more, s of working time. Returns which one it is, from 0. */
  then(state: MachineState, seconds: number): number {
    this.states[this.pieces] = state;
    this.left[this.pieces] = seconds;
    return this.pieces++;
  }

  /** Pieces done, once the wait is over or broken off. */
  get done(): number {
    return this.through;
  }

  get isOver(): boolean {
    return this.through === this.pieces;
  }

  /** s of working time not done of the piece in hand, once the wait is broken off. */
  get undone(): number {
    return this.left[this.through]!;
  }

  stateOf(piece: number): MachineState {
    return this.states[piece]!;
  }

  /** When a piece that is done or in hand began. */
  beganAt(piece: number): number {
    return this.begins[piece]!;
  }

  begin(process: Process, simulation: Simulation): boolean {
    const { machine, through, pieces, left, begins } = this;
    const { breaks } = machine.clock;
    machine.enter(this.states[through]!, this.place, this.load);
    this.since = simulation.now;
    let at = breaks.finish(this.since, left[through]!);
    for (let piece = through + 1; piece < pieces; piece++) {
      begins[piece] = at;
      at = breaks.finish(at, left[piece]!);
    }
    begins[pieces] = at;
    return this.alarm.at(at).begin(process, simulation);
  }

  /** Its event is taken off the list by the simulation. */
  cancel(): void {}

  /** The wait is over: the machine is told what it did meanwhile. */
  end(): void {
    for (let piece = this.through + 1; piece < this.pieces; piece++) this.enter(piece);
    this.through = this.pieces;
  }

  *standThrough(stop: Interrupt): Work {
    const { machine, place, load } = this;
    const { sim, breaks } = machine.clock;
    // A piece that would end at this very instant is still in hand.
    while (this.begins[this.through + 1]! < sim.now) {
      this.since = this.begins[++this.through]!;
      this.enter(this.through);
    }
    this.left[this.through] = Math.max(0, this.undone - breaks.open(this.since, sim.now));
    yield* endure(machine, stop, place, load);
  }

  private enter(piece: number): void {
    this.machine.enter(this.states[piece]!, this.place, this.load, this.begins[piece]!);
  }
}
