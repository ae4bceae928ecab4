/** The plans that the server keeps, with their revisions: opened, gone back to, taken away. */
import { batch, useSignal } from "@preact/signals";
import { exampleId, kept, keptTag, layAside, list, openExample, plan, rewrite } from "../state.ts";
import { planWords } from "../words/plan.ts";
import type { Attempt } from "./Keeping.tsx";
import { remove, revision, revisions, tagOf, type Revision } from "./kept.ts";

export function KeptPlans({ open, attempt, tell }: { open(id: string): Promise<void>; readonly attempt: Attempt; tell(sentence: string): void }) {
  const text = planWords.keep;
  const asked = useSignal<string | null>(null);
  const shown = useSignal<{ readonly id: string; readonly all: readonly Revision[] } | null>(null);
  const show = (id: string) => attempt(async () => { shown.value = shown.value?.id === id ? null : { id, all: await revisions(id) }; });
  const backTo = (id: string, number: number) => attempt(async () => {
    const document = await revision(id, number);
    if (id !== exampleId.value) await openExample(id);
    else layAside();
    rewrite(document);
    tell(text.tookBack(number));
  });
  const takeAway = (id: string, name: string) => attempt(async () => {
    await remove(id, await tagOf(id));
    asked.value = null;
    // The line goes, and whoever pressed the button by key goes on where the plan can be kept anew.
    document.getElementById("keep-name")?.focus();
    batch(() => {
      // The page keeps what it shows, as a plan of the reader's own.
      if (id === exampleId.value && plan.value) {
        rewrite(plan.value);
        keptTag.value = null;
      }
    });
    tell(text.removed(name));
    await list().catch(() => undefined);
  });
  return (
    <>
      <h3>{text.kept}</h3>
      {kept.value.length === 0 && <p class="quiet">{text.none}</p>}
      <ul class="kept">
        {kept.value.map(({ id, name, revision: newest, savedAt }) => (
          <li key={id} aria-current={id === exampleId.value ? "true" : undefined}>
            <p class="row">
              <strong>{name}</strong> <span class="quiet">{text.revision(newest, when(savedAt))}</span>
              <button type="button" aria-label={text.openOf(name)} onClick={() => open(id)}>{text.open}</button>
              <button type="button" aria-label={text.revisionsOf(name)} aria-expanded={shown.value?.id === id} onClick={() => show(id)}>{text.revisions}</button>
              <button type="button" id={`take-away-${id}`} aria-label={text.removeOf(name)} aria-expanded={asked.value === id} onClick={() => { asked.value = id; }}>{text.remove}</button>
            </p>
            {asked.value === id && (
              <p class="row asked" role="group" aria-label={text.removeOf(name)}>{text.sure(name)}
                <button type="button" onClick={() => takeAway(id, name)}>{text.yes}</button>
                <button type="button" onClick={() => {
                  document.getElementById(`take-away-${id}`)?.focus();
                  asked.value = null;
                }}>{text.no}</button>
              </p>
            )}
            {shown.value?.id === id && (
              <ol class="revisions">
                {shown.value.all.map(({ revision: number, savedAt: then, takenAway }) => (
                  <li key={number}>{text.revision(number, when(then))} {takenAway ? text.gone : <button type="button" class="plain" onClick={() => backTo(id, number)}>{text.backTo(number)}</button>}</li>
                ))}
              </ol>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}

/** A time as the reader's country writes it. */
const when = (iso: string): string => new Date(iso).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
