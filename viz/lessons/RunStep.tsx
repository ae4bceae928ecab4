/** The day of each plan, rehearsed just now and played on one clock. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { momentAt } from "../../sim/harvest/moment.ts";
import { Strip } from "../drawings/Strip.tsx";
import { clock } from "../quantity.ts";
import { units } from "../state.ts";
import { lessonSheet, wordsOf } from "../words/lessons.ts";
import type { Lesson } from "./lesson.ts";
import { ask, lessonTrouble, plans, runs, runsDone } from "./room.ts";

/** What is said while the answer is not there yet. */
export function Waiting() {
  if (lessonTrouble.value !== null) return <p role="alert">{lessonTrouble.value} <button type="button" onClick={ask}>{lessonSheet.run.again}</button></p>;
  const all = plans.value?.length ?? 1;
  return <p role="status">{lessonSheet.run.rehearsing(Math.min(runsDone.value, all - 1), all)}</p>;
}

/** s of the day in one second of playing. */
const SPEED = 1200;

export function RunStep({ lesson }: { readonly lesson: Lesson }) {
  const which = useSignal(0);
  const time = useSignal<number | null>(null);
  const playing = useSignal(false);
  const told = runs.value;
  const ends = told && [Math.min(...told.map(({ story }) => story.replay.day.from)), Math.max(...told.map(({ story }) => story.replay.day.until))] as const;
  const until = ends?.[1] ?? 0;

  useEffect(() => {
    if (!playing.value) return;
    let last = performance.now();
    let frame = requestAnimationFrame(function go(now) {
      time.value = Math.min(until, (time.peek() ?? 0) + (Math.min(100, now - last) / 1000) * SPEED);
      last = now;
      if (time.peek()! >= until) playing.value = false;
      else frame = requestAnimationFrame(go);
    });
    return () => cancelAnimationFrame(frame);
  }, [playing.value, until]);

  if (!told || !ends) return <Waiting />;
  const { story, findings } = told[Math.min(which.value, told.length - 1)]!;
  const now = time.value ?? told[0]!.story.telling;
  const { plans: names } = wordsOf(lesson.id);
  const play = () => {
    if (!playing.value && (time.value === null || time.value >= until)) time.value = ends[0];
    playing.value = !playing.value;
  };
  return (
    <>
      <p role="status">{lessonSheet.run.done(lessonSheet.run.days(findings.rehearsals))}</p>
      {names.length > 1 && (
        <fieldset class="systems which">
          <legend class="unseen">{lessonSheet.run.which}</legend>
          {names.map((name, i) => <label key={name}><input type="radio" name="which" checked={which.value === i} onChange={() => { which.value = i; }} />{name}</label>)}
        </fieldset>
      )}
      <div class="lesson-clock">
        <button type="button" class="play" onClick={play}>{playing.value ? lessonSheet.run.pause : lessonSheet.run.play}</button>
        <span class="clock">{clock(now)}</span>
        <input type="range" min={ends[0]} max={until} step="60" value={now} aria-label={lessonSheet.run.time} aria-valuetext={clock(now)}
          onInput={(event) => { playing.value = false; time.value = Number(event.currentTarget.value); }} />
      </div>
      <Strip rehearsed={story} moment={momentAt(story.replay, Math.min(now, story.replay.day.until))} units={units.value} />
    </>
  );
}
