/** The lessons' plans rehearsed by the engine itself, as the page has the server do it. */
import { parse } from "yaml";
import { checkScenario } from "../../sim/scenario/read.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import type { Document } from "../../viz/document.ts";
import { LUCK, type Lesson, type Outcome } from "../../viz/lessons/lesson.ts";
import { exampleText } from "../scenarios/example.ts";

/** The documents of a lesson's plans, in its order. */
export function plansOf({ base, plans }: Lesson): Document[] {
  const document = typeof base === "string" ? (parse(exampleText(base)) as Document) : base;
  return plans.map((make) => make(document));
}

/** What the engine says of a document; throws with what is wrong when it is no sound plan. */
export function told(document: Document, rehearsals?: number): Outcome {
  const checked = checkScenario(document);
  if ("problems" in checked) throw new Error(checked.problems.map(({ pointer, detail }) => `${pointer} ${detail}`).join("\n"));
  const { scenario, defaults } = checked;
  return { scenario, findings: rehearse(scenario, { seed: LUCK, defaults, rehearsals }).findings };
}
