/** Where the figures of hauling come from: the table of trips. */
import { cyclesSeen } from "../../forage/capacity.ts";
import { roadSpeeds } from "../../forage/road.ts";
import type { DayFacts } from "../facts.ts";
import { figure, named } from "../figure.ts";
import type { MeasureName } from "../types.ts";
import { simulated, type Derive, type View } from "./view.ts";

/** h from the start of the first tip to the start of the last, as the loads per hour tell it. */
const tippingSpan = (day: DayFacts): number => (day.measures.loads - 1) / day.measures.loadsPerHour;

/** t of the load that the rate leaves out because its own time came before the span. */
const firstLoad = (day: DayFacts): number => day.measures.delivered - day.measures.deliveryRate * tippingSpan(day);

const fleet = ({ scenario }: View): string => named(scenario.trucks.map((kind) => `${kind.count} × ${kind.kind}`), 6);

const speeds = ({ scenario }: View): string =>
  named(scenario.trucks.map(({ kind, loadedSpeed, emptySpeed }) => `${kind} ${figure(3.6 * loadedSpeed, "1", 3)} and ${figure(3.6 * emptySpeed, "km/h", 3)}`), 6);

/** A planner's own speeds are often guessed. */
const MEASURED_SPEEDS = Object.values(roadSpeeds).map(({ value, unit, source, mark }) => `${value} ${unit} (${source}; ${mark})`).join(", ");

const { value, unit, note, source, mark } = cyclesSeen.besideRoad;
const SEEN_BESIDE_ROAD = `${note} ${value} ${unit} (${source}; ${mark})`;

export const fromTrips = {
  delivered: (view) => simulated("delivered = loads x mean load: the fresh mass of every trip that was tipped (table of trips)", {
    loads: figure(view.mean("loads"), "1"), "mean load": figure(view.mean("delivered") / view.mean("loads"), "t"),
  }),
  deliveryRate: (view) => simulated(
    "delivery rate = (delivered - first load) / (start of the first tip to start of the last tip), breaks and waits included (table of trips)", {
      delivered: figure(view.mean("delivered"), "t"), "first load": figure(view.over(firstLoad), "t"), "first tip to last tip": figure(view.over(tippingSpan), "h"),
    }),
  loads: (view) => simulated(
    "loads = number of trips that were tipped; the part load at the end of a field or of the shift counts as one (table of trips)", {
      delivered: figure(view.mean("delivered"), "t"), trucks: fleet(view),
    }),
  loadsPerHour: (view) => simulated("loads per hour = (loads - 1) / (start of the first tip to start of the last tip) (table of trips)", {
    loads: figure(view.mean("loads"), "1"), "first tip to last tip": figure(view.over(tippingSpan), "h"),
  }),
  truckWaiting: (view) => simulated(
    "truck waiting = mean over the tipped trips of the minutes stood at the storage: in line for the scale, for a tipping place, and for "
    + "room on the apron; breaks left out (table of trips)", {
      trips: figure(view.mean("loads"), "1"), trucks: fleet(view),
    }),
  truckCycle: (view) => simulated(
    "truck cycle = mean over the trips that came back of the minutes from joining the line at a chopper to joining the next line; breaks "
    + "left out (table of trips)", {
      loads: figure(view.mean("loads"), "1"), trucks: fleet(view),
      "on the road, loaded and empty": speeds(view), "means measured on crop transport": MEASURED_SPEEDS, "seen of a round besides filling and road": SEEN_BESIDE_ROAD,
    }),
} as const satisfies Partial<Record<MeasureName, Derive>>;
