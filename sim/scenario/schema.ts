/** The JSON Schema of a scenario file, made from the very schema that checks it, for editors and other programs. */
import { z } from "zod";
import { writtenScenario } from "./written.ts";

/** A JSON Schema, draft 2020-12. What hangs on two keys at once (names, sums, slopes) it cannot say; `clampside check` does. */
export function scenarioSchema(): Record<string, unknown> {
  const { $schema, ...schema } = z.toJSONSchema(writtenScenario, { target: "draft-2020-12", reused: "inline" });
  return { $schema, title: "Scenario of Clampside", ...schema };
}

/** The bytes of `scenarios/scenario.schema.json`. */
export function scenarioSchemaText(): string {
  return `${JSON.stringify(scenarioSchema(), null, 2)}\n`;
}
