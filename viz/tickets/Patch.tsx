/** What the tickets would change in the plan on the page, taken over at once and taken back. */
import type { Change, Patch as Patched, Written } from "../../sim/study/tickets/patch.ts";
import { takeBack, tryPlan } from "../change/tried.ts";
import { at } from "../document.ts";
import { textIn } from "../sentences.ts";
import { plan, tried, units } from "../state.ts";
import { capital } from "../words.ts";
import { ticketWords } from "../words/tickets.ts";
import { patchedDocument } from "./patched.ts";
import { file } from "./taken.ts";

export function Patch({ patch }: { readonly patch: Patched | null }) {
  const words = ticketWords.patch;
  const document = plan.value;
  if (!patch || !document) return <section aria-labelledby="patch"><h2 id="patch">{words.title}</h2><p role="status">{words.waiting}</p></section>;
  const what = words.what(file.value?.name ?? "");
  const place = tried.value.findLastIndex((each) => each.what === what);
  const patched = patchedDocument(document, patch);
  const isIn = JSON.stringify(patched) === JSON.stringify(document);
  return (
    <section aria-labelledby="patch">
      <h2 id="patch">{words.title}</h2>
      {patch.changes.length === 0 ? <p>{words.nothing}</p> : (
        <>
          <div class="scroll" tabIndex={0} role="group" aria-label={words.title}>
            <table class="wraps">
              <thead><tr>{words.head.map((text, i) => <th key={text} scope="col" class={i === 3 ? "" : "left"}>{text}</th>)}</tr></thead>
              <tbody>
                {patch.changes.map((change) => (
                  <tr key={change.path.join("/")}>
                    <th scope="row" class="left">{words.names[nameOf(change)] ?? change.path.join(" ")}</th>
                    <td class="left">{written(at(document, change.path) as Written | undefined)}</td><td class="left">{written(change.value)}</td><td>{change.n}</td>
                    <td class="left why-so">
                      {capital(textIn(units.value, change.because))}
                      {change.fit !== null && <details class="how-chosen screen-only"><summary>{words.chosen}<span class="unseen">: {words.names[nameOf(change)]}</span></summary><p>{capital(change.fit)}</p></details>}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <p class="asks screen-only">
            {/* One button in and out, so that whoever pressed it by key stays on it. */}
            {(!isIn || place >= 0) && <button key="do" type="button" onClick={() => (isIn ? takeBack(place) : tryPlan(what, patched))}>{isIn ? words.back : words.take}</button>}
            {!isIn && place >= 0 && <button type="button" class="plain" onClick={() => takeBack(place)}>{words.back}</button>}
            {isIn && <span role="status">{words.taken}</span>}
          </p>
        </>
      )}
      {patch.cannot.length > 0 && <><h3>{words.cannot}</h3><ul class="said">{patch.cannot.map((sentence) => <li key={sentence}>{textIn(units.value, sentence)}</li>)}</ul></>}
    </section>
  );
}

/** Without the place in a list. */
const nameOf = ({ path }: Change): string => path.filter((step) => typeof step === "string").join("/");

function written(value: Written | undefined): string {
  if (value === undefined) return ticketWords.patch.unsaid;
  return typeof value === "object" ? ticketWords.patch.shape(value.shape, value.cv ?? null) : textIn(units.value, String(value));
}
