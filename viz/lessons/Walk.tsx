/** Walks a room through a lesson: predict, run, see, explain, try. The answer is not in the page before somebody has predicted it. */
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { STEPS, type Step } from "../sheets.ts";
import { step, units } from "../state.ts";
import { addressOf } from "../state/memory.ts";
import { textIn } from "../sentences.ts";
import { lessonSheet, wordsOf } from "../words/lessons.ts";
import { LESSONS } from "./all-lessons.ts";
import { Drawings } from "./Drawings.tsx";
import { Explained } from "./Explained.tsx";
import { FigureTable } from "./FigureTable.tsx";
import type { Lesson } from "./lesson.ts";
import { Outcome } from "./Outcome.tsx";
import { Predict } from "./Predict.tsx";
import { predicted, runs } from "./room.ts";
import { RunStep, Waiting } from "./RunStep.tsx";
import { Try } from "./Try.tsx";

const WALKED = STEPS.filter((name): name is Exclude<Step, "handout"> => name !== "handout");

export function Walk({ lesson }: { readonly lesson: Lesson }) {
  const wanted = step.value === "handout" ? "predict" : step.value;
  const shown = predicted.value ? wanted : "predict";
  // A link to a later step waits for a prediction, and for the room to finish making it.
  const held = useSignal(false);
  useEffect(() => {
    if (shown === wanted) return;
    step.value = shown;
    held.value = true;
  }, [shown, wanted]);
  const heading = useRef<HTMLHeadingElement>(null);
  const first = useRef(true);
  // Whoever goes on by keyboard or by ear is taken to the new step; on opening the page stays at its top.
  useEffect(() => {
    if (!first.current) heading.current?.focus();
    first.current = false;
  }, [shown, lesson]);
  const { title, situation, question, tries } = wordsOf(lesson.id);
  const system = units.value;
  return (
    <article class="lesson">
      <h1>{title}</h1>
      <nav aria-label={lessonSheet.stepsTitle}>
        <ol class="steps">
          {WALKED.map((name, i) => (
            <li key={name} class={name === shown ? "step-now" : ""}>
              <span class="step-number" aria-hidden="true">{i + 1}</span>
              {name === shown || (!predicted.value && name !== "predict")
                ? <span aria-current={name === shown ? "step" : undefined}>{lessonSheet.steps[name]}</span>
                : <a href={addressOf({ step: name })}>{lessonSheet.steps[name]}</a>}
            </li>
          ))}
        </ol>
      </nav>
      <section class="step" aria-labelledby="step">
        <h2 id="step" class="lesson-question" ref={heading} tabIndex={-1}>{shown === "explain" ? lessonSheet.explain.title : textIn(system, question)}</h2>
        {shown === "predict" && <><p class="lesson-lead">{textIn(system, situation)}</p><Predict lesson={lesson} held={held.value && !predicted.value} /></>}
        {shown === "run" && <RunStep lesson={lesson} />}
        {shown === "see" && (runs.value ? <See lesson={lesson} /> : <Waiting />)}
        {shown === "explain" && (runs.value ? <Explained lesson={lesson} told={runs.value} /> : <Waiting />)}
        {shown === "try" && <><p class="lesson-lead">{textIn(system, tries)}</p><Try lesson={lesson} /></>}
      </section>
      <Next lesson={lesson} shown={shown} />
    </article>
  );
}

function See({ lesson }: { readonly lesson: Lesson }) {
  const told = runs.value!;
  const { look, plans } = wordsOf(lesson.id);
  return (
    <>
      <Outcome lesson={lesson} told={told} />
      <p>{textIn(units.value, look)}</p>
      <FigureTable names={lesson.figures} told={told} plans={plans} />
      <Drawings names={lesson.drawings} told={told} plans={plans} />
    </>
  );
}

/** The way on: the next step, or the next lesson. */
function Next({ lesson, shown }: { readonly lesson: Lesson; readonly shown: (typeof WALKED)[number] }) {
  const next = WALKED[WALKED.indexOf(shown) + 1];
  const following = LESSONS[LESSONS.indexOf(lesson) + 1];
  if (next && next !== "predict") {
    if (!predicted.value) return <p class="quiet">{lessonSheet.predict.none}</p>;
    return <p class="way-on"><a class="go" href={addressOf({ step: next })}>{lessonSheet.next[next]}</a></p>;
  }
  return (
    <p class="way-on">
      {following && <a class="go" href={addressOf({ lesson: following.id, step: "predict" })}>{lessonSheet.nextLesson(wordsOf(following.id).title)}</a>}
      <a href={addressOf({ step: "handout" })}>{lessonSheet.toHandout}</a>
    </p>
  );
}
