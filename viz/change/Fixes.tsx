/** Remedies as cards, ranked by what the reader looks for first; each can be tried on the plan. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Fixes as Result, FirstRanking, FixRow } from "../../sim/study/fixes.ts";
import { EFFECTS } from "../../sim/study/effectnames.ts";
import type { Effects } from "../../sim/study/effects.ts";
import { LEAST_GAIN, remedyLabel } from "../../sim/study/figuretext.ts";
import { remediesFor, together } from "../../sim/study/remedies.ts";
import { LEFT_STANDING } from "../../sim/study/figures.ts";
import { TableTwin } from "../page/TableTwin.tsx";
import { quantity } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { findings, order, plan, units } from "../state.ts";
import { words } from "../words/change.ts";
import { asking } from "./asked.ts";
import { CautionTexts } from "./CautionTexts.tsx";
import { differenceLabel, limits, reader, signed } from "./reader.ts";
import { Under } from "./Under.tsx";
import { checkedPlan, tryOut } from "./tried.ts";

const study = asking<Result, FirstRanking>("fixes");

/** Does this row move anything for the better? */
export const HELPFUL: ReadonlySet<FixRow["does"]> = new Set(["helps", "mixed", "saves"]);

/** Cards before the reader asks for the rest. */
export const FIRST_SHOWN = 9;

export function Fixes() {
  const document = plan.value;
  // The remedies of a plan that is not yet answered, or that is unsound, would be those of another.
  const answered = findings.value;
  useEffect(() => { if (document && answered) study.ask(document); }, [document, answered]);
  const now = study.now.value;
  const shown = now?.result ?? now?.soFar ?? null;
  const result = now?.result ?? null;
  // Where packing falls behind, what is asked for first is a denser clamp; else a cheaper tonne.
  const first = order.value ?? (answered?.verdict.keepsPace === false ? "density" : "cost");
  const rows = shown ? ranked(shown.rows, shown.ranking[first]) : [];
  const most = useSignal(FIRST_SHOWN);
  const rest = shown?.rows.filter((row) => !HELPFUL.has(row.does)) ?? [];
  return (
    <section aria-labelledby="remedies">
      <div class="change-head">
        <h2 id="remedies" tabIndex={-1}>{words.fixes.title}</h2>
        <label class="choice-small">
          <span>{words.fixes.order}</span>
          <select value={first} onChange={(event) => { order.value = EFFECTS.find((name) => name === event.currentTarget.value) ?? null; }}>
            {EFFECTS.map((name) => <option key={name} value={name}>{words.fixes.orders[name]}</option>)}
          </select>
        </label>
      </div>
      <p class="quiet">{words.lead} {shown && (result ? words.days(result.rehearsals) : words.first(shown.rehearsals))}</p>
      <Under study={study} again={() => { if (document) study.ask(document); }} />
      {result && rows.length === 0 && <p>{words.fixes.nothingHelps}</p>}
      <ol class="cards">{rows.slice(0, most.value).map((row, i) => <Card key={row.id} row={row} told={rows.slice(0, i)} />)}</ol>
      {rows.length > most.value && <button type="button" class="more" onClick={() => { most.value = Infinity; }}>{words.fixes.more(rows.length - most.value)}</button>}
      {result && <TableTwin name={words.fixes.title} head={[words.fixes.title, ...EFFECTS.map((name) => differenceLabel(result.rows.find(({ effects }) => effects)?.effects?.by[name].figure ?? "dryDensity"))]}
        rows={() => result.rows.flatMap((row) => (row.effects ? [[said(row), ...EFFECTS.map((name) => signed(row.effects!.by[name].figure, row.effects!.by[name].mean))]] : []))} />}
      {rest.length > 0 && result && (
        <details class="rest">
          <summary>{words.fixes.rest(rest.length)}</summary>
          <ul>{rest.map((row) => <li key={row.id}><strong>{said(row)}.</strong> {words.fixes.does[row.does]}. {row.why !== null && textIn(units.value, row.why)}</li>)}</ul>
          {result.notTried.length > 0 && <><h3>{words.fixes.notTried}</h3><ul>{result.notTried.map(({ family, because }) => <li key={family + because}>{textIn(units.value, because)}</li>)}</ul></>}
        </details>
      )}
      {result && <Worth result={result} />}
    </section>
  );
}

/** Those that help, in the order of the ranking; the rest of them after it, the cheaper first. */
export function ranked(rows: readonly FixRow[], ranking: readonly string[]): readonly FixRow[] {
  const place = (row: FixRow) => (ranking.indexOf(row.id) + 1 || Infinity);
  return rows.filter((row) => HELPFUL.has(row.does) && row.effects).sort((a, b) => place(a) - place(b) || a.effects!.by.cost.mean - b.effects!.by.cost.mean);
}

export const said = (row: FixRow): string => textIn(units.value, remedyLabel(row, reader()));

interface CardProps { readonly row: FixRow; /** with a button that tries it on the plan */ readonly tries?: boolean; /** rows before it: a caution that one of them has told whole is folded here */ readonly told?: readonly FixRow[] }

export function Card({ row, tries = true, told = [] }: CardProps) {
  const effects = row.effects!;
  const of100 = (share: number) => String(Math.round(100 * share));
  const [before, after] = effects.chance;
  const more = effects.left[1] > LEFT_STANDING && effects.left[1] - effects.left[0] > LEFT_STANDING;
  return (
    <li class={`card does-${row.does}`}>
      <div class="card-head">
        <h3>{said(row)}</h3>
        {tries && <button type="button" aria-label={`${words.fixes.try}: ${said(row)}`} onClick={() => tryOut(said(row), changeOf(row))}>{words.fixes.try}</button>}
      </div>
      <EffectList effects={effects} />
      <p>{findings.value?.rehearsals === 1 ? words.fixes.chanceOne(before > 0.5, after > 0.5) : of100(before) === of100(after) ? words.fixes.chanceSame(of100(after)) : words.fixes.chance(of100(before), of100(after))}</p>
      {more && <p class="outside">{words.fixes.standing(quantity(effects.left[1], "mass", units.value))}</p>}
      {row.withoutLayerTerm && <><p class="quiet">{words.fixes.noLayer}</p><EffectList effects={row.withoutLayerTerm} /></>}
      {row.note !== null && <p class="quiet">{textIn(units.value, row.note)}</p>}
      <CautionTexts cautions={row.cautions} told={told.flatMap(({ cautions }) => cautions)} />
    </li>
  );
}

/** What it moves, and by how much; what it does not move noticeably is left out. */
function EffectList({ effects }: { readonly effects: Effects }) {
  const moved = EFFECTS.map((name) => effects.by[name]).filter(({ moves }) => moves);
  return (
    <dl class="effects">
      {moved.map((effect) => (
        <div key={effect.figure} class={effect.better === null ? "" : effect.better ? "better" : "worse"}>
          <dt>{textIn(units.value, differenceLabel(effect.figure))}{effect.better === false && <strong class="outside"> {words.fixes.worse}</strong>}</dt>
          <dd>{signed(effect.figure, effect.mean)} <span class="quiet">{limits(effect.figure, effect)}</span></dd>
        </div>
      ))}
    </dl>
  );
}

/** The change that a row stands for, worked out anew on the checked plan: a study's answer carries no functions. */
function changeOf(row: FixRow) {
  return (scenario: NonNullable<ReturnType<typeof checkedPlan>>) => {
    const { remedies } = remediesFor(scenario);
    const of = (id: string) => remedies.find((remedy) => remedy.id === id);
    const [a, b] = row.parts.length > 1 ? row.parts.map(of) : [of(row.id), undefined];
    const remedy = a && b ? together(a, b) : a;
    return remedy ? remedy.apply(scenario) : scenario;
  };
}

function Worth({ result }: { readonly result: Result }) {
  const { head, title, none } = words.unit;
  const gains = [...result.marginal].sort((a, b) => b.worth - a.worth);
  const [worth, nothing] = [gains.filter((each) => each.worth >= LEAST_GAIN), gains.filter((each) => each.worth < LEAST_GAIN)];
  return (
    <div class="two">
      <section aria-labelledby="unit">
        <h3 id="unit">{title}</h3>
        <p>{textIn(units.value, result.proof.inWords)}</p>
        {worth.length > 0 && (
          <div class="scroll" tabIndex={0} role="group" aria-label={title}>
            <table>
              <thead><tr><th scope="col" class="left">{head.station}</th><th scope="col" class="left">{head.unit}</th><th scope="col">{head.worth}</th></tr></thead>
              <tbody>
                {worth.map(({ station, unit, worth: gain }) => <tr key={station}><th scope="row" class="left">{textIn(units.value, station)}</th><td class="left">{textIn(units.value, unit)}</td><td>+{(100 * gain).toFixed(1)}</td></tr>)}
              </tbody>
            </table>
          </div>
        )}
        {nothing.length > 0 && <p class="quiet">{none} {textIn(units.value, nothing.map(({ unit }) => unit).join("; "))}.</p>}
      </section>
      {result.sendHome.length > 0 && (
        <section aria-labelledby="home">
          <h3 id="home">{words.home.title}</h3>
          <ul>{result.sendHome.map(({ id, what, inWords }) => <li key={id}><strong>{textIn(units.value, what)}.</strong> {textIn(units.value, inWords)}</li>)}</ul>
        </section>
      )}
    </div>
  );
}
