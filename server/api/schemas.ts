/** What the server itself says, as schemas. Nothing else may stand in these documents. */
import { z } from "zod";
import { LIMITS } from "../limits.ts";
import { ID, LONGEST_ID } from "../store/scenarios.ts";
import { writtenNow } from "../../sim/scenario/now.ts";
import { writtenScenario } from "../../sim/scenario/written.ts";
import { findings } from "./findings.ts";

export const scenario = writtenScenario.meta({ id: "Scenario", description: "A scenario as it stands in a scenario file. A quantity is a number with its unit in one text." });

export const state = writtenNow.meta({ id: "Now", description: "How things stand at a time of the day: from here the rest of it is rehearsed." });

export const problem = z.strictObject({
  type: z.literal("about:blank"), title: z.string(), status: z.int().min(400).max(599), detail: z.string().min(1).describe("One or two sentences for a person."),
  errors: z.array(z.strictObject({
    pointer: z.string().regex(/^(\/[\s\S]*)?$/).describe("JSON pointer into the body."), detail: z.string().min(1), line: z.int().min(1).optional(), column: z.int().min(1).optional(),
  })).optional().describe("Each place that is wrong, and what would be right there."),
}).meta({ id: "Problem", description: "RFC 9457: what is wrong with the request." });

export const scenarioId = z.string().regex(ID).max(LONGEST_ID).meta({ description: "Small letters and digits, with single hyphens between them." });

const stampKeys = {
  id: scenarioId, revision: z.int().min(1), savedAt: z.iso.datetime(), name: z.string().describe("The scenario's own name."),
  hash: z.string().regex(/^[0-9a-f]{32}$/).describe("Of the checked scenario: the same for the same content, however written."),
};
export const stamp = z.strictObject(stampKeys).meta({ id: "Stamp", description: "One revision of a scenario that is kept." });

export const scenarioList = z.strictObject({
  scenarios: z.array(z.strictObject({ id: z.string(), name: z.string(), shows: z.string() })).describe("The worked examples, to begin from."),
  saved: z.array(stamp).describe("What was saved here, by id."),
}).meta({ id: "ScenarioList" });

export const revisionList = z.strictObject({
  id: scenarioId, revisions: z.array(z.strictObject({ ...stampKeys, form: z.enum(["json", "yaml"]), takenAway: z.boolean() })).describe("The newest first."),
}).meta({ id: "RevisionList" });

export const taken = z.strictObject({
  added: z.int().min(0).describe("Scenarios that were not here."), continued: z.int().min(0).describe("That go on from what was here."), same: z.int().min(0).describe("That were here already."),
  renamed: z.array(z.strictObject({ from: scenarioId, to: scenarioId })).describe("Another history stood under the name: theirs was put under a new one."),
  answers: z.int().min(0).describe("Rehearsals and studies that were not here and had room."),
}).meta({ id: "Taken", description: "What an archive brought. Nothing that was here is changed or lost." });

const rehearsals = z.int().min(1).max(LIMITS.rehearsals);
const seed = z.int().min(0).max(Number.MAX_SAFE_INTEGER);

/** The wishes beside a scenario. */
export const wishes = {
  rehearsals: rehearsals.optional().meta({ description: "How many days; 1 where nothing varies, else 100." }),
  seed: seed.optional().meta({ description: "Another luck than the scenario's own." }),
};

export const rehearsalAsked = z.strictObject({ scenario, ...wishes, from: state.optional() }).meta({ id: "RehearsalAsked" });

export const rehearsalAnswer = z.strictObject({
  id: z.string().regex(/^[\w-]{22}$/).describe("Of the checked scenario, seed, rehearsals and engine: the same question has the same id, on every server."),
  findings, rehearsal: z.int().min(0).describe("Which of the rehearsals the day that is shown is, from 0."), log: z.string().describe("Address of that day."),
}).meta({ id: "RehearsalAnswer" });
