/** The findings of a rehearsal as the API gives them. The compiler holds these schemas to the types that the engine fills. */
import { z } from "zod";
import type { Findings, Measure, RestOfDay } from "../../sim/findings/types.ts";
import { LOSS_CAUSES, MEASURES, STATIONS } from "../../sim/findings/types.ts";
import type { MeasureName } from "../../sim/findings/types.ts";

/** A schema that gives exactly what the type says, or does not compile. */
type Of<T> = z.ZodType<T>;

/** That, or null. Not by zod's own word: of a schema with a name the document would then ask that it be both. */
export const orNull = <Schema extends z.ZodType>(schema: Schema) => z.union([schema, z.null()]);

const share = () => z.number().min(0).max(1);
const pair = () => z.tuple([z.number(), z.number()]);
export const names = <Name extends string>(all: readonly Name[]) => z.enum(all as readonly [Name, ...Name[]]);

export const MEASURE_NAMES = Object.keys(MEASURES) as MeasureName[];

export const measure = z.object({
  mean: z.number(), sd: z.number(),
  low: z.number().describe("95 % confidence limits of the mean: luck that more rehearsals average out."), high: z.number(),
  p10: z.number().describe("10th to 90th percentile between days."), p90: z.number(),
  unit: z.string(),
}).meta({ id: "Measure", description: "One measured figure over the rehearsals." }) satisfies Of<Measure>;

export const measures = z.partialRecord(z.enum(MEASURE_NAMES as [MeasureName, ...MeasureName[]]), measure)
  .meta({ id: "Measures", description: `By name: ${MEASURE_NAMES.map((name) => `${name} (${MEASURES[name]})`).join(", ")}. A measure that a day does not give is absent. Of a day taken up with \`from\`, finishedAt counts from then, and rest.closedAt tells the time of day.` });

export const span = z.object({ low: z.number(), central: z.number(), high: z.number() })
  .meta({ id: "Span", description: "A figure over the range that its sources leave open. The luck of the day is not in it." });

export const station = names(STATIONS).meta({ id: "Station" });

const verdictFigures = z.object({
  chance: z.number(), behindFrom: z.number().nullable().describe("s after midnight"), behindOn: z.number(), paceKept: z.number().describe("kg/s"), offered: z.number().describe("kg/s"),
  short: z.number().nullable().describe("kg"), room: z.boolean().describe("The wedges have room for what is short."), weakest: z.string().nullable().describe("Of several storages, the one whose crew is behind first."),
  density: z.number().nullable(), target: z.number(), under: z.number().nullable().describe("Share of the mass in lifts under the target."), bottleneck: station,
  standing: z.number().nullable(), standingForStorage: z.number().nullable(), standingCause: z.string(), whoPays: z.enum(["farm", "contractor"]),
  uncut: z.number().describe("kg"), choppers: z.number(), loads: z.number(), days: z.number(),
}).describe("What the headline is made of, to be said in other units.");

export const verdict = z.object({
  keepsPace: z.boolean().describe("The chance of keeping pace is at least 0.9."),
  chance: share(), headline: z.string(),
  behindFrom: z.string().nullable().describe("Wall clock HH:MM: median over the rehearsals that fall behind."),
  paceKept: z.number().describe("t/h at which this crew would keep up."),
  bottleneck: station, figures: verdictFigures,
}).meta({ id: "Verdict", description: "Does packing keep up?" }) satisfies Of<Findings["verdict"]>;

const feedOut = z.object({
  face: z.number().describe("m2"), advance: z.number().describe("m a day"), minimum: z.number().describe("m a day, advised for the season"),
  faces: z.union([z.literal(0), z.literal(1), z.literal(2)]).describe("Open faces that stay fresh."),
  daysOfFeed: span, openAfter: pair().describe("Days to stay closed at the least, and better."),
  freshWidth: z.number().nullable().describe("m, the widest that keeps one face fresh."), inWords: z.string(), source: z.string(), mark: z.string(),
}).describe("How a herd empties it; absent without a herd.");

const storage = z.object({
  name: z.string(), filledT: z.number(), dryT: z.number(),
  dryDensity: z.object({
    mean: z.number().describe("kg DM/m3"), ci: pair().describe("The luck of the day."), band: pair().describe("The published relation's own scatter, 80 % between storages."), chanceOfTarget: share(),
  }),
  wetDensity: z.number(), poreSpace: z.number().optional(), shareUnderTarget: share(), fillTime: z.number().describe("h"), full: z.boolean(), meanDepth: z.number().describe("m"), footprint: z.number().describe("m2 of floor"), coverArea: z.number().describe("m2"),
  cover: z.object({ film: z.number().describe("m2"), weights: z.object({ tyres: z.number(), bags: z.number() }), hours: z.number() }),
  fedT: span, feedOut: feedOut.optional(),
}).meta({ id: "StorageFinding" }) satisfies Of<Findings["storages"][number]>;

const loss = z.object({
  cause: names(LOSS_CAUSES), dryT: orNull(span).describe("t of dry matter; null where no verified rate exists."), share: z.number().nullable(),
  mark: z.string(), source: z.string(), range: z.string().nullable(), outside: z.boolean(), note: z.string(), on: z.boolean().describe("False: shown and not counted."),
}).meta({ id: "Loss" }) satisfies Of<Findings["losses"][number]>;

const money = z.object({
  currency: z.string(),
  lines: z.array(z.object({
    what: z.string(), amount: z.number(), paidBy: z.enum(["farm", "contractor"]), note: z.string(), stage: z.enum(["harvest", "storing", "lost"]), inTotal: z.boolean(),
  })),
  total: z.number(),
  perTonne: z.object({ delivered: z.number().nullable(), stored: z.number().nullable(), fed: orNull(span) }),
  oneMoreTractor: z.array(z.object({
    storage: z.string(), mass: z.number().describe("kg"), cost: z.number(), dryDensity: z.number(), savedT: span, savedValue: span, inWords: z.string(),
  })).optional(),
}).meta({ id: "Money" }) satisfies Of<Findings["money"]>;

export const caution = z.object({ id: z.string(), text: z.string(), where: z.string(), source: z.string() }).meta({ id: "Caution" });

const derivation = z.object({
  formula: z.string(), inputs: z.record(z.string(), z.string()), source: z.string(), mark: z.string(), range: z.string().nullable(), outside: z.boolean(),
}).meta({ id: "Derivation", description: "Where one figure comes from." });

export const appliedDefault = z.object({ path: z.string(), value: z.string(), mark: z.string() });

/** Name and content of a scenario. */
export const scenarioName = z.object({ name: z.string(), hash: z.string().regex(/^[0-9a-f]{32}$/) });

const stopRule = z.object({
  storage: z.string(), holds: z.enum(["always", "until-full", "never"]).describe("Whether the crew of this plan lets a lift be packed before it buries it."),
  apronLoads: z.number().describe("With so many loads on the apron the chopper stops; where the crew holds until the apron is full, holding ends."), apronTonnes: z.number(), keepsUp: z.boolean(),
  packMinutesPerLoad: z.number().nullable(), loadsPerHour: z.number(), stickMark: z.number().describe("m"), layersPerLoad: z.number(), passes: pair().nullable(), passesWanted: z.number(),
  hurry: z.string().nullable(), inWords: z.object({ apron: z.string(), load: z.string(), passes: z.string() }), mark: z.literal("assumption of this project"),
}).meta({ id: "StopRules", description: "What a crew at one storage can go by." }) satisfies Of<RestOfDay["stopRules"][number]>;

const rest = z.object({
  from: z.string(), closedAt: z.object({ early: z.string(), median: z.string(), late: z.string() }),
  fields: z.array(z.object({ name: z.string(), standingT: z.number(), leftT: z.number(), doneOn: share(), doneAt: z.string().nullable() })),
  stopRules: z.array(stopRule), stopCutting: z.object({ at: z.string().nullable(), certainty: share(), inWords: z.string() }),
  trucks: z.array(z.object({ name: z.string(), from: z.string(), lastTip: z.string().nullable(), needed: z.boolean(), inWords: z.string() })).describe("Who can go home, and from when."),
  assumptions: z.array(z.string()),
}).meta({ id: "RestOfDay", description: "What still finishes, when to stop and who can go home. Times are wall clock." }) satisfies Of<RestOfDay>;

export const findings = z.object({
  scenario: scenarioName, engine: z.string(), seed: z.number(), rehearsals: z.int().min(1),
  verdict, measures, storages: z.array(storage),
  machines: z.array(z.object({
    name: z.string(), kind: z.string(), hours: z.record(z.string(), z.number()).describe("By state, means over the rehearsals."), loads: z.number(), tonnes: z.number(), cost: z.number(),
  })),
  handCheck: z.array(z.object({ station, boundTPerH: z.number(), simulatedTPerH: z.number(), gapInWords: z.string() })).describe("The bound by hand beside the figure rehearsed."),
  losses: z.array(loss),
  ledger: z.object({ cutT: z.number(), storedT: z.number(), fedT: span, inWords: z.string() }),
  money, cautions: z.array(caution),
  sources: z.partialRecord(z.enum(MEASURE_NAMES as [MeasureName, ...MeasureName[]]), derivation).describe("One for every measure."),
  defaults: z.array(appliedDefault).describe("What was filled in where the scenario says nothing."),
  notes: z.array(z.string()),
  rest: rest.optional().describe("Only where the question has `from`."),
}).meta({ id: "Findings", description: "What the rehearsals of one scenario say. A field whose work has not landed is absent, never zero." }) satisfies Of<Findings>;
