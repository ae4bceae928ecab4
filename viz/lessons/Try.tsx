/** The room turns one or two sliders of this lesson, and nothing else; figures and explanation follow. */
import { shownIn, unitName, written } from "../quantity.ts";
import { turned, units } from "../state.ts";
import { lessonSheet, wordsOf } from "../words/lessons.ts";
import { Explained } from "./Explained.tsx";
import { FigureTable } from "./FigureTable.tsx";
import type { Knob, Lesson } from "./lesson.ts";
import { lessonTrouble, turnedPlans, turnedRuns, turns } from "./room.ts";
import { Waiting } from "./RunStep.tsx";

export function Try({ lesson }: { readonly lesson: Lesson }) {
  const documents = turnedPlans.value;
  const told = turnedRuns.value;
  const { plans, knobs } = wordsOf(lesson.id);
  if (!documents || !told) return <Waiting />;
  const changed = Object.keys(turns.value).length > 0;
  const alsoAll = lesson.knobs.some(({ id, turns: whose }) => whose === "all" && turns.value[id] !== undefined);
  const names = plans.map((name, i) => (changed && (alsoAll || i === plans.length - 1) ? lessonSheet.try.changed(name) : name));
  return (
    <>
      <form class="knobs" onSubmit={(event) => event.preventDefault()}>
        {lesson.knobs.map((knob) => <Slider key={knob.id} knob={knob} label={knobs[knob.id]!} value={knob.read(documents.at(-1)!)} />)}
        {changed && <button type="button" class="plain" onClick={() => { turned.value = {}; }}>{lessonSheet.try.back}</button>}
      </form>
      {lessonTrouble.value !== null && <Waiting />}
      <h3 class="unseen">{lessonSheet.try.answer}</h3>
      <FigureTable names={lesson.figures} told={told} plans={names} />
      <Explained lesson={lesson} told={told} />
    </>
  );
}

function Slider({ knob: { id, dimension, unit, range }, label, value }: { readonly knob: Knob; readonly label: string; readonly value: number | null }) {
  const system = units.value;
  const [least, most, size] = range[system];
  const shown = value === null ? least : dimension === null ? value : Number(shownIn(value, dimension, system).toFixed(dimension === "machineMass" && system === "us" ? 0 : 1));
  const said = `${shown.toLocaleString("en")} ${dimension === null ? unit ?? "" : unitName(dimension, system)}`.trim();
  const set = (text: string) => { turned.value = { ...turns.value, [id]: dimension === null ? text : written(Number(text), dimension, system) }; };
  return (
    <div class="knob">
      <label for={`knob-${id}`}>{label}</label>
      <input id={`knob-${id}`} type="range" min={Math.min(least, shown)} max={Math.max(most, shown)} step={size} value={shown} aria-valuetext={said} onInput={(event) => set(event.currentTarget.value)} />
      <output for={`knob-${id}`}>{said}</output>
    </div>
  );
}
