/** The farms that a campaign goes on to after the plan's own: worked examples or kept plans, in their order. */
import { computed, effect, signal } from "@preact/signals";
import { MOST_AFTER } from "../address.ts";
import * as server from "../ask.ts";
import type { Document } from "../document.ts";
import { examples, kept, reason } from "../state.ts";
import { farms } from "../state/farms.ts";
import { campaignWords as words } from "../words/campaign.ts";

/** By id: the plan, or why it could not be had. */
const fetched = signal<Readonly<Record<string, Document | string>>>({});

effect(() => {
  for (const id of farms.value) {
    if (fetched.peek()[id] !== undefined) continue;
    const take = (found: Document | string) => { fetched.value = { ...fetched.peek(), [id]: found }; };
    server.example(id).then(take, (error: unknown) => take(reason(error)));
  }
});

/** Their plans; null while one of them is still on its way or could not be had. */
export const farmDocuments = computed<readonly Document[] | null>(() => {
  const all = farms.value.map((id) => fetched.value[id]);
  return all.every((each): each is Document => typeof each === "object") ? all : null;
});

export function Farms() {
  const choices = [...examples.value, ...kept.value];
  const nameOf = (id: string) => choices.find((each) => each.id === id)?.name ?? id;
  const change = (place: number, id: string | null) => { farms.value = id === null ? farms.value.filter((_, i) => i !== place) : farms.value.map((each, i) => (i === place ? id : each)); };
  return (
    <>
      <ol class="farms">
        {farms.value.map((id, i) => {
          const found = fetched.value[id];
          return (
            <li key={i}>
              <span>{words.then}</span>{" "}
              <select value={id} aria-label={words.choose(i + 2)} onChange={(event) => change(i, event.currentTarget.value)}>
                {choices.map((each) => <option key={each.id} value={each.id}>{each.name}</option>)}
              </select>{" "}
              <button type="button" class="plain" aria-label={words.remove(nameOf(id))} onClick={() => change(i, null)}>{words.away}</button>
              {typeof found === "string" && <p class="why" role="alert">{words.farmTrouble(nameOf(id), found)}</p>}
            </li>
          );
        })}
      </ol>
      <p>
        {farms.value.length < MOST_AFTER && choices[0] && <button type="button" class="add" onClick={() => { farms.value = [...farms.value, choices[0]!.id]; }}>{words.add}</button>}
        {farms.value.length > 0 && <span class="quiet"> {words.fleet}</span>}
      </p>
    </>
  );
}
