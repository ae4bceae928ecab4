/**
 * A scenario as a person writes it: every key of the file, once. Only `fields`, `choppers`, `trucks`, `storage` and `packing`
 * must be there; what else is left out is filled in from defaults.ts.
 */
import { z } from "zod";
import { writtenCampaign } from "./campaign.ts";
import { ROAD_FACTORS } from "../ground/distance.ts";
import { LIMITS, MOST_STAGES } from "./limits.ts";
import { choice, clock, count, factor, group, label, measured, orNone, place, several, slope, sum, switches, turned } from "./pieces.ts";
import { ACTIVITIES, BEHIND_RULES, CROP_KINDS, LOSS_SWITCHES, PAID_BY, WEDGE_ROOMS } from "./types.ts";
import { found } from "./words.ts";

const breakdowns = orNone(
  group({ between: measured("breakdowns.between"), repair: measured("breakdowns.repair") }, "Breakdowns by working time, exponential."),
  "Breakdowns, or none.",
).meta({ id: "breakdowns" });

/** A name, a list of names, or (where the place allows it) whole things: the message for everything else. */
const names = (what: string) => ({ error: ({ input }: { readonly input?: unknown }) => `is ${found(input)}: ${what} would do` });

const [area, distance] = [measured("fields[].area"), measured("fields[].distance")];

const field = group({
  name: label("Name of the field.").optional(),
  area: area.optional(),
  yield: measured("fields[].yield"),
  distance: distance.optional(),
  rowLength: measured("fields[].rowLength").optional(),
  outline: z.union([
    z.string(),
    z.looseObject({ type: choice(["Polygon", "MultiPolygon", "Feature"], "As GeoJSON names it.") }),
  ], names("a GeoJSON Polygon, MultiPolygon or Feature, or for the command line the name of a map file"))
    .meta({ description: "Its boundary, from which area and row length are measured where they are left out: GeoJSON; or for the command line a map file beside the scenario and the feature in it by name or number, as in fields.geojson#Long Strip." }).optional(),
  rows: measured("fields[].rows").optional(),
  gate: place("Where trucks leave it; the middle of the outline when left out.").optional(),
  roadFactor: factor(...ROAD_FACTORS, "Length of the road over the straight line to the storage, where the distance is left out.").optional(),
  dryMatter: measured("fields[].dryMatter").optional(),
  moisture: measured("fields[].moisture").optional(),
  storage: z.union([label("Name of a storage."), several(label("Name of a storage."), LIMITS.storages, "names of storages")], names("a storage's name or a list of names"))
    .meta({ description: "Where its crop goes, first choice first; all storages in the file's order when left out." }).optional(),
  chopper: label("Name of the only chopper that may cut it.").optional(),
  owner: label("Whose field it is.").optional(),
  opening: group({ time: measured("fields[].opening.time"), pace: measured("fields[].opening.pace") }, "Opening the field: the first rounds are slower.").optional(),
}, "One field.").superRefine((field, context) => {
  const missing = (key: "area" | "distance", schema: typeof area) => context.addIssue({ code: "custom", path: [key], message: schema.safeParse(undefined).error!.issues[0]!.message });
  if (field.area === undefined && field.outline === undefined) missing("area", area);
  if (field.distance === undefined && field.outline === undefined && field.gate === undefined) missing("distance", distance);
}).meta({ id: "field" });

const chopper = group({
  name: label("Name of the chopper.").optional(),
  width: measured("choppers[].width"),
  speed: measured("choppers[].speed"),
  throughput: measured("choppers[].throughput"),
  turnTime: measured("choppers[].turnTime").optional(),
  changeover: measured("choppers[].changeover").optional(),
  move: measured("choppers[].move").optional(),
  cost: measured("choppers[].cost").optional(),
  paid: choice(PAID_BY, "How its work is paid.").optional(),
  price: z.string({ error: ({ input }) => `is ${found(input)}: a price such as "12 per t" or "90 per ha" would do` })
    .meta({ description: "Price of its work: per t or per ton when paid by-ton, per ha or per acre when paid by-area.", examples: ["12 per t", "90 per ha"] }).optional(),
  breakdowns: breakdowns.optional(),
  power: measured("choppers[].power").optional(),
}, "One chopper.").meta({ id: "chopper" });

const truck = group({
  kind: label("Name of this kind of truck.").optional(),
  count: count(1, LIMITS.trucks, "How many of them."),
  load: measured("trucks[].load").optional(),
  volume: measured("trucks[].volume").optional(),
  loaded: measured("trucks[].loaded").optional(),
  empty: measured("trucks[].empty").optional(),
  tip: measured("trucks[].tip").optional(),
  chopper: label("Name of the chopper they are tied to; pooled when left out.").optional(),
  lends: turned("Tied trucks may cross over to another chopper.").optional(),
  tipsOnPile: turned("They tip on the pile itself.").optional(),
  cost: measured("trucks[].cost").optional(),
  breakdowns: breakdowns.optional(),
  power: measured("trucks[].power").optional(),
}, "One kind of truck; it carries the lesser of load and volume, and at least one of the two must be there.").meta({ id: "truck" });

const tractorKeys = {
  name: label("Name of the tractor.").optional(),
  mass: measured("tractors[].mass"),
  spreads: measured("tractors[].spreads").optional(),
  rolling: measured("tractors[].rolling").optional(),
  blade: measured("tractors[].blade").optional(),
  maxMass: measured("tractors[].maxMass").optional(),
  width: measured("tractors[].width").optional(),
  power: measured("tractors[].power").optional(),
  hireable: turned("More like it could be hired.").optional(),
  cost: measured("tractors[].cost").optional(),
  breakdowns: breakdowns.optional(),
};
const tractor = group(tractorKeys, "One tractor on the clamp. A tractor that spreads packs whenever it is not pushing.").meta({ id: "tractor" });

const storage = group({
  name: label("Name of the storage.").optional(),
  form: choice(["bunker", "pile"], "Walled bunker, or drive-over pile."),
  width: measured("storage[].width"),
  length: measured("storage[].length"),
  height: measured("storage[].height"),
  wedge: slope("Slope of the working wedge.").optional(),
  sideSlope: slope("Pile only: slope of sides and ends.").optional(),
  topWidth: measured("storage[].topWidth").optional(),
  meanDepth: measured("storage[].meanDepth").optional(),
  apron: measured("storage[].apron").optional(),
  tippingPlaces: count(1, LIMITS.tippingPlaces, "Trucks that can tip at once.").optional(),
  tipsOnPile: turned("Trucks tip on the pile itself.").optional(),
  tractors: several(
    z.union([label("Name of a tractor of packing.tractors."), tractor], names("a tractor's name or a group of keys")), LIMITS.tractors, "tractors",
  ).optional(),
  cover: choice(["plain", "barrier", "none"], "Plain film, oxygen-barrier film, or none.").optional(),
  unloaderReach: measured("storage[].unloaderReach").optional(),
  wallRating: measured("storage[].wallRating").optional(),
  capitalCost: sum("The whole investment, in the scenario's currency.").optional(),
  life: measured("storage[].life").optional(),
  at: place("Where it stands: gives the distance of every field that has an outline or a gate and no distance of its own.").optional(),
}, "One storage.").meta({ id: "storage" });

const shareOrNumber = z.union([z.number(), z.string()], names("a percentage or a decimal"));

const shape = group({
  shape: choice(["exponential", "lognormal", "gamma", "erlang", "weibull", "triangular", "uniform", "normal", "fixed"], "Kind of distribution."),
  cv: shareOrNumber.meta({ description: "Coefficient of variation: lognormal, gamma, weibull, normal, uniform." }).optional(),
  stages: count(1, MOST_STAGES, "Erlang: number of stages.").optional(),
  low: shareOrNumber.meta({ description: "Triangular and uniform: lower end, in any measure; only the shape counts." }).optional(),
  mode: shareOrNumber.meta({ description: "Triangular: most frequent value." }).optional(),
  high: shareOrNumber.meta({ description: "Triangular and uniform: upper end." }).optional(),
}, "A distribution about the nominal value; its mean is always the nominal value.").meta({ id: "shape" });

const spread = z.union([z.number(), z.string(), shape], names("a coefficient of variation such as 30 %, none, or a distribution"))
  .meta({ description: "Coefficient of variation (lognormal), none, or a distribution." }).optional();

const variation = z.union([
  z.enum(["none", "typical"]),
  group(Object.fromEntries(ACTIVITIES.map((activity) => [activity, spread])) as Record<(typeof ACTIVITIES)[number], typeof spread>, "By activity; those left out do not vary."),
], names("none, typical, or a group of activities")).meta({ description: "How much times, loads and yields vary." });

const search = group({
  trucks: group({
    kind: label("Which kind of truck; the one of which there are most when left out.").optional(),
    from: count(1, LIMITS.trucks, "The fewest."),
    to: count(1, LIMITS.trucks, "The most."),
  }, "How many trucks.").optional(),
  tractors: group({
    storage: label("At which storage; must be there when there are several.").optional(),
    from: count(0, LIMITS.tractors, "The fewest packing tractors beside the blades."),
    to: count(0, LIMITS.tractors, "The most."),
    list: several(
      group({ ...tractorKeys, count: count(1, LIMITS.tractors, "So many alike could be had; 1 when left out.").optional() }, "A tractor that could be had.").meta({ id: "searchTractor" }),
      LIMITS.tractors, "tractors that could be had",
    ),
  }, "Which packing tractors, in place of the scenario's own that do not spread.").optional(),
  layers: several(measured("packing.layer"), LIMITS.searched, "layers").optional(),
  rules: several(choice(BEHIND_RULES, "What the crew does when packing falls behind."), BEHIND_RULES.length, "rules").optional(),
  pace: several(measured("search.pace"), LIMITS.searched, "shares of the choppers' pace").optional(),
  targets: group({
    finishBy: clock("The clamp is closed by then; the end of the shift when left out.").optional(),
    waiting: measured("search.targets.waiting").optional(),
    relation: measured("search.targets.relation").optional(),
  }, "What a plan must reach besides the target density.").optional(),
}, "The plans that a search for the cheapest crew goes through.");

export const writtenScenario = group({
  name: label("Name of the day.").optional(),
  crop: group({
    kind: choice(CROP_KINDS, "The crop.").optional(),
    dryMatter: measured("crop.dryMatter").optional(),
    moisture: measured("crop.moisture").optional(),
    chopLength: measured("crop.chopLength").optional(),
    looseDensity: measured("crop.looseDensity").optional(),
  }, "The crop.").optional(),
  fields: several(field, LIMITS.fields, "fields"),
  choppers: several(chopper, LIMITS.choppers, "choppers"),
  trucks: several(truck, LIMITS.truckKinds, "kinds of truck"),
  lane: orNone(
    group({ length: measured("lane.length"), speed: measured("lane.speed"), meeting: measured("lane.meeting").optional() }, "A single-lane stretch at the storage end of the road."),
    "A single-lane stretch, or none.",
  ).optional(),
  weighing: orNone(
    group({ time: measured("weighing.time"), lanes: count(1, LIMITS.weighingLanes, "Trucks weighed at once.").optional() }, "A scale on the way to the storage."),
    "A scale, or none.",
  ).optional(),
  storage: several(storage, LIMITS.storages, "storages"),
  packing: group({
    tractors: several(tractor, LIMITS.tractors, "tractors").optional(),
    layer: measured("packing.layer").optional(),
    layerTerm: turned("Off: the relation between packing and density always sees a 15 cm layer.").optional(),
    wedgeRoom: choice(WEDGE_ROOMS, "How much of the crew finds room on the wedge.").optional(),
    whenBehind: choice(BEHIND_RULES, "What the crew does when packing falls behind.").optional(),
    finish: measured("packing.finish").optional(),
  }, "The packing crew and how it works."),
  targets: group({ dryDensity: measured("targets.dryDensity").optional(), poreSpace: measured("targets.poreSpace").optional() }, "What the clamp should reach.").optional(),
  shift: group({
    start: clock("Start of the shift.").optional(),
    end: clock("End of the shift, on the same day.").optional(),
    breaks: z.array(group({ at: clock("Start of the break."), for: measured("shift.breaks[].for") }, "One break."), names("a list of breaks, {at: \"12:00\", for: 30 min},"))
      .max(LIMITS.breaks, { error: `is too long: up to ${LIMITS.breaks} breaks would do` })
      .meta({ description: `Breaks of everybody, up to ${LIMITS.breaks}.` }).optional(),
  }, "Working hours.").optional(),
  breakdowns: orNone(
    group({ choppers: breakdowns.optional(), trucks: breakdowns.optional(), tractors: breakdowns.optional() }, "Breakdowns of all machines of a kind that have none of their own."),
    "Breakdowns by kind of machine, or none.",
  ).optional(),
  variation: variation.optional(),
  herd: group({
    head: count(1, 1_000_000, "Animals fed from here."),
    intake: measured("herd.intake"),
    season: choice(["winter", "summer"], "Season of feeding.").optional(),
  }, "The animals that will eat it.").optional(),
  covering: group({
    plain: measured("covering.plain").optional(),
    barrier: measured("covering.barrier").optional(),
    people: count(0, LIMITS.coverCrew, "People who cover, besides the drivers.").optional(),
    pace: measured("covering.pace").optional(),
  }, "Film and the crew that lays it.").optional(),
  losses: switches(LOSS_SWITCHES, "Lines of the loss ledger that count, all together or one by one; a line that is off is shown and not counted.").optional(),
  search: search.optional(),
  campaign: writtenCampaign.optional(),
  labour: measured("labour").optional(),
  fuelPrice: measured("fuelPrice").optional(),
  feedValue: measured("feedValue").optional(),
  currency: label("Currency of every sum.").optional(),
  seed: count(0, Number.MAX_SAFE_INTEGER, "Which luck is drawn.").optional(),
}, "One silage harvest day. A quantity is a number with a unit in one string; t is the metric tonne, ton the US short ton.");

export type WrittenScenario = z.infer<typeof writtenScenario>;
export type WrittenField = WrittenScenario["fields"][number];
export type WrittenChopper = WrittenScenario["choppers"][number];
export type WrittenTruck = WrittenScenario["trucks"][number];
export type WrittenStorage = WrittenScenario["storage"][number];
export type WrittenTractor = NonNullable<WrittenScenario["packing"]["tractors"]>[number];
export type WrittenSearch = NonNullable<WrittenScenario["search"]>;
export type WrittenBreakdowns = NonNullable<WrittenChopper["breakdowns"]>;
export type WrittenVariation = NonNullable<WrittenScenario["variation"]>;
