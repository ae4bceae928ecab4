/** One printed page of a lesson: the question, room for a prediction, the drawing, the explanation, an exercise, and where the figures come from. */
import { contraryTrials, lossLine } from "../../sim/forage/losses.ts";
import { residualSd, surveyCrop } from "../../sim/forage/scatter.ts";
import { MEASURE_WORDS } from "../../sim/findings/words.ts";
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
          <Drawings names={lesson.drawings.slice(-1)} told={told} plans={plans} />
          <Explained lesson={lesson} told={told} />
          <h3>{handout.exercise}</h3>
          <p>{textIn(system, exercise)}</p>
          <p class="write"><span class="line" /></p>
          <p class="write"><span class="line" /></p>
          <h3>{handout.sources}</h3>
          <p class="quiet">{sourcesOf(lesson, told).map((source) => <span class="block" key={source}>{textIn(system, source)}</span>)}</p>
        </>
      ) : <Waiting />}
      <p class="quiet address">{handout.address} {addressOf({ step: "predict" })}</p>
    </article>
  );
}

/** Source lines with their marks: of the measures shown, and of what stands behind the caution. */
function sourcesOf({ sources, further = [] }: Lesson, told: readonly Run[]): string[] {
  const { source, scatter, losses } = lessonSheet.handout;
  const { findings, scenario } = told[0]!;
  const lines = sources.flatMap((name) => {
    const derivation = findings.sources[name];
    return derivation ? [source(MEASURE_WORDS[name].label, derivation.source, derivation.mark)] : [];
  });
  const { source: survey, mark } = residualSd[surveyCrop(scenario.crop.kind)];
  const extra = {
    scatter: source(scatter, survey, mark),
    losses: source(losses, `${lossLine.per.source}; ${contraryTrials.grass.source}`, lossLine.per.mark),
  };
  return [...new Set([...lines, ...further.map((name) => extra[name])])];
}
