/** Two to four plans side by side, on the same luck: what each gives and what the difference is worth, their days in step, their storages to one scale. */
import { momentAt } from "../../sim/harvest/moment.ts";
import { Strip } from "../drawings/Strip.tsx";
import { MOST_BESIDE } from "../address.ts";
import { ReplayButtons, Scrubber } from "../page/Replay.tsx";
import { clock } from "../quantity.ts";
import { AS_OPENED, beside, example, examples, exampleId, findings, plan, rehearsed, time, trouble, units } from "../state.ts";
import { words as common } from "../words.ts";
import { words } from "../words/beside.ts";
import { Apart } from "./Apart.tsx";
import { askAgain, firstChoice, runs } from "./runs.ts";
import { Scale } from "./Scale.tsx";
import type { Shown } from "./shown.ts";
import { SideTable } from "./SideTable.tsx";
import "./beside.css";

export function Beside() {
  const now = findings.value;
  const story = rehearsed.value;
  const document = plan.value;
  if (!now || !story || !document || example.value === null) return <p class="quiet" role="status">{trouble.value ?? common.waitingForFirst}</p>;
  if (beside.value.length === 0) beside.value = [firstChoice()];
  const others = runs.value.flatMap(({ id, run }): Shown[] => (run !== null && typeof run === "object" ? [{ name: nameOf(id), document: run.document, findings: run.findings, story: run.story }] : []));
  const all: readonly Shown[] = [{ name: words.plan, document, findings: now, story }, ...others];
  return (
    <div class="beside">
      <h1 id="side">{words.title}</h1>
      <p class="quiet">{words.lead}</p>
      <Choices />
      {others.length > 0 && (
        <>
          <SideTable plans={all} />
          {others.length === runs.value.length && <Apart plans={all} />}
          <InStep plans={all} />
          <Scale plans={all} units={units.value} />
        </>
      )}
    </div>
  );
}

/** What a choice is called. */
function nameOf(id: string): string {
  return id === AS_OPENED ? words.asOpened : examples.value.find((one) => one.id === id)?.name ?? id;
}

function Choices() {
  const chosen = beside.value;
  const set = (place: number, id: string) => { beside.value = chosen.map((old, i) => (i === place ? id : old)); };
  const free = [AS_OPENED, ...examples.value.map(({ id }) => id)].filter((id) => id !== exampleId.value && !chosen.includes(id));
  return (
    <div class="choices">
      {runs.value.map(({ id, run }, i) => (
        <p key={id} class="side-choice">
          <label class="example">
            <span>{words.choose(i + 2)}</span>
            <select value={id} onChange={(event) => set(i, event.currentTarget.value)}>
              {[id, ...free].map((each) => <option key={each} value={each}>{nameOf(each)}</option>)}
            </select>
          </label>
          {chosen.length > 1 && <button type="button" class="plain" aria-label={words.remove(nameOf(id))} onClick={() => { beside.value = chosen.filter((each) => each !== id); }}>{words.away}</button>}
          {run === null && <span class="quiet" role="status">{common.asking}</span>}
          {typeof run === "string" && <span role="alert">{run} <button type="button" onClick={() => askAgain(id)}>{words.again}</button></span>}
        </p>
      ))}
      {chosen.length < MOST_BESIDE && free.length > 0 && <button type="button" onClick={() => { beside.value = [...chosen, free.find((id) => id !== AS_OPENED) ?? free[0]!]; }}>{words.add}</button>}
    </div>
  );
}

/** The days at one time of the clock. */
function InStep({ plans }: { readonly plans: readonly Shown[] }) {
  const at = time.value;
  return (
    <section aria-labelledby="step" class="in-step">
      <h2 id="step">{words.step.title}, {clock(at)}</h2>
      <div class="twins"><ReplayButtons /></div>
      <Scrubber />
      {plans.map(({ name, story }) => {
        const { from, until } = story.replay.day;
        return (
          <figure key={name}>
            <figcaption><h3>{name}</h3>{at > until && <p class="quiet">{words.step.over}</p>}</figcaption>
            <Strip rehearsed={story} moment={momentAt(story.replay, Math.min(until, Math.max(from, at)))} units={units.value} />
          </figure>
        );
      })}
    </section>
  );
}
