/** Two to four plans side by side, on the same luck: which feeds cheapest and why, what each gives and what the difference is worth, their storages to one scale, their days in step. */
import { useEffect } from "preact/hooks";
import { MOST_BESIDE } from "../address.ts";
import type { Comparison } from "../../sim/study/compare.ts";
import { asking } from "../change/asked.ts";
import { Under } from "../change/Under.tsx";
import { FirstAnswer } from "../page/FirstAnswer.tsx";
import { textIn, verdictIn } from "../sentences.ts";
import { beside, findings, units } from "../state.ts";
import { words as common } from "../words.ts";
import { words } from "../words/beside.ts";
import { Apart } from "./Apart.tsx";
import { Answer, CostTable } from "./Costs.tsx";
import { InStep } from "./InStep.tsx";
import { Scale } from "./Scale.tsx";
import { askAgain, choices, nameOf, shown, type Ready, type Shown } from "./shown.ts";
import { SideTable } from "./SideTable.tsx";
import "./beside.css";

const study = asking<Comparison>("compare");

export function Beside() {
  const plans = shown.value;
  const ready = plans.filter((each): each is Ready => each.run !== null);
  const all = ready.length === plans.length && plans.length > 1;
  return (
    <div class="beside">
      <div class="beside-head">
        <h1 id="side">{words.title}</h1>
        <button type="button" class="to-print" onClick={() => globalThis.print()}>{words.print}</button>
      </div>
      <p class="quiet">{words.lead}</p>
      {findings.value ? <Choices /> : <p class="quiet" role="status"><FirstAnswer /></p>}
      {all && <Compared plans={ready} />}
    </div>
  );
}

function Compared({ plans }: { readonly plans: readonly Ready[] }) {
  const { seed } = plans[0]!.run.findings;
  const documents = plans.map(({ document }) => document);
  const ask = () => study.ask(documents, { seed });
  const key = JSON.stringify([documents, seed]);
  useEffect(ask, [key]);
  const comparison = study.of(documents, { seed })?.result ?? null;
  return (
    <>
      <section class="apart" aria-labelledby="apart">
        <h2 id="apart">{words.apart.title}</h2>
        <Answer plans={plans} comparison={comparison} />
        <div class="apart-two">
          <div class="told-apart">
            <Under study={study} again={ask} />
            {comparison && (
              <>
                <Apart plans={plans} comparison={comparison} />
                <p class="quiet">{words.apart.pairs(comparison.rehearsals)}</p>
                {comparison.notes.length > 0 && <><h3>{words.apart.notes}</h3><ul>{comparison.notes.map((text) => <li key={text} class="quiet">{textIn(units.value, text)}</li>)}</ul></>}
              </>
            )}
          </div>
          <CostTable plans={plans} />
        </div>
      </section>
      <SideTable plans={plans} comparison={comparison} />
      <Scale plans={plans} />
      <InStep plans={plans} />
    </>
  );
}

/** Which plans, and what became of each. */
function Choices() {
  const chosen = beside.value;
  const isFree = (id: string) => !chosen.includes(id);
  const free: Free = { plans: choices.value.plans.filter(isFree), stored: choices.value.stored.filter(isFree) };
  const next = free.plans[0] ?? free.stored[0];
  return (
    <>
      <ol class="choices">
        {shown.value.map((each) => <li key={each.letter}><Choice plan={each} free={free} /></li>)}
        {chosen.length < MOST_BESIDE && next !== undefined && <li><button type="button" onClick={() => { beside.value = [...chosen, next]; }}>{words.add}</button></li>}
      </ol>
      {chosen.length === 0 && <p class="quiet">{words.nothing}</p>}
    </>
  );
}

/** What nobody has chosen yet. */
type Free = typeof choices.value;

function Choice({ plan: { letter, id, name, run, trouble: why, ...plan }, free }: { readonly plan: Shown; readonly free: Free }) {
  const chosen = beside.value;
  const option = (each: string) => <option key={each} value={each}>{nameOf(each)}</option>;
  return (
    <>
      <p class="side-choice">
        <strong class="letter">{letter}</strong>
        {id === null ? <span>{name}{name !== words.plan && <span class="quiet"> {words.own}</span>}</span> : (
          <>
            <select value={id} aria-label={words.choose(letter)} onChange={(event) => { const to = event.currentTarget.value; beside.value = chosen.map((old) => (old === id ? to : old)); }}>
              {option(id)}
              <optgroup label={words.others}>{free.plans.map(option)}</optgroup>
              <optgroup label={words.stored}>{free.stored.map(option)}</optgroup>
            </select>
            {chosen.length > 1 && <button type="button" class="plain" aria-label={words.remove(name)} onClick={() => { beside.value = chosen.filter((old) => old !== id); }}>{words.away}</button>}
          </>
        )}
      </p>
      {run && <p class="headline" data-keeps={String(run.findings.verdict.keepsPace)}>{verdictIn(units.value, run.findings.verdict)}</p>}
      {!run && why === null && <p class="quiet" role="status">{common.asking}</p>}
      {why !== null && <p role="alert">{why} <button type="button" onClick={() => askAgain({ letter, id, name, run, trouble: why, ...plan })}>{words.again}</button></p>}
    </>
  );
}
