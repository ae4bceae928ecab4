/** Changes that are still possible on a day under way, each rehearsed from how it stands; asked for, because a crew at the clamp looks for the answer first. */
import { useSignal } from "@preact/signals";
import type { Fixes as Result, FirstRanking } from "../../sim/study/fixes.ts";
import { asking } from "../change/asked.ts";
import { Card, FIRST_SHOWN, HELPFUL, ranked, said } from "../change/Fixes.tsx";
import { Under } from "../change/Under.tsx";
import { textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { words as changeWords } from "../words/change.ts";
import { noonWords } from "../words/noon.ts";
import { standing } from "./rest.ts";

const study = asking<Result, FirstRanking>("fixes");

/** What was told last is asked about, also when it was told by the very press on the button that took the hand off its box. */
function ask(): void {
  if (plan.value && standing.value) study.ask(plan.value, { from: standing.value });
}

export function FixesToday() {
  const words = noonWords.fixes;
  const most = useSignal(FIRST_SHOWN);
  // What was worked out for another state of the day is not shown for this one.
  const asked = plan.value && standing.value && study.of(plan.value, { from: standing.value });
  const shown = asked?.result ?? asked?.soFar ?? null;
  const result = asked?.result ?? null;
  const rows = shown ? ranked(shown.rows, shown.ranking.finish) : [];
  const rest = result?.rows.filter((row) => !HELPFUL.has(row.does)) ?? [];
  return (
    <section aria-labelledby="today">
      <h3 id="today">{words.title}</h3>
      {asked ? <Under study={study} again={ask} /> : <p class="screen-only"><button type="button" onClick={ask}>{words.ask}</button></p>}
      {result && <p class="quiet">{words.days(result.rehearsals)}</p>}
      {result && rows.length === 0 && <p>{words.none}</p>}
      <ol class="cards">{rows.slice(0, most.value).map((row) => <Card key={row.id} row={row} tries={false} />)}</ol>
      {rows.length > most.value && <button type="button" onClick={() => { most.value = Infinity; }}>{changeWords.fixes.more(rows.length - most.value)}</button>}
      {result && rest.length > 0 && (
        <details class="rest">
          <summary>{words.rest(rest.length)}</summary>
          <ul>{rest.map((row) => <li key={row.id}><strong>{said(row)}</strong> {row.why !== null && textIn(units.value, row.why)}</li>)}</ul>
        </details>
      )}
      {result && result.notTried.length > 0 && (
        <details class="rest">
          <summary>{words.notTried}</summary>
          <ul>{result.notTried.map(({ family, because }) => <li key={family + because}>{textIn(units.value, because)}</li>)}</ul>
        </details>
      )}
    </section>
  );
}
