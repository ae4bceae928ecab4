/** Lessons for a room: the list of them, or the one that is open. */
import { lesson as lessonId, step, units } from "../state.ts";
import { addressOf } from "../state/memory.ts";
import { textIn } from "../sentences.ts";
import { lessonSheet, wordsOf } from "../words/lessons.ts";
import { LESSONS } from "./all-lessons.ts";
import { Handout } from "./Handout.tsx";
import { large, lesson } from "./room.ts";
import { Walk } from "./Walk.tsx";
import "./lessons.css";

export function Lessons() {
  const open = lesson.value;
  const printed = open !== null && step.value === "handout";
  return (
    <div class={large.value && !printed ? "lessons large" : "lessons"}>
      {!printed && (
        <div class="lessons-head">
          {lessonId.value !== null && <a href={addressOf({ lesson: null })}>{lessonSheet.all}</a>}
          <label class="choice-small"><input type="checkbox" checked={large.value} onChange={(event) => { large.value = event.currentTarget.checked; }} />{lessonSheet.large}</label>
        </div>
      )}
      {open === null ? <List /> : printed ? <Handout lesson={open} /> : <Walk lesson={open} />}
    </div>
  );
}

function List() {
  return (
    <>
      <h1>{lessonSheet.title}</h1>
      <p class="lesson-lead">{lessonSheet.what}</p>
      <ol class="lesson-list">
        {LESSONS.map(({ id }, i) => {
          const { title, question } = wordsOf(id);
          return (
            <li key={id}>
              <h2><a href={addressOf({ lesson: id, step: "predict" })}>{lessonSheet.open(i + 1, title)}</a></h2>
              <p>{textIn(units.value, question)}</p>
              <p class="quiet"><a href={addressOf({ lesson: id, step: "handout" })}>{lessonSheet.toHandout}<span class="unseen">: {title}</span></a></p>
            </li>
          );
        })}
      </ol>
    </>
  );
}
