/** Takes tickets in: a file, rows pasted, or one of the invented days. */
import { FileChoice } from "../page/FileChoice.tsx";
import { chooseExample, exampleId, findings } from "../state.ts";
import { ticketWords } from "../words/tickets.ts";
import { SETS, takeSet } from "./sets.ts";
import { answers, file, pasted, take, takeFile, trouble } from "./taken.ts";

export function Take() {
  const words = ticketWords.take;
  const now = file.value;
  return (
    <div class="take-in screen-only">
      <FileChoice label={words.choose} accept=".csv,.txt,.tsv,text/csv,text/plain" how={words.how} take={takeFile} />
      <details class="paste">
        <summary>{words.paste}</summary>
        <textarea rows={6} spellcheck={false} aria-label={words.pasteName} value={pasted.value} onInput={(event) => { pasted.value = event.currentTarget.value; }} />
        <button type="button" onClick={() => take({ name: words.pasted, text: pasted.value, encoding: "UTF-8", of: null })}>{words.read}</button>
      </details>
      <p class="take-row"><span class="quiet">{words.shipped}</span> {SETS.map((set) => <button key={set} type="button" onClick={() => void takeSet(set)}>{ticketWords.sets[set]}</button>)}</p>
      {trouble.value !== null && <p class="trouble" role="alert">{trouble.value} {now && words.kept}</p>}
      {now && (
        <p role="status"><strong>{words.now(now.name)}</strong> {now.encoding !== "UTF-8" && words.encoding(now.encoding)}{" "}
          <button type="button" class="plain" onClick={({ currentTarget }) => {
            // The button goes with them, and whoever pressed it by key goes on to the next file.
            currentTarget.closest(".take-in")?.querySelector("input")?.focus();
            file.value = null;
            answers.value = {};
            trouble.value = null;
          }}>{words.forget}</button>
        </p>
      )}
      <Belongs />
    </div>
  );
}

/** An invented day and a plan that is not its own. */
function Belongs() {
  const words = ticketWords.take;
  const of = SETS.find((set) => set === file.value?.of);
  if (of === undefined || exampleId.value === of) return null;
  const day = ticketWords.setDays[of];
  return <p class="trouble">{words.belongs(day, findings.value?.scenario.name ?? "")} <button type="button" onClick={() => chooseExample(of)}>{words.open(day)}</button></p>;
}
