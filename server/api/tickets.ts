/** Weigh tickets as the API gives them. The compiler holds the schema to the type that the engine fills. */
import { z } from "zod";
import { DATE_ORDERS, DECIMALS, MASS_UNITS } from "../../sim/study/tickets/cells.ts";
import { INPUTS } from "../../sim/study/tickets/explain.ts";
import { FITTED, type FittedSample } from "../../sim/study/tickets/fit.ts";
import { JUDGED_NAMES } from "../../sim/study/tickets/judged.ts";
import type { DayOfLoads } from "../../sim/study/tickets/loads.ts";
import { COLUMNS } from "../../sim/study/tickets/headings.ts";
import { ASKED } from "../../sim/study/tickets/mapping.ts";
import type { WeighedDay } from "../../sim/study/tickets/study.ts";
import { names, scenarioName } from "./findings.ts";

type Of<T> = z.ZodType<T>;

const spread = z.object({ n: z.number(), mean: z.number(), sd: z.number().nullable(), cv: z.number().nullable() }).nullable();
const gap = z.object({ from: z.number().describe("s after midnight"), to: z.number(), worked: z.number().describe("s, the breaks of the shift left out") });

const day = z.object({
  first: z.number().describe("s after midnight"), last: z.number(), loads: z.number(), tonnes: z.number(), loadsPerHour: z.number().nullable(), tonnesPerHour: z.number().nullable(),
  steadyPace: z.number().nullable().describe("t/h as long as loads kept coming: what the chopper gave at the least."),
  load: spread.describe("t"), cycle: spread.describe("min from one weighing of a truck to its next"), stay: spread.describe("min from the scale until it left"),
  atStorage: z.number().nullable().describe("Trucks at the storage, mean over the day."), between: spread.describe("min between weighings"), gaps: z.array(gap).describe("The longest first."),
}).meta({ id: "DayOfLoads", description: "What the tickets of one day tell." }) satisfies Of<DayOfLoads>;

const kind = names(FITTED);
const fitted = z.object({
  n: z.number(), chosen: kind, why: z.string(),
  fits: z.array(z.object({
    kind, parameters: z.union([z.tuple([z.number()]), z.tuple([z.number(), z.number()])]), mean: z.number(), cv: z.number(), logLikelihood: z.number(),
    aicc: z.number().describe("Akaike's criterion, corrected for small samples."), distance: z.number().describe("Anderson and Darling's A2."),
  })),
  shape: z.union([z.object({ kind: z.literal("exponential") }), z.object({ kind: z.enum(["lognormal", "gamma", "weibull"]), cv: z.number() })]) as unknown as Of<FittedSample["shape"]>,
  asFar: z.number().nullable().describe("Share of samples drawn from the chosen shape that lie as far from their own fit."),
}).nullable().meta({ id: "FittedSample", description: "A shape fitted by maximum likelihood; null where there are too few values." }) satisfies Of<FittedSample | null>;

const parts = z.array(z.object({ name: z.string().nullable(), loads: z.number(), tonnes: z.number() }));
const written = z.union([z.string(), z.object({ shape: z.string(), cv: z.string().optional() })]);

export const weighedDay = z.object({
  engine: z.string(), seed: z.number(), scenario: scenarioName,
  reading: z.object({
    mapping: z.object({
      delimiter: z.string(), headingRow: z.number(), heading: z.array(z.string()), columns: z.partialRecord(names(COLUMNS), z.number()), ignored: z.array(z.string()),
      decimal: names(DECIMALS), dates: names(DATE_ORDERS).nullable(), unit: names(MASS_UNITS).nullable(), understood: z.array(z.string()),
    }),
    questions: z.array(z.object({ about: names(ASKED), sentence: z.string(), answers: z.array(z.string()) })), waiting: z.number(),
    rows: z.number().describe("As many as tickets and refused rows together."), tickets: z.number(),
    refused: z.array(z.object({ row: z.number(), text: z.string(), because: z.string() })), remarks: z.array(z.object({ row: z.number(), remark: z.string() })),
  }),
  days: z.array(day), owners: parts, fields: parts, trucks: parts, storages: parts, shapes: z.object({ load: fitted, cycle: fitted, stay: fitted, between: fitted }),
  judgedDay: z.number().describe("Which of the days was held against the scenario, from 0."),
  patch: z.object({
    changes: z.array(z.object({ path: z.array(z.union([z.string(), z.number()])), value: written, n: z.number().describe("Tickets behind it."), because: z.string(), fit: z.string().nullable().describe("How a shape was chosen; null where the value is none.") })),
    cannot: z.array(z.string()).describe("What the tickets do not tell."),
  }),
  judgement: z.object({
    rehearsals: z.number(),
    figures: z.partialRecord(names(JUDGED_NAMES), z.object({
      recorded: z.number(), predicted: z.number(), low: z.number().describe("8 of 10 rehearsed days lie between this and high."), high: z.number(), unit: z.string(), inside: z.boolean().nullable(), inWords: z.string(),
    })),
    stoppages: z.array(gap.extend({ onDays: z.number().describe("Rehearsed days with a stretch as long."), inWords: z.string() })).nullable(), falseAlarms: z.number().nullable(),
    hours: z.array(z.object({ from: z.number(), recorded: z.number(), predicted: z.number(), low: z.number(), high: z.number() })).describe("Tonnes by the hour of the clock."),
    explained: z.array(z.object({ input: names(INPUTS), what: z.string(), closes: z.number().describe("Share of the difference beyond luck that it takes away."), left: z.number() })), inWords: z.array(z.string()),
  }),
}).meta({ id: "WeighedDay", description: "Weigh tickets read, measured and fitted, and the recorded day held against the scenario." }) satisfies Of<WeighedDay>;
