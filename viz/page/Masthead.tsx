/** The head of the page: its sheets, and how the reader wants to see them. */
import { signal } from "@preact/signals";
import { ENGLISHES, english } from "../english.ts";
import { PAPERS, SHEETS } from "../sheets.ts";
import { SYSTEMS_SHOWN, paper, paperShown, sheet, units } from "../state.ts";
import { words } from "../words.ts";
import { addressOf } from "../state/memory.ts";

/** On a phone, where there is no room beside the sheets, the choices of how to see it are open. */
const viewOpen = signal(false);

export function Masthead() {
  return (
    <header class="masthead">
      <p class="name">{words.name}</p>
      <nav aria-label={words.sheetsTitle}>
        {SHEETS.map((name) => (
          <a key={name} href={addressOf({ sheet: name, lesson: null })} aria-current={sheet.value === name ? "page" : undefined}>{words.sheets[name]}</a>
        ))}
      </nav>
      <button type="button" class="view-door" aria-expanded={viewOpen.value} aria-controls="view" aria-label={words.viewAll} onClick={() => { viewOpen.value = !viewOpen.value; }}>{words.view}</button>
      <div id="view" class={viewOpen.value ? "view" : "view view-shut"}>
        <fieldset class="systems">
          <legend class="unseen">{words.unitSystem}</legend>
          {SYSTEMS_SHOWN.map((system) => (
            <label key={system}>
              <input type="radio" name="units" checked={units.value === system} onChange={() => { units.value = system; }} />
              {words.systems[system]}
            </label>
          ))}
        </fieldset>
        <label class="choice-small">
          <span>{words.englishTitle}</span>
          <select value={english.value} onChange={(event) => { english.value = ENGLISHES.find((name) => name === event.currentTarget.value) ?? "general"; }}>
            {ENGLISHES.map((name) => <option key={name} value={name}>{words.englishes[name]}</option>)}
          </select>
        </label>
        <label class="choice-small">
          <span>{words.paperTitle}</span>
          <select value={paperShown.value} onChange={(event) => { paper.value = PAPERS.find((name) => name === event.currentTarget.value) ?? null; }}>
            {PAPERS.map((name) => <option key={name} value={name}>{words.papers[name]}</option>)}
          </select>
        </label>
      </div>
    </header>
  );
}
