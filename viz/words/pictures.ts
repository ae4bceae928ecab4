/** Texts of the pictures of the day, of saving them, and of where a figure comes from. */
import { measuredProfile } from "../../sim/forage/profile.ts";
import { spoken } from "../english.ts";
import { many } from "./many.ts";

/** Per cent by which the centre was denser than the strip beside the wall, where both were measured. */
const CENTRE_OVER_WALL = Math.round(100 * (measuredProfile.centreOverWall.value - 1));

const PICTURES = {
  keys: "Keys on a drawing or the time line: space plays, arrows 1 min, page keys 15 min, Home and End, N and P for the next and the previous event, T for the next truck, Escape for none.",
  pointHere: "Point at a truck or a minute and every picture shows it; a click stays there.",

  save: { title: "Save", as: (picture: string, kind: string) => `Save as ${kind}: ${picture}` },

  curves: {
    title: "Tipped and packed",
    now: (clock: string, tipped: string, laid: string) => `${clock}: ${tipped} tipped, ${laid} laid.`,
    gap: (waiting: string, ago: string | null) => (ago === null ? "Nothing waits." : `${waiting} wait between the two; what is laid now was tipped ${ago} ago.`),
    waiting: (mass: string) => `${mass} waiting`,
    ago: (minutes: string) => `${minutes} behind`,
    head: ["Time", "Tipped", "Laid", "Waiting", "Laid behind tipped, min"],
  },

  debt: { now: (clock: string, debt: string) => `${clock}: ${debt} owed.` },

  trucks: {
    title: "One line for each truck",
    what: "Slope is speed, flat is standing; a thick stretch is waiting. Marks along the bottom: a chopper waits for a truck.",
    places: { tip: "tip", queue: "queue", scale: "scale", road: "road", wait: "wait", fill: "fill" },
    now: (clock: string, parts: readonly string[]) => `${clock}: ${parts.join(", ")}.`,
    count: { field: (n: number) => `${n} waiting in the field`, filling: (n: number) => `${n} being filled`, loaded: (n: number) => `${n} on the road loaded`, storage: (n: number) => `${n} waiting at the storage`, tipping: (n: number) => `${n} tipping`, empty: (n: number) => `${n} driving back`, stopped: (n: number) => `${n} stopped` },
    one: (name: string, does: string, since: string) => `${name}: ${does} since ${since}`,
    summary: (trucks: number, loads: number, waiting: string) => `${many(trucks, "truck")}, a line for each through field, road, queue and tip: ${many(loads, "load")}, and ${waiting} of waiting in field, lane, scale and queue all together.`,
    head: ["Truck", "Load", "In the field", "Filled from", "Leaves", "At the storage", "Tips from", "Empty", "Waited, min"],
    chopper: (name: string) => `${name} waits`,
  },

  section: {
    title: "Density with depth",
    what: "The cross-section where the forage stands highest, and the density from the top down by the relation.",
    head: ["Storage", "Depth, from", "to", "Density"],
    depth: "depth",
    target: (value: string) => `target ${value}`,
    width: (width: string) => `${width} wide`,
    measured: (name: string | null, shown: string, measured: string) =>
      `${name === null ? "" : `${name}: `}The bottom comes out ${shown} denser than the top; measured in herbage bunkers were ${measured}, so the top is likely looser than drawn and the bottom denser. `
      + `The centre was ${CENTRE_OVER_WALL} % denser there than the strip beside the wall, which is not drawn.`,
    shallow: "Too shallow for a profile.",
    summary: (name: string, top: string, bottom: string) => `${name}: cross-section with density rising from ${top} at the top to ${bottom} at the bottom.`,
  },

  lifts: {
    title: "How dense, and how sure",
    bars: "lifts of the day shown, by mass",
    loosest: (value: string) => `loosest tenth ${value}`,
    loosestIn: (name: string | null, value: string) => `${name === null ? "The" : `${name}: the`} loosest tenth of the dry matter lies at ${value}.`,
    within: "Lifts that differ by less than the thin line is long differ by less than the relation can tell.",
    summary: (name: string, least: string, most: string, under: string, loosest: string) => `${name}: lifts from ${least} to ${most}, ${under} of the mass under target, the loosest tenth at ${loosest}.`,
    head: ["Storage", "Density, from", "to", "Mass", "Share, %"],
    sure: "How sure, in figures",
    spread: "Lifts by density",
  },

  hours: {
    title: "Where the hours went",
    kinds: { work: "working", move: "driving and turning", wait: "waiting", off: "break or broken down" },
    summary: (machines: number, longest: string) => `Hours of ${many(machines, "machine")} by what each did, a bar a machine; the longest is ${longest} long.`,
    mean: (days: number) => (days === 1 ? "Hours of the one day." : `Mean hours of ${days} days.`),
    h: "h",
    head: { machine: "Machine", loads: "Loads", tonnes: "Carried", whole: "All, h" },
  },

  money: {
    summary: (total: string, largest: string) => `What the farm pays, a bar a line, ${total} in all; the largest is ${largest}.`,
    beside: "beside the total",
  },

  from: {
    title: "Where from",
    numbers: "With the numbers",
    rests: "Rests on",
    inside: "Inside it.",
    noRange: "None: counted or reckoned in the rehearsal, from no survey.",
    cautions: "Caution",
    counted: "Counted in the rehearsal; nothing to work out by hand.",
  },
  caution: {
    "roll-over": "roll-over", "people-on-foot": "people on foot", "overhead-wires": "overhead wires", "silo-gas": "silo gas", "face-collapse": "open face", "trucks-on-slopes": "trucks on slopes",
    "steep-slope": "steep slope", narrow: "narrow storage", overfilled: "overfilled", "above-reach": "above the unloader's reach", "wall-rating": "wall", effluent: "juice", "road-weights": "weights on the road", "long-shift": "long day",
  } as Readonly<Record<string, string>>,
} as const;

export const pictures = spoken(PICTURES);
