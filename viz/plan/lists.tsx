/** Inputs for keys that hold a list: several amounts in one box, or any of a few words. */
import type { Json } from "../document.ts";
import { printed, type DimensionName } from "../quantity.ts";
import { units } from "../state.ts";
import { planWords } from "../words/plan.ts";
import { amountsIn, shownOf, unitFor } from "./amounts.ts";
import { TypedBox } from "./TypedBox.tsx";

interface ListProps { readonly said: Json | undefined; say(to: Json): void; takeOut(): void }
interface ListOfProps extends ListProps { readonly dimension: DimensionName; readonly id: string; readonly label: string; readonly invalid: boolean; readonly describedBy: string | undefined; readonly class: string | undefined }

/** Amounts with commas between; taken when the reader leaves the box. */
export function ListOf({ said, dimension, say, takeOut, ...common }: ListOfProps) {
  const items: readonly Json[] = Array.isArray(said) ? said : [];
  const text = items.map((item) => {
    const shown = shownOf(item, dimension, units.value);
    return shown ? `${shown.figure} ${printed(shown.unit)}` : String(item);
  }).join(", ");
  return (
    <TypedBox {...common} maxLength={400} title={planWords.severalHow} placeholder={planWords.asPlan} value={text} style={{ width: `calc(${Math.min(40, Math.max(18, text.length))}ch + 14px)` }}
      take={(now) => {
        if (now === "") takeOut();
        else if (now !== text) say(amountsIn(now, dimension === "share" ? "%" : unitFor(dimension, units.value)));
      }} />
  );
}

interface SeveralProps extends ListProps { readonly id: string; readonly label: string; readonly options: readonly string[] }

export function Several({ id, label, said, options, say, takeOut }: SeveralProps) {
  const chosen: readonly Json[] = Array.isArray(said) ? said : [];
  const turn = (option: string, on: boolean) => {
    const now = options.filter((each) => (each === option ? on : chosen.includes(each)));
    if (now.length === 0) takeOut();
    else say(now);
  };
  return (
    <span class="several" role="group" aria-label={label}>
      {options.map((option) => (
        <label key={option} for={`${id}-${option}`}><input id={`${id}-${option}`} type="checkbox" checked={chosen.includes(option)} onChange={(event) => turn(option, event.currentTarget.checked)} /> {planWords.options[option] ?? option}</label>
      ))}
      {chosen.length === 0 && <span class="quiet">{planWords.asPlan}</span>}
    </span>
  );
}
