/**
 * How the two sets of weigh tickets that ship with the project came about: each is a day rehearsed with another luck and with inputs that
 * differ from the file it is held against, printed as a scale would print it. Everything in them is invented.
 * `npx tsx tests/tickets/write-sets.ts` writes them anew.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { Day, Trip } from "../../sim/harvest/daylog.ts";
import { readScenario } from "../../sim/scenario/read.ts";
import type { Scenario } from "../../sim/scenario/types.ts";

export const FOLDER = join(import.meta.dirname, "../../scenarios/tickets");

const scenarioOf = (file: string): Scenario => {
  const checked = readScenario(readFileSync(join(FOLDER, file), "utf8"));
  if ("problems" in checked) throw new Error(checked.problems[0]!.detail);
  return checked.scenario;
};

/** The scenarios that the sets are held against. */
export const MEADOW = scenarioOf("../low-meadow.yaml");
export const EVENING = scenarioOf("evening-meadow.yaml");

/** What really happened, and the file does not know: everybody stood from 09:20 for 45 minutes. */
export const STOP = { at: 9 * 3600 + 20 * 60, for: 45 * 60 } as const;
export const STOP_SEED = 5;
/** The evening's trucks carried less than the file says, kg. */
export const EVENING_LOAD = 10_300;
export const EVENING_SEED = 12;

export const stopDay = (): Day => rehearseDay({ ...MEADOW, shift: { ...MEADOW.shift, breaks: [STOP, ...MEADOW.shift.breaks] } }, { seed: STOP_SEED });
export const eveningDay = (): Day => rehearseDay({ ...EVENING, trucks: EVENING.trucks.map((kind) => ({ ...kind, load: EVENING_LOAD })) }, { seed: EVENING_SEED });

/** Trips that came over the scale, in its order. */
export const weighed = ({ trips }: Day): Trip[] => trips.filter((trip) => !Number.isNaN(trip.weighed)).sort((a, b) => a.weighed - b.weighed);

const two = (n: number) => String(n).padStart(2, "0");
const clock = (seconds: number) => {
  const s = Math.floor(seconds) % 86_400;
  return `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
};
/** kg as a scale shows them that counts by so many. */
const shown = (kg: number, division: number) => Math.round(kg / division) * division;
/** Trucks by the order in which they first came. */
const numbers = (trips: readonly Trip[]) => [...new Set(trips.map(({ truck }) => truck))];

/** Whole kg, commas between cells, times of coming and of leaving, dates as year, month, day. */
export function stopText(): string {
  const trips = weighed(stopDay());
  const order = numbers(trips);
  const rows = trips.map((trip, i) => {
    const tare = 9_200 + 140 * order.indexOf(trip.truck);
    const net = shown(trip.mass, 10);
    return [4101 + i, "2026-09-14", clock(trip.weighed), clock(trip.tipped), `Tipper ${order.indexOf(trip.truck) + 1}`, "Long Strip", tare + net, tare, net].join(",");
  });
  return `\ufeff${["Ticket,Date,Time in,Time out,Truck,Field,Gross kg,Tare kg,Net kg", ...rows].join("\r\n")}\r\n`;
}

const comma = (kg: number) => (kg / 1000).toFixed(2).replace(".", ",");

/**
 * Tonnes with a decimal comma, semicolons, a title above and a sum below; each truck is weighed empty once, and then the scale keeps its tare, which
 * every ninth ticket does not print. The date is the shift's and stays over midnight. One ticket was printed twice, and one weighing was a trial.
 */
export function eveningText(): string {
  const trips = weighed(eveningDay());
  const order = numbers(trips);
  const known = new Set<number>();
  const rows = trips.map((trip, i) => {
    const tare = 7_640 + 120 * order.indexOf(trip.truck);
    const gross = tare + shown(trip.mass, 20);
    const first = !known.has(trip.truck);
    known.add(trip.truck);
    const { name, owner } = EVENING.fields[trip.field]!;
    const kept = first || i % 9 === 8 ? "" : comma(tare);
    return [`${701 + i}`, "14.09.2026", clock(trip.weighed), `Tipper ${order.indexOf(trip.truck) + 1}`, owner, name, comma(gross), first ? comma(tare) : "", kept, ""].join(";");
  });
  rows.splice(20, 0, rows[19]!);
  rows.splice(3, 0, "999;14.09.2026;17:45:00;;;trial;0,00;;;");
  const sum = trips.reduce((all, trip) => all + shown(trip.mass, 20), 0);
  const heads = "Ticket;Date;Time;Vehicle;Customer;Field;Gross (t);Tare (t);Stored tare (t);Net (t)";
  return `${["Yard scale;;;;;;;;;", heads, ...rows, `Sum;;;;;;;;;${comma(sum)}`].join("\r\n")}\r\n`;
}
