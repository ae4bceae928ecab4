/** `npm run schema`: writes the JSON Schema of a scenario file beside the worked examples. A test holds the two in step. */
import { writeFileSync } from "node:fs";
import { scenarioSchemaText } from "../../sim/scenario/schema.ts";

writeFileSync(new URL("../../scenarios/scenario.schema.json", import.meta.url), scenarioSchemaText());
