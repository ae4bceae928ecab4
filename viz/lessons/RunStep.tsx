/** The day of each plan, rehearsed just now and played on one clock. */
import { signal, useComputed, useSignal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import { momentAt } from "../../sim/harvest/moment.ts";
import { Strip } from "../drawings/Strip.tsx";
import { playerOf } from "../player.ts";
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

/** s of the day in one second of playing: a room waits for half a minute, not for two. */
const PACE = signal(1200);

export function RunStep({ lesson }: { readonly lesson: Lesson }) {
  const which = useSignal(0);
  const time = useSignal<number | null>(null);
  const at = useComputed(() => time.value ?? runs.value?.[0]?.story.telling ?? 0);
  const span = useComputed(() => runs.value && { from: Math.min(...runs.value.map(({ story }) => story.replay.day.from)), until: Math.max(...runs.value.map(({ story }) => story.replay.day.until)) });
  const player = useMemo(() => playerOf(() => span.value, at, time, PACE), []);
  useEffect(() => () => { player.playing.value = false; }, []);
  const told = runs.value;
  const ends = span.value;

  if (!told || !ends) return <Waiting />;
  const { story, findings } = told[Math.min(which.value, told.length - 1)]!;
  const now = at.value;
  const { plans: names } = wordsOf(lesson.id);
  const play = () => {
    // From the morning on, unless somebody has gone to another time.
    time.value ??= ends.from;
    player.toggle();
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
        <button type="button" class="play" onClick={play}>{player.playing.value ? lessonSheet.run.pause : lessonSheet.run.play}</button>
        <span class="clock">{clock(now)}</span>
        <input type="range" min={ends.from} max={ends.until} step="60" value={now} aria-label={lessonSheet.run.time} aria-valuetext={clock(now)}
          onInput={(event) => player.goTo(Number(event.currentTarget.value))} />
      </div>
      <Strip rehearsed={story} moment={momentAt(story.replay, Math.min(now, story.replay.day.until))} units={units.value} />
    </>
  );
}
