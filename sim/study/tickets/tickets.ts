/** From the rows of a mapped file to tickets: each row is a ticket or is refused with the reason, and none is lost. */
import { found } from "../../scenario/words.ts";
import { formatNumber, toSI } from "../../scenario/units.ts";
import { amountOf, clockIn, dayOf, momentParts, unitNamed, type MassUnit } from "./cells.ts";
import { readSheet, type Row } from "./csv.ts";
import type { ColumnName } from "./headings.ts";
import { mapColumns, type Answers, type Mapping, type Question } from "./mapping.ts";

/** One load over the scale. */
export interface Ticket {
  /** in the file, from 1 */ readonly row: number;
  readonly truck: string | null;
  /** s after midnight of the first ticket's day */ readonly at: number;
  /** left the storage; null when not told */ readonly out: number | null;
  /** kg */ readonly mass: number;
  readonly owner: string | null;
  readonly field: string | null;
  readonly storage: string | null;
}

/** A row that is no ticket, as it stands, and why. */
export interface RefusedRow { readonly row: number; readonly text: string; readonly because: string }
/** A row that is a ticket with something to know about it. */
export interface Remark { readonly row: number; readonly remark: string }

export interface TicketReading {
  readonly mapping: Mapping;
  /** while any is open, no row is read */ readonly questions: readonly Question[];
  /** rows under the heading: as many as tickets and refused rows, or waiting for an answer */ readonly rows: number;
  readonly waiting: number;
  /** in the order of weighing */ readonly tickets: readonly Ticket[];
  readonly refused: readonly RefusedRow[];
  readonly remarks: readonly Remark[];
}

/** kg: a net mass may differ from gross less tare by the rounding of what is printed, and by this at the least. Assumption of this project. */
const LEAST_TOLERANCE = 1;
/** kg: beyond it the number is a slip. Assumption of this project: heavier than any truck with its load. */
const HEAVIEST = 150_000;
const DAY = 86_400;
/** s: a clock that steps back further than this has passed midnight, and a truck that leaves the storage later than this has not stood there. Assumptions of this project. */
const PAST_MIDNIGHT = 12 * 3600;
const LONGEST_STAY = 6 * 3600;

/** Reads weigh tickets. @throws RangeError in the user's words where the file as a whole is not to be used */
export function readTickets(text: string, answers: Answers = {}): TicketReading {
  const { mapping, questions, rows } = mapColumns(readSheet(text), answers);
  if (questions.length > 0) return { mapping, questions, rows: rows.length, waiting: rows.length, tickets: [], refused: [], remarks: [] };
  const reader = new RowReader(mapping);
  const inOrder = reader.isNewestFirst(rows) ? [...rows].reverse() : rows;
  for (const row of inOrder) reader.take(row);
  const { tickets, refused, remarks, keptTares } = reader;
  const [kept, ...more] = keptTares.sort((a, b) => a - b);
  if (kept !== undefined) remarks.push({ row: kept, remark: `The tare is the one that the scale keeps${more.length > 0 ? `, here and on ${more.length} more` : ""}.` });
  const byRow = <T extends { readonly row: number }>(list: readonly T[]) => [...list].sort((a, b) => a.row - b.row);
  const first = Math.min(...tickets.map(({ at }) => Math.floor(at / DAY)));
  const fromMidnight = tickets.map((ticket) => ({ ...ticket, at: ticket.at - first * DAY, out: ticket.out === null ? null : ticket.out - first * DAY }));
  return { mapping, questions, rows: rows.length, waiting: 0, tickets: fromMidnight.sort((a, b) => a.at - b.at || a.row - b.row), refused: byRow(refused), remarks: byRow(remarks) };
}

/** kg, and to how many kg it was printed, in which unit. */
interface Mass { readonly kg: number; readonly step: number; readonly unit: MassUnit }

/** As a ticket prints it, so that a reader finds it there. */
const inUnit = (kg: number, unit: MassUnit): string => `${formatNumber(kg / toSI(1, unit, "mass"), unit === "kg" || unit === "lb" ? 0 : 2)} ${unit}`;

interface Before { readonly day: number; readonly clock: number; readonly written: number | null; readonly carry: number }

/** Thrown and caught in this file: why a row is no ticket. */
class Refused extends Error {}

class RowReader {
  readonly tickets: Ticket[] = [];
  readonly refused: RefusedRow[] = [];
  readonly remarks: Remark[] = [];
  readonly #mapping: Mapping;
  /** rows whose tare is the one that the scale keeps */ readonly keptTares: number[] = [];
  /** kg by truck, as last weighed or kept */ readonly #tares = new Map<string, { readonly kg: number; readonly row: number }>();
  readonly #seen = new Map<string, number>();
  /** names as they were first spelt, by column and without capitals and blanks that tell nothing apart */ readonly #spelt = new Map<string, string>();
  /** of the ticket before; `written`: its day as the file has it, `carry`: days that a date kept over midnight has fallen behind */
  #before: Before = { day: 0, clock: -1, written: null, carry: 0 };

  constructor(mapping: Mapping) {
    this.#mapping = mapping;
  }

  /** Whether days, and times of one day, fall from row to row more often than they rise. */
  isNewestFirst(rows: readonly Row[]): boolean {
    const moments = rows.flatMap((row) => {
      const { date, clock } = momentParts(this.#cell(row, "time"));
      const at = clock === null ? null : clockIn(clock);
      const written = date ?? this.#cell(row, "date");
      const day = written === "" || this.#mapping.dates === null ? 0 : dayOf(written, this.#mapping.dates);
      return at === null || day === null ? [] : [{ day, at }];
    });
    const steps = moments.slice(1).map(({ day, at }, i) => (day - moments[i]!.day) * DAY || (Math.abs(at - moments[i]!.at) < PAST_MIDNIGHT ? at - moments[i]!.at : 0)).filter((step) => step !== 0);
    return steps.filter((step) => step < 0).length > steps.length / 2;
  }

  take(row: Row): void {
    try {
      this.tickets.push(this.#ticket(row));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.refused.push({ row: row.row, text: row.cells.join(" | "), because: error.message });
    }
  }

  #ticket(row: Row): Ticket {
    const width = this.#mapping.heading.length;
    if (row.broken !== null) throw new Refused(`It ${row.broken}.`);
    const used = row.cells.findLastIndex((cell) => cell.trim() !== "") + 1;
    if (row.cells.length < width || used > width) throw new Refused(`It has ${row.cells.length} values where the heading has ${width}.`);
    const word = (name: ColumnName) => this.#cell(row, name) || null;
    const nameIn = (name: "truck" | "owner" | "field" | "storage") => this.#nameIn(row, name);
    const truck = nameIn("truck");
    const notes: string[] = [];
    const mass = this.#massOf(row, truck, notes);
    const { at, before } = this.#timeOf(row);
    if (before.carry > 0) notes.push("Its date is still that of before midnight: it was taken as the next day's.");
    const out = this.#leaving(row, at);
    this.#refuseTwice(row, [word("ticket") ?? ""].filter(Boolean).map((id) => `ticket ${id} of day ${Math.floor(at / DAY)}`).concat(truck === null ? [] : [`${truck} at ${at}`]));
    if (truck === null && this.#mapping.columns.truck !== undefined) notes.push("No truck is named: it counts, but for no round.");
    this.#before = before;
    this.remarks.push(...notes.map((remark) => ({ row: row.row, remark })));
    if (this.#cell(row, "tare") === "" && this.#cell(row, "storedTare") !== "") this.keptTares.push(row.row);
    return { row: row.row, truck, at, out, mass, owner: nameIn("owner"), field: nameIn("field"), storage: nameIn("storage") };
  }

  #cell({ cells }: Row, name: ColumnName): string {
    const at = this.#mapping.columns[name];
    return at === undefined ? "" : (cells[at] ?? "").trim();
  }

  #nameIn(row: Row, column: ColumnName): string | null {
    const name = this.#cell(row, column).replace(/\s+/gu, " ");
    if (name === "") return null;
    const key = `${column} ${name.toLowerCase()}`;
    if (!this.#spelt.has(key)) this.#spelt.set(key, name);
    return this.#spelt.get(key)!;
  }

  /** What a cell says; null for an empty one. */
  #mass(row: Row, name: ColumnName): Mass | null {
    const cell = this.#cell(row, name);
    if (cell === "") return null;
    const amount = amountOf(cell, this.#mapping.decimal);
    if (amount === null) throw new Refused(`The ${name === "storedTare" ? "stored tare" : name} is ${found(cell)}: no number with a decimal ${this.#mapping.decimal}.`);
    const unit = amount.unit === null ? this.#mapping.unit : unitNamed(amount.unit) ?? (amount.unit.toLowerCase() === this.#mapping.unit ? this.#mapping.unit : null);
    if (unit === null && amount.unit === null) throw new Refused(`The ${name} is ${found(cell)}: its unit is missing, and the others have theirs behind the number.`);
    if (unit === null) throw new Refused(`The ${name} is ${found(cell)}: ${amount.unit} is no unit of mass that is known here.`);
    const kg = toSI(amount.value, unit, "mass");
    if (kg < 0 || kg > HEAVIEST) throw new Refused(`The ${name} is ${found(cell)}: ${kg < 0 ? "nothing weighs less than nothing" : `no truck weighs more than ${formatNumber(HEAVIEST / toSI(1, unit, "mass"), 0)} ${unit}`}.`);
    return { kg, step: toSI(amount.step, unit, "mass"), unit };
  }

  /** kg of the load. */
  #massOf(row: Row, truck: string | null, notes: string[]): number {
    const [gross, weighed, stored, net] = [this.#mass(row, "gross"), this.#mass(row, "tare"), this.#mass(row, "storedTare"), this.#mass(row, "net")];
    const known = truck === null ? undefined : this.#tares.get(truck);
    let tare = weighed ?? stored;
    if (tare === null && net === null && gross !== null && known) {
      tare = { ...gross, kg: known.kg };
      notes.push(`It has no tare: that of row ${known.row}, ${inUnit(known.kg, gross.unit)}, was taken.`);
    }
    if (gross !== null && tare !== null) {
      const load = gross.kg - tare.kg;
      const said = (kg: number) => inUnit(kg, gross.unit);
      if (load <= 0) throw new Refused(`It weighs ${said(gross.kg)} full and ${said(tare.kg)} empty: nothing was in it.`);
      const tolerance = Math.max(LEAST_TOLERANCE, 1.5 * Math.max(gross.step, tare.step, net?.step ?? 0)) + 1e-6;
      if (net !== null && Math.abs(load - net.kg) > tolerance) {
        throw new Refused(`Gross less tare is ${said(load)} and the net mass ${said(net.kg)}: they may differ by ${said(tolerance)}.`);
      }
      if (truck !== null) this.#tares.set(truck, { kg: tare.kg, row: row.row });
      return load;
    }
    if (net === null) throw new Refused(gross === null ? "It has no mass." : "It has neither a tare nor a net mass, and no tare of this truck is known before it.");
    if (net.kg === 0) throw new Refused("The net mass is nothing.");
    return net.kg;
  }

  #timeOf(row: Row): { readonly at: number; readonly before: Before } {
    const cell = this.#cell(row, "time");
    if (cell === "") throw new Refused("It has no time.");
    const { date, clock: text } = momentParts(cell);
    const clock = text === null ? null : clockIn(text);
    if (clock === null) throw new Refused(`The time is ${found(cell)}: no time of day.`);
    const written = date ?? (this.#cell(row, "date") || null);
    if (written !== null) {
      const day = this.#mapping.dates === null ? null : dayOf(written, this.#mapping.dates);
      if (day === null) throw new Refused(`The date is ${found(written)}: there is no such day${this.#mapping.dates === null ? "" : `, read as ${this.#mapping.dates}`}.`);
      return this.#kept(day, clock);
    }
    if (this.#mapping.dates !== null) throw new Refused("It has no date.");
    const { day, clock: before } = this.#before;
    // A row that is a little out of order belongs to the same night.
    const step = clock - before;
    const now = before < 0 ? 0 : step < -PAST_MIDNIGHT ? day + 1 : step > PAST_MIDNIGHT && day > 0 ? day - 1 : day;
    return { at: now * DAY + clock, before: now < day ? this.#before : { day: now, clock, written: null, carry: 0 } };
  }

  /** A date that the scale, or the shift, keeps over midnight: times that fall by more than half a day under one date are the next day's. */
  #kept(written: number, clock: number): { readonly at: number; readonly before: Before } {
    const { clock: before, written: dateBefore, carry: carried } = this.#before;
    const step = clock - before;
    const carry = dateBefore !== written ? 0 : step < -PAST_MIDNIGHT ? carried + 1 : step > PAST_MIDNIGHT && carried > 0 ? carried - 1 : carried;
    const day = written + carry;
    return { at: day * DAY + clock, before: { day, clock, written, carry } };
  }

  #leaving(row: Row, at: number): number | null {
    const cell = this.#cell(row, "timeOut");
    if (cell === "") return null;
    const { date, clock: text } = momentParts(cell);
    const clock = text === null ? null : clockIn(text);
    if (clock === null) throw new Refused(`The time of leaving is ${found(cell)}: no time of day.`);
    const written = date ?? (this.#cell(row, "dateOut") || null);
    const day = written === null || this.#mapping.dates === null ? null : dayOf(written, this.#mapping.dates);
    if (written !== null && day === null) throw new Refused(`The date of leaving is ${found(written)}: there is no such day.`);
    let out = (day ?? Math.floor(at / DAY)) * DAY + clock;
    if (day === null && out < at) out += DAY;
    if (out < at) throw new Refused("It left before it came.");
    if (out - at > LONGEST_STAY) throw new Refused(`It left ${formatNumber((out - at) / 3600, 1)} h after it came, or before: no truck stands at the storage for more than ${LONGEST_STAY / 3600} h.`);
    return out;
  }

  #refuseTwice(row: Row, marks: readonly string[]): void {
    for (const mark of marks) {
      const other = this.#seen.get(mark);
      if (other !== undefined) throw new Refused(`It is weighed twice: row ${other} has the same ${mark.startsWith("ticket ") ? "number" : "truck and time"}.`);
    }
    for (const mark of marks) this.#seen.set(mark, row.row);
  }
}
