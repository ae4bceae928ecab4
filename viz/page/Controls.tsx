/** The plan, to be changed: a slider and an exact box for each figure, and the answer beside them. */
import { LARGEST_CREW, RANGES, controlsOf, isCrewSize, type Amount, type Choice, type Control, type What } from "../controls.ts";
import { shownIn, unitName, written, type UnitSystem } from "../quantity.ts";
import { textIn, verdictIn, wrongHere } from "../sentences.ts";
import { backToExample, changed, edit, edits, findings, plan, problems, rehearsed, trouble, units } from "../state.ts";
import { CONTROL_LABELS, RULES, words } from "../words.ts";
import { WholeDoor } from "../plan/doors.tsx";
import type { BehindRule } from "../../sim/scenario/types.ts";

const GROUPS: readonly Control["group"][] = ["field", "road", "clamp"];

export function Controls() {
  const document = plan.value;
  if (!document) return null;
  const controls = controlsOf(document, findings.value?.defaults ?? [], rehearsed.value?.scenario.fields);
  const known = new Set(controls.flatMap((control) => control.pointers));
  const others = problems.value.filter(({ pointer }) => !known.has(pointer));
  return (
    <form class="controls" id="plan" tabIndex={-1} aria-label={words.controls.title} onSubmit={(event) => event.preventDefault()}>
      <h2>{words.controls.title}</h2>
      {GROUPS.map((group) => (
        <fieldset key={group}>
          <legend>{words.controls.groups[group]}</legend>
          {controls.filter((control) => control.group === group).map((control) => (control.type === "amount" ? <AmountField key={control.id} control={control} /> : <ChoiceField key={control.id} control={control} />))}
        </fieldset>
      ))}
      {(problems.value.length > 0 || trouble.value !== null) && (
        <div class="trouble" role="alert">
          {trouble.value !== null && findings.value ? <p>{trouble.value}</p> : null}
          {problems.value.length > 0 && <p>{words.trouble.unsound}{findings.value ? ` ${words.trouble.still}` : ""}</p>}
          {others.map(({ pointer, detail }) => <p key={pointer + detail}>{textIn(units.value, detail)}</p>)}
        </div>
      )}
      <p class="echo"><strong>{words.answerNow}</strong> {findings.value ? verdictIn(units.value, findings.value.verdict) : words.waitingForFirst}</p>
      {changed.value && <button type="button" onClick={backToExample}>{words.controls.reset}</button>}
      <WholeDoor />
    </form>
  );
}

function wrongWith({ pointers }: Control): string | null {
  const problem = problems.value.find(({ pointer }) => pointers.includes(pointer));
  return problem ? wrongHere(units.value, problem) : null;
}

function AmountField({ control }: { readonly control: Amount }) {
  const system = units.value;
  const { id, what, name, dimension, value } = control;
  const [least, most, stepSize] = RANGES[what][system];
  const shown = value === null ? null : dimension === null ? value : Number(shownIn(value, dimension, system).toFixed(DECIMALS[what][system]));
  const label = CONTROL_LABELS[what](name);
  const unit = dimension === null ? "" : unitName(dimension, system);
  // A crew that there cannot be leaves the plan as it is; what was typed stays and is told.
  const typed = edits.value[id];
  const isNoCrew = (what === "tractors" || what === "crew") && typed !== undefined && !isCrewSize(Number(typed));
  const wrong = isNoCrew ? words.controls.noCrew(typed, LARGEST_CREW) : wrongWith(control);
  const set = (text: string) => {
    const figure = Number(text);
    if (text.trim() === "" || !Number.isFinite(figure)) return;
    edit(id, dimension === null ? String(figure) : written(figure, dimension, system));
  };
  return (
    <div class={wrong === null ? "field" : "field wrong"}>
      <label for={`${id}-slider`}>{label}</label>
      <input id={`${id}-slider`} type="range" min={least} max={Math.max(most, shown ?? most)} step={stepSize} value={shown ?? least}
        aria-valuetext={`${shown ?? words.controls.unread} ${unit}`} onInput={(event) => set(event.currentTarget.value)} />
      <span class="box">
        <input type="number" inputMode="decimal" min="0" step="any" value={isNoCrew ? typed : shown ?? ""} aria-label={words.controls.inWords(label) + (unit ? `, ${unit}` : "")}
          aria-invalid={wrong !== null} aria-describedby={wrong === null ? undefined : `${id}-wrong`} onInput={(event) => set(event.currentTarget.value)} />
        <span class="unit" aria-hidden="true">{unit}</span>
      </span>
      {wrong !== null && <p class="why" id={`${id}-wrong`}>{wrong}</p>}
    </div>
  );
}

/** Decimals kept in the boxes. */
const DECIMALS: Readonly<Record<Exclude<What, "rule">, Readonly<Record<UnitSystem, number>>>> = {
  pace: { metric: 0, us: 0 }, trucks: { metric: 0, us: 0 }, road: { metric: 2, us: 2 }, tips: { metric: 0, us: 0 },
  tractors: { metric: 0, us: 0 }, crew: { metric: 0, us: 0 }, tractor: { metric: 1, us: 0 }, mass: { metric: 1, us: 0 }, layer: { metric: 1, us: 1 },
};

function ChoiceField({ control }: { readonly control: Choice }) {
  const { id, what, name, value, options } = control;
  const wrong = wrongWith(control);
  return (
    <div class="field choice">
      <label for={id}>{CONTROL_LABELS[what](name)}</label>
      <select id={id} value={value} onChange={(event) => edit(id, event.currentTarget.value)}>
        {options.map((option) => <option key={option} value={option}>{RULES[option as BehindRule]}</option>)}
      </select>
      {wrong !== null && <p class="why">{wrong}</p>}
    </div>
  );
}
