/** Texts of the day sheet: what the crew reads in the yard, in the order of the day. */
import { spoken } from "../english.ts";
import { many } from "./many.ts";

const CREW = {
  title: (plan: string) => `Day sheet: ${plan}`,
  print: "Print this sheet",
  screen: "Made for paper: one sheet, both sides. Lines are to be filled in by hand.",
  blanks: { date: "Date", lead: "In charge", phone: "Phone", radio: "Radio channel", emergency: "Emergency number", place: "Where help finds us" },

  day: {
    title: "The day",
    start: (start: string, breaks: string, end: string) => `Start ${start}. ${breaks === "" ? "No common rest is planned: agree on one." : `Rest ${breaks}.`} Cutting stops at ${end} at the latest.`,
    rest: (at: string, length: string) => `at ${at} for ${length}`,
    finish: (low: string, high: string, mean: string) => `Packed and rolled between ${low} and ${high} on 8 of 10 days, about ${mean} on the average.`,
    finishOne: (at: string) => `Packed and rolled about ${at}. This plan has no chance in it: a real day spreads around that.`,
    home: (first: string, last: string) => (first === last ? `The trucks are free from about ${first}.` : `The first truck is free from about ${first}, the last from ${last}.`),
  },

  fields: {
    title: "Fields, in this order",
    head: { field: "Field", chopper: "Chopper", area: "Area", mass: "Crop", loads: "Loads", road: "Road", start: "About", moisture: "Moisture, %", gate: "Gate", wires: "Wires" },
    none: "if time",
    note: "Times are of one day out of the rehearsal, the one with the median finish.",
  },

  road: {
    title: "On the road",
    spacing: (trucks: string, minutes: string) => `${trucks}. A load comes every ${minutes}: keep that distance, never drive up in a bunch.`,
    trucks: (count: number, kind: string, load: string) => `${count} × ${kind}, ${load} planned`,
    round: (minutes: string) => `A round takes about ${minutes}.`,
    lane: (length: string) => `Single lane for ${length} before the clamp. Who gives way:`,
    laneRule: "Narrow places, and who gives way:",
    scale: (time: string, lanes: number) => `Every load is weighed, ${time} each${lanes > 1 ? `, ${lanes} scales` : ""}.`,
    legal: "Legal load of each truck, from its papers, before the first trip:",
    driver: "driver",
    atMost: "at most",
  },

  clamp: {
    title: (name: string) => `At the clamp: ${name}`,
    head: { tractor: "Tractor", mass: "Mass", job: "Does", driver: "Driver", relief: "Swap with, at", fuel: "Fuel at" },
    jobs: { pushes: "pushes, packs when free", packs: "packs all the time" },
    minutes: (minutes: string, load: string) => `${minutes} of packing for each load of ${load} with this crew, spreading included. Less, and it is buried loose.`,
    never: "This crew does not reach the target, however long it rolls. Agree before the start on what is good enough.",
    keepsUp: "At the planned pace the crew keeps up with that.",
    behind: (every: string) => `Loads come every ${every}: at that pace the crew does not keep up. The rule for then stands below.`,
    layer: (layer: string, layers: number) => `Layer: ${layer} loose, a mark on the stick. A load makes ${many(layers, "layer")} over the whole slope.`,
    covers: (low: string, high: string, wanted: string) => `Wheels go over each spot ${low} to ${high} times in that; ${wanted} are wanted.`,
    wedge: (run: string, along: string, rise: string, wall: string) => `Slope no steeper than 1:${run}. Ten paces along (${along}) rise by ${rise} at the most; to a height of ${wall} it takes`,
    paces: (paces: number) => `${paces} paces.`,
    hurry: (what: string) => `A full apron laid in one go: ${what}`,
    loosest: (density: string, mean: string) => `The loosest tenth is rehearsed at ${density}, the mean at ${mean}: watch the first loads and the rush hours.`,
  },

  rules: {
    title: "Stop rules",
    lie: (loads: number, mass: string, name: string | null) => `${loads === 1 ? "one load lies" : `${loads} loads lie`} on the apron${name === null ? "" : ` of ${name}`} (${mass})`,
    apron: {
      always: (lie: string) => `Stop the chopper when ${lie}.`,
      "until-full": (lie: string) => `Hold the trucks no longer when ${lie}: the apron is full. Bury until half of it is gone.`,
      never: (lie: string) => `Let the chopper go on even when packing is behind. Stop it only when ${lie}: no room is left for those on the road.`,
    },
    behind: {
      hold: "When packing falls behind: hold the trucks until the lift is packed.",
      bury: "When packing falls behind: keep the trucks moving. Push each load up as soon as it lies there, roll until the next one comes, and keep the layer to the mark. What is buried is loose; a layer over the mark is looser still.",
      "hold-then-bury": "When packing falls behind: hold the trucks until the lift is packed, as long as the apron has room. What is buried after that is loose.",
      ease: "When packing falls behind: slow the chopper down to the crew's pace.",
    },
    wet: (moisture: string) => `Stop the chopper over ${moisture} moisture: too wet, juice runs.`,
    dry: (moisture: string) => `Under ${moisture} moisture: too dry to pack well. Ask before going on.`,
    window: "Window:",
    pile: "A pile has no window of its own in print; this is the bunker's.",
    chop: (length: string) => `Chop length ${length}. Checked at, and found:`,
    rain: "Rain: stop when wheels carry mud to the clamp; roll what lies, lay the front sheet. Decided by:",
    dark: "Dark: nobody on the slope without working lights. Decided by:",
  },

  cover: {
    title: "After the last load",
    roll: (length: string) => `Roll on for ${length}, all tractors.`,
    cover: (name: string, from: string, until: string, film: string, sheets: number, width: string, tyres: string, bags: string, people: number) =>
      `${name}: cover from about ${from} to ${until} with ${many(people, "person", "people")}. Film ${film}, ${many(sheets, "sheet")} ${width} wide; ${tyres} tyres, or ${bags} bags.`,
    reckoned: (tyre: string, bag: string, overlap: string, mark: string, sheet: string) =>
      `Reckoned with tyre beside tyre, ${tyre} each, or bag to bag on the joints and all round, ${bag} each, and ${overlap} of film over each joint and the edge: ${mark}. The width of a sheet: ${sheet}.`,
    none: (name: string) => `${name}: no cover is planned.`,
    ready: "Film, weights and people are there from:",
  },

  log: {
    title: "What really happened",
    note: "A line an hour does. It teaches the plan for next year.",
    head: (mass: string) => ["Time", "Truck", "Load", "Field", `Mass, ${mass}`, "Moisture, %", "Apron, loads", "Remarks"],
    finish: ["First load tipped", "Last load tipped", "Rolled until", "Sealed at"],
  },

  stick: (length: string) => `This bar is ${length} long when printed at full size: hold the stick to it.`,

  cautions: {
    title: "Before anybody starts",
    local: "Local codes, the makers' limits and licensed practice go before everything on this sheet.",
  },

  address: {
    title: "The plan behind this sheet",
    made: (rehearsals: number, engine: string, seed: number, hash: string) => `Rehearsed on ${many(rehearsals, "day")}, engine ${engine}, luck ${seed}, plan ${hash}.`,
    long: (letters: string) => `The address of this plan has ${letters} letters: too long for paper. Keep its file.`,
    here: "This address opens on this machine only. Started with --host 0.0.0.0, Clampside lets phones and other machines in.",
    square: "The address of this plan, to photograph",
  },
} as const;

export const crewWords = spoken(CREW);
