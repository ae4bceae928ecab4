/**
 * What a scenario may hold: counts, sizes and ranges, each stated once, all assumptions of this project. They are there to
 * refuse slips of the pen (a speed of 280 km/h, a field of 14,000 ha) and to keep every run bounded, not to judge a plan.
 */
import type { DimensionName } from "./units.ts";

export const LIMITS = {
  /** characters of a scenario file */ text: 1_000_000,
  /** words, numbers, brackets, marks and lines of a scenario file: the work of reading grows with them; the largest scenario needs half */ marks: 30_000,
  /** values in a document */ values: 20_000,
  /** lists and groups inside each other; a scenario needs six */ depth: 16,
  /** uses of an anchor */ aliases: 100,
  /** problems told at once */ problems: 25,

  fields: 200,
  choppers: 20,
  truckKinds: 50,
  trucks: 500,
  storages: 20,
  tractors: 50,
  /** days of a campaign */ campaignDays: 60,
  /** days between measuring the dry matter and cutting */ campaignWait: 60,
  breaks: 10,
  weighingLanes: 10,
  tippingPlaces: 20,
  coverCrew: 100,
  /** values of one thing that a search goes through */ searched: 20,
  /** characters of a name */ name: 80,
  /** expected in a day */ loads: 100_000,
  /** expected in a day */ rows: 100_000,
} as const;

/** The range of one quantity, in a person's units: `over` leaves the end out, `from` and `upTo` include it. */
export interface Range {
  readonly dimension: DimensionName;
  readonly over?: string;
  readonly from?: string;
  readonly upTo: string;
  /** one phrase for the schema: what it is */ readonly about: string;
}

/** Every quantity of the file by its place, `[]` standing for any item of a list. */
export const RANGES = {
  "crop.dryMatter": { dimension: "share", from: "10 %", upTo: "90 %", about: "Dry matter, a share of the fresh mass." },
  "crop.moisture": { dimension: "share", from: "10 %", upTo: "90 %", about: "Moisture; 66 % is the same as a dryMatter of 34 %." },
  "crop.chopLength": { dimension: "chop", over: "0 mm", upTo: "200 mm", about: "Length of cut." },
  "crop.looseDensity": { dimension: "density", from: "20 kg/m3", upTo: "1000 kg/m3", about: "Fresh mass per volume as it lies in the truck." },

  "fields[].area": { dimension: "area", over: "0 ha", upTo: "5000 ha", about: "Area to cut." },
  "fields[].yield": { dimension: "yield", over: "0 t/ha", upTo: "200 t/ha", about: "Fresh yield as harvested." },
  "fields[].distance": { dimension: "distance", from: "0 km", upTo: "200 km", about: "One way by road to the storage." },
  "fields[].rowLength": { dimension: "length", from: "5 m", upTo: "10 km", about: "Length of a row between two turns." },
  "fields[].rows": { dimension: "bearing", from: "0 deg", upTo: "360 deg", about: "Which way the rows run across the outline, clockwise from north; along its longest side when left out." },
  "fields[].dryMatter": { dimension: "share", from: "10 %", upTo: "90 %", about: "Dry matter of this field, when it differs from the crop's." },
  "fields[].moisture": { dimension: "share", from: "10 %", upTo: "90 %", about: "Moisture of this field, when it differs from the crop's." },
  "fields[].opening.time": { dimension: "time", over: "0 min", upTo: "5 h", about: "How long the first rounds take." },
  "fields[].opening.pace": { dimension: "share", over: "0 %", upTo: "100 %", about: "The pace of the first rounds, a share of the usual." },

  "choppers[].width": { dimension: "length", over: "0 m", upTo: "20 m", about: "Working width." },
  "choppers[].speed": { dimension: "speed", over: "0 km/h", upTo: "30 km/h", about: "Speed in the row." },
  "choppers[].throughput": { dimension: "flow", over: "0 t/h", upTo: "1000 t/h", about: "The most it can chop, fresh." },
  "choppers[].turnTime": { dimension: "time", from: "0 s", upTo: "30 min", about: "A turn at the row's end." },
  "choppers[].changeover": { dimension: "time", from: "0 s", upTo: "30 min", about: "From one truck to the next." },
  "choppers[].move": { dimension: "time", from: "0 min", upTo: "12 h", about: "From one field to the next." },
  "choppers[].cost": { dimension: "perHour", from: "0 per h", upTo: "1000000 per h", about: "The machine, without its driver and fuel." },
  "choppers[].power": { dimension: "power", over: "0 kW", upTo: "2000 kW", about: "Rated power." },

  "trucks[].load": { dimension: "mass", over: "0 t", upTo: "100 t", about: "The most it may carry, fresh." },
  "trucks[].volume": { dimension: "volume", over: "0 m3", upTo: "300 m3", about: "Room in the body, level." },
  "trucks[].loaded": { dimension: "speed", over: "0 km/h", upTo: "100 km/h", about: "Road speed, loaded." },
  "trucks[].empty": { dimension: "speed", over: "0 km/h", upTo: "100 km/h", about: "Road speed, empty." },
  "trucks[].tip": { dimension: "time", from: "0 min", upTo: "5 h", about: "Backing up, tipping, pulling away." },
  "trucks[].cost": { dimension: "perHour", from: "0 per h", upTo: "1000000 per h", about: "The machine, without its driver and fuel." },
  "trucks[].power": { dimension: "power", over: "0 kW", upTo: "2000 kW", about: "Rated power." },

  "lane.length": { dimension: "length", over: "0 m", upTo: "20 km", about: "The single-lane stretch, at the storage end of the road." },
  "lane.speed": { dimension: "speed", over: "0 km/h", upTo: "100 km/h", about: "Speed on it." },
  "lane.meeting": { dimension: "time", from: "0 s", upTo: "30 min", about: "Lost each time the direction changes." },
  "weighing.time": { dimension: "time", from: "0 s", upTo: "1 h", about: "On the scale." },

  "storage[].width": { dimension: "length", over: "0 m", upTo: "200 m", about: "Width at the base." },
  "storage[].length": { dimension: "length", over: "0 m", upTo: "1 km", about: "Length at the base." },
  "storage[].height": { dimension: "length", over: "0 m", upTo: "15 m", about: "Wall height of a bunker, planned height of a pile." },
  "storage[].topWidth": { dimension: "length", over: "0 m", upTo: "200 m", about: "Pile only: width of the level top." },
  "storage[].meanDepth": { dimension: "length", over: "0 m", upTo: "15 m", about: "Mean depth, when it is known better than from shape and mass." },
  "storage[].apron": { dimension: "mass", over: "0 t", upTo: "5000 t", about: "What fits in front, not yet spread." },
  "storage[].unloaderReach": { dimension: "length", over: "0 m", upTo: "20 m", about: "How high the unloader reaches." },
  "storage[].wallRating": { dimension: "pressure", over: "0 kPa", upTo: "500 kPa", about: "The pressure the walls are built for." },
  "storage[].life": { dimension: "years", over: "0 years", upTo: "200 years", about: "Years over which the capital cost is spread." },

  "packing.layer": { dimension: "thickness", from: "2 cm", upTo: "40 cm", about: "Loose layer as spread." },
  "packing.finish": { dimension: "time", from: "0 min", upTo: "12 h", about: "Rolling after the last lift." },
  "tractors[].mass": { dimension: "machineMass", over: "0 t", upTo: "60 t", about: "As it works, ballast included." },
  "tractors[].spreads": { dimension: "flow", over: "0 t/h", upTo: "2000 t/h", about: "Fresh mass it spreads at a 15 cm layer; leave it out for a tractor that only packs." },
  "tractors[].rolling": { dimension: "share", over: "0 %", upTo: "100 %", about: "Share of its time on the clamp that it really rolls." },
  "tractors[].maxMass": { dimension: "machineMass", over: "0 t", upTo: "60 t", about: "The maker's limit." },
  "tractors[].width": { dimension: "length", over: "0 m", upTo: "10 m", about: "Rolled width." },
  "tractors[].blade": { dimension: "length", over: "0 m", upTo: "10 m", about: "Width of the blade." },
  "tractors[].power": { dimension: "power", over: "0 kW", upTo: "2000 kW", about: "Rated power." },
  "tractors[].cost": { dimension: "perHour", from: "0 per h", upTo: "1000000 per h", about: "The machine, without its driver and fuel." },
  "breakdowns.between": { dimension: "hours", from: "10 min", upTo: "10000 h", about: "Mean working time between breakdowns." },
  "breakdowns.repair": { dimension: "hours", over: "0 min", upTo: "100 h", about: "Mean time to repair." },

  "targets.dryDensity": { dimension: "density", over: "0 kg/m3", upTo: "600 kg/m3", about: "Dry matter per volume to reach." },
  "targets.poreSpace": { dimension: "share", over: "0 %", upTo: "95 %", about: "Pore space to stay under." },
  "shift.breaks[].for": { dimension: "time", over: "0 min", upTo: "12 h", about: "Length of the break." },
  "herd.intake": { dimension: "intake", over: "0 kg/day", upTo: "50 kg/day", about: "Dry matter from this storage per head." },
  "covering.plain": { dimension: "perSurface", from: "0 per m2", upTo: "1000000 per m2", about: "Plain film, with what holds it down." },
  "covering.barrier": { dimension: "perSurface", from: "0 per m2", upTo: "1000000 per m2", about: "Oxygen-barrier film, with what holds it down." },
  "covering.pace": { dimension: "coverPace", over: "0 m2/h", upTo: "100000 m2/h", about: "Surface that the cover crew closes together." },
  "search.pace": { dimension: "share", from: "20 %", upTo: "200 %", about: "Share of the choppers' pace as written." },
  "search.targets.waiting": { dimension: "share", from: "0 %", upTo: "100 %", about: "The most of its field time that the choppers may stand." },
  "search.targets.relation": { dimension: "share", from: "1 %", upTo: "99 %", about: "The chance that the published relation itself must give the target." },
  "campaign.drying": { dimension: "drying", from: "0 % per day", upTo: "10 % per h", about: "Percentage points of moisture that the crop loses: per day while it stands (corn, sorghum), per h once it is mown." },
  "campaign.rain": { dimension: "share", from: "0 %", upTo: "100 %", about: "The chance that a day is lost to rain." },
  "now.mass": { dimension: "mass", from: "0 t", upTo: "100000 t", about: "Fresh mass." },
  "now.cut": { dimension: "share", from: "0 %", upTo: "100 %", about: "Share of the field that is cut." },
  "now.density": { dimension: "density", over: "0 kg/m3", upTo: "600 kg/m3", about: "Dry matter per volume of what lies packed." },
  labour: { dimension: "perHour", from: "0 per h", upTo: "1000000 per h", about: "One person: a driver, or one of the cover crew." },
  fuelPrice: { dimension: "perLitre", from: "0 per L", upTo: "1000000 per L", about: "Fuel." },
  feedValue: { dimension: "perTonne", from: "0 per t", upTo: "1000000 per t", about: "Value of the feed, per mass of dry matter." },
  "price.by-ton": { dimension: "perTonne", from: "0 per t", upTo: "1000000 per t", about: "Price of the chopper's work by fresh mass." },
  "price.by-area": { dimension: "perHectare", from: "0 per ha", upTo: "1000000 per ha", about: "Price of the chopper's work by area." },
} as const satisfies Record<string, Range>;

export type RangeName = keyof typeof RANGES;

/** Largest coefficient of variation: beyond it a mean says nothing any more. */
export const LARGEST_CV = 3;
/** A normal factor may fall below zero; up to this coefficient of variation that is three standard deviations away. */
export const LARGEST_NORMAL_CV = 1 / 3;
/** A uniform factor from zero to twice its mean. */
export const LARGEST_UNIFORM_CV = 1 / Math.sqrt(3);
/** Stages of an Erlang distribution. */
export const MOST_STAGES = 1000;
