/** One printed page of a lesson: the question, room for a prediction, the drawing, the explanation, an exercise, and where the figures come from. */
import { contraryTrials, lossLine } from "../../sim/forage/losses.ts";
import { residualSd, surveyCrop } from "../../sim/forage/scatter.ts";
import { MEASURE_WORDS } from "../../sim/findings/words.ts";
import { inEnglish } from "../english.ts";
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { addressOf } from "../state/memory.ts";
import { lessonSheet, wordsOf } from "../words/lessons.ts";
import { Drawings } from "./Drawings.tsx";
import { Explained } from "./Explained.tsx";
import { FigureTable } from "./FigureTable.tsx";
import type { Lesson } from "./lesson.ts";
import { runs, type Run } from "./room.ts";
import { Waiting } from "./RunStep.tsx";

export function Handout({ lesson }: { readonly lesson: Lesson }) {
  const system = units.value;
  const told = runs.value;
  const { title, situation, question, choices, plans, exercise } = wordsOf(lesson.id);
  const { handout, all, steps } = lessonSheet;
  return (
    <article class={`handout ${system === "us" ? "letter" : "a4"}`}>
      <p class="screen-only">
        <a href={addressOf({ lesson: null })}>{all}</a> <a href={addressOf({ step: "predict" })}>{steps.predict}</a> <button type="button" onClick={() => print()}>{handout.print}</button>
      </p>
      <h1>{title}</h1>
      <p>{textIn(system, situation)}</p>
      <h2>{textIn(system, question)}</h2>
      {Object.keys(choices).length > 0 && <ul class="boxes">{Object.entries(choices).map(([key, choice]) => <li key={key}><span class="tick-box" aria-hidden="true" /> {textIn(system, choice)}</li>)}</ul>}
      <p class="write"><span>{handout.predict}</span><span class="line" /><span>{handout.because}</span><span class="line" /></p>
      <p class="fold quiet">{handout.below}</p>
      {told ? (
        <>
          <FigureTable names={lesson.figures} told={told} plans={plans} />
          <Drawings names={lesson.drawings} {...shownOnPaper(lesson, told, plans)} />
          <Explained lesson={lesson} told={told} />
          <h3>{handout.exercise}</h3>
          <p>{textIn(system, exercise)}</p>
          <p class="write"><span class="line" /></p>
          <h3>{handout.sources}</h3>
          <p class="quiet">{sourcesOf(lesson, told).map((source) => <span class="block" key={source}>{source}</span>)}</p>
        </>
      ) : <Waiting />}
      <p class="quiet address">{handout.address} {addressOf({ step: "predict", turned: {} })}</p>
    </article>
  );
}

/** A line of sources. What is called so in print keeps its words, whatever the reader's country. */
const source = (what: string, called: string, mark: string): string => `${what}: ${called} (${mark}).`;

/** Strips are wide: on paper there is room for that of the last plan. */
function shownOnPaper({ drawings }: Lesson, told: readonly Run[], plans: readonly string[]): { readonly told: readonly Run[]; readonly plans: readonly string[] } {
  return drawings.includes("strips") ? { told: told.slice(-1), plans: plans.slice(-1) } : { told, plans };
}

/** Source lines with their marks: of the measures shown, and of what stands behind the caution. */
function sourcesOf({ sources, further = [] }: Lesson, told: readonly Run[]): string[] {
  const { scatter, losses } = lessonSheet.handout;
  const { findings, scenario } = told[0]!;
  // Measures of one source stand on one line.
  const bySource = new Map<string, string[]>();
  for (const name of sources) {
    const derivation = findings.sources[name];
    if (!derivation) continue;
    const key = JSON.stringify([derivation.source, derivation.mark]);
    bySource.set(key, [...(bySource.get(key) ?? []), inEnglish(MEASURE_WORDS[name].label)]);
  }
  const lines = [...bySource].map(([key, labels]) => source(labels.join(", "), ...(JSON.parse(key) as [string, string])));
  const { source: survey, mark } = residualSd[surveyCrop(scenario.crop.kind)];
  const extra = {
    scatter: source(scatter, survey, mark),
    losses: source(losses, `${lossLine.per.source}; ${contraryTrials.grass.source}`, lossLine.per.mark),
  };
  return [...lines, ...further.map((name) => extra[name])];
}
