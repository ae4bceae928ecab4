/** One machine on the day: what it is doing, since when, and what it adds up to. Working time only; breaks are a state of their own. */
import { Interrupt, until, type Calendar, type Process, type Simulation, type Wait, type Work } from "../kernel/index.ts";
import { Stint } from "./stint.ts";
import { STATES, type MachineDay, type MachineKind, type MachineState, type StateLog } from "./daylog.ts";

/** Why a machine is told to stop in the middle of what it does. */
export type Stoppage =
  | { readonly kind: "breakdown"; /** wall clock at which it runs again */ readonly until: number }
  | { readonly kind: "shift-end" };

/** What every machine of the day shares: the clock, the breaks and the list of state changes, if one is kept. */
export interface Clock {
  readonly sim: Simulation;
  readonly breaks: Calendar;
  readonly states: StateLog | null;
}

export class Machine {
  process: Process | null = null;
  state: MachineState | null = null;
  /** wall clock until which it is broken down; in the past while it runs */ brokenUntil = -Infinity;
  loads = 0;
  mass = 0;
  private since: number;
  private done = false;
  /** its last row in the list of state changes */ private row = -1;
  /** s by what it did, in the order of its kind's states: a key that varies is slow to write by, and this happens at every step */
  private readonly accounts: Float64Array;
  private readonly states: readonly MachineState[];
  private readonly from: number;
  /** its work in hand */ readonly stint = new Stint(this);

  constructor(
    readonly clock: Clock,
    /** index into `Day.machines` */ readonly id: number,
    readonly name: string,
    readonly kind: MachineKind,
    readonly index: number,
    readonly storage: number | null,
    /** s after midnight until which it is not there; -Infinity usually, Infinity for the whole day */ readonly awayUntil = -Infinity,
  ) {
    this.from = this.since = clock.sim.now;
    this.states = STATES[kind];
    this.accounts = new Float64Array(this.states.length);
  }

  /** From now on, or since a moment ago, it does this. The time before is booked to what it did, less the breaks. */
  enter(state: MachineState, place = -1, load = -1, at = this.clock.sim.now): void {
    if (this.done) return;
    this.book(at);
    this.state = state;
    const { states } = this.clock;
    if (!states) return;
    // What lasted no time at all is written over: a free tipping place is not a line.
    if (states.time[this.row] === at) {
      states.state[this.row] = state;
      states.place[this.row] = place;
      states.load[this.row] = load;
    } else {
      this.row = states.time.push(at) - 1;
      states.machine.push(this.id);
      states.state.push(state);
      states.place.push(place);
      states.load.push(load);
    }
  }

  get isAway(): boolean {
    return this.awayUntil > this.clock.sim.now;
  }

  get isHome(): boolean {
    return this.done;
  }

  /** Its day is over. */
  goHome(): void {
    if (this.done) return;
    this.book(this.clock.sim.now);
    this.done = true;
  }

  record(): MachineDay {
    const { name, kind, index, storage, from, loads, mass } = this;
    const seconds: Partial<Record<MachineState, number>> = {};
    this.states.forEach((state, i) => { if (this.accounts[i]! > 0) seconds[state] = this.accounts[i]!; });
    return { name, kind, index, storage, from, until: this.since, seconds, loads, mass };
  }

  private book(now: number): void {
    if (this.state !== null && now > this.since) {
      const worked = this.clock.breaks.open(this.since, now);
      this.account(this.state, worked);
      const rested = now - this.since - worked;
      if (rested > 0) this.account("break", rested);
    }
    this.since = now;
  }

  private account(state: MachineState, seconds: number): void {
    let at = 0;
    while (this.states[at] !== state) at++;
    this.accounts[at]! += seconds;
  }
}

/**
 * The machine works for so many seconds of working time: breaks pause it, a breakdown stops it until it is repaired, then it goes
 * on with the remainder. Whatever else interrupts it ends the work.
 */
export function work(machine: Machine, seconds: number, state: MachineState, place = -1, load = -1): Wait {
  const { stint } = machine;
  stint.at(place, load).then(state, seconds);
  return stint;
}

/**
 * Stands through a breakdown, its own or that of the machine it works with, until both run again.
 * Anything that is not a breakdown is thrown on: that is for whoever planned the work.
 */
export function* endure(machine: Machine, stop: unknown, place = -1, load = -1): Work {
  yield* stand(machine, Math.max(stoppageOf(stop, "breakdown").until, machine.brokenUntil), place, load);
}

/** Waits until a machine that was away when the day started is there. False: it stays away all day. */
export function* arrive(machine: Machine): Work<boolean> {
  if (machine.awayUntil === Infinity) return false;
  if (machine.isAway) {
    machine.brokenUntil = machine.awayUntil;
    yield* stand(machine, machine.awayUntil);
  }
  return true;
}

function* stand(machine: Machine, first: number, place = -1, load = -1): Work {
  const { sim } = machine.clock;
  let end = first;
  while (sim.now < end) {
    const isBroken = machine.brokenUntil > sim.now;
    const state = isBroken ? "broken" : machine.kind === "chopper" ? "waiting" : machine.state;
    if (state && machine.state !== state) machine.enter(state, place, load);
    try {
      yield until(isBroken ? machine.brokenUntil : end);
    } catch (again) {
      end = Math.max(end, stoppageOf(again, "breakdown").until);
    }
  }
}

/** What stopped it, if it is of the kind asked for; otherwise throws it on. */
export function stoppageOf<K extends Stoppage["kind"]>(stop: unknown, kind: K): Extract<Stoppage, { kind: K }> {
  const stoppage = stop instanceof Interrupt ? (stop.cause as Stoppage) : null;
  if (stoppage?.kind !== kind) throw stop;
  return stoppage as Extract<Stoppage, { kind: K }>;
}
