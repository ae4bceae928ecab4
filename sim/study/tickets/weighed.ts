/** What tickets say by themselves: their days, whose they are, and the shapes of what varies. Knows no rehearsal, so that the page can ask it too. */
import { fitShapes, type FittedSample } from "./fit.ts";
import { daysIn, gapsOf, measureDay, partsBy, roundsOf, staysOf, type DayOfLoads, type Part, type Pause } from "./loads.ts";
import { fullLoads } from "./patch.ts";
import type { TicketReading } from "./tickets.ts";

/** What tickets say by themselves. */
export interface Weighed {
  readonly reading: Omit<TicketReading, "tickets"> & { /** how many */ readonly tickets: number };
  /** day by day; cut where nothing was weighed for five hours */ readonly days: readonly DayOfLoads[];
  readonly owners: readonly Part[];
  readonly fields: readonly Part[];
  readonly trucks: readonly Part[];
  readonly storages: readonly Part[];
  /** shapes: t of full loads, min of the others; null where there is too little to fit */ readonly shapes: Readonly<Record<"load" | "cycle" | "stay" | "between", FittedSample | null>>;
}

/** What a reading says by itself; `breaks` are those of the shift, s after midnight, and count for no round and no gap. */
export function weighed({ tickets, ...reading }: TicketReading, breaks: readonly Pause[] = []): Weighed {
  const days = daysIn(tickets);
  const fit = (values: readonly number[], per: number) => fitShapes(values.filter((value) => value > 0).map((value) => value / per));
  return {
    reading: { ...reading, tickets: tickets.length },
    days: days.map((day) => measureDay(day, breaks)),
    owners: partsBy(tickets, "owner"), fields: partsBy(tickets, "field"), trucks: partsBy(tickets, "truck"), storages: partsBy(tickets, "storage"),
    shapes: {
      load: fit(fullLoads(tickets), 1000), cycle: fit(days.flatMap((day) => roundsOf(day, breaks)), 60), stay: fit(staysOf(tickets, breaks), 60),
      between: fit(days.flatMap((day) => gapsOf(day, breaks).map(({ worked }) => worked)), 60),
    },
  };
}
