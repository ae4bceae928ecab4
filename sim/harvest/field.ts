/** The crop standing in one field, row by row. */
import type { Field } from "../scenario/types.ts";
import type { Chopper } from "./chopper.ts";
import type { FieldStart } from "./start.ts";

/** Share of a load or a row below which a mass is rounding, not forage. */
export const NOTHING = 1e-9;

/** kg/s while the forage flows; `usual` once the field is opened. */
export type Pace = number;

export class StandingCrop {
  /** fresh kg still to cut */ left: number;
  /** fresh kg in the row being cut */ rowLeft = 0;
  /** fresh kg in a whole row of the chopper that cuts it */ rowMass = 0;
  readonly dryMatter: number;
  /** a row is done and the turn after it not yet made */ owesTurn = false;
  cutter: Chopper | null = null;
  /** cutting has stopped for good though crop is left: no storage has room for it */ abandoned = false;
  /** some of it was cut before the day started */ readonly begun: boolean;
  private openingLeft: number;
  /** see `imagined` */ private copy: StandingCrop | null = null;

  constructor(readonly field: Field, readonly index: number, /** fresh kg per m2, today's luck included */ readonly yieldNow: number, start?: FieldStart) {
    const whole = field.area * yieldNow;
    const { taken, left } = start ?? { taken: 0, left: null };
    const stands = left === null ? whole - taken : left * whole;
    this.left = stands > NOTHING * whole ? stands : 0;
    this.begun = taken > 0;
    this.dryMatter = field.dryMatter;
    this.openingLeft = this.begun ? 0 : field.opening?.time ?? 0;
  }

  /** This chopper will cut it, in rows as wide as its header. */
  startWith(chopper: Chopper): void {
    this.cutter = chopper;
    this.rowMass = chopper.plan.width * this.field.rowLength * this.yieldNow;
    this.rowLeft = Math.min(this.rowMass, this.left);
  }

  /** The same crop as it stands, to be cut in thought; made once and used again. */
  get imagined(): StandingCrop {
    const copy = (this.copy ??= new StandingCrop(this.field, this.index, this.yieldNow));
    copy.left = this.left;
    copy.rowLeft = this.rowLeft;
    copy.rowMass = this.rowMass;
    copy.owesTurn = this.owesTurn;
    copy.openingLeft = this.openingLeft;
    return copy;
  }

  /** What can be cut into so much room before the next row end, kg. A truck full exactly at a row end takes the whole row. */
  pieceFor(room: number): number {
    return Math.abs(room - this.rowLeft) <= NOTHING * this.rowMass ? this.rowLeft : Math.min(room, this.rowLeft);
  }

  /** s of cutting for so many kg at a pace, the slow opening of the field included. */
  secondsFor(mass: number, pace: Pace): number {
    if (this.openingLeft <= 0) return mass / pace;
    const slowPace = pace * this.field.opening!.pace;
    const slowMass = slowPace * this.openingLeft;
    return mass <= slowMass ? mass / slowPace : this.openingLeft + (mass - slowMass) / pace;
  }

  /** kg cut after so many seconds: the inverse of `secondsFor`. */
  massAfter(seconds: number, pace: Pace): number {
    if (this.openingLeft <= 0) return seconds * pace;
    const slowPace = pace * this.field.opening!.pace;
    return seconds <= this.openingLeft ? seconds * slowPace : this.openingLeft * slowPace + (seconds - this.openingLeft) * pace;
  }

  /** Takes so many kg off the row in hand. Returns them. */
  cut(mass: number, pace: Pace): number {
    if (this.openingLeft > 0) this.openingLeft = Math.max(0, this.openingLeft - this.secondsFor(mass, pace));
    this.left -= mass;
    this.rowLeft -= mass;
    if (this.rowLeft > NOTHING * this.rowMass) return mass;
    const crumbs = this.left <= NOTHING * this.rowMass;
    if (crumbs) this.left = 0;
    this.rowLeft = Math.min(this.rowMass, this.left);
    this.owesTurn = !crumbs;
    return mass;
  }
}
