/** What a comparison day by day says: each pair on the same luck, in words. */
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Comparison } from "../../sim/study/compare.ts";
import { Unsound } from "../ask.ts";
import { textIn } from "../sentences.ts";
import { reason, units } from "../state.ts";
import { NoResult, study } from "../study.ts";
import { words } from "../words/beside.ts";
import type { Shown } from "./shown.ts";

const told = signal<{ readonly key: string; readonly comparison: Comparison | null; readonly trouble: string | null } | null>(null);

export function Apart({ plans }: { readonly plans: readonly Shown[] }) {
  const seed = plans[0]!.findings.seed;
  const key = JSON.stringify([seed, plans.map(({ document }) => document)]);
  useEffect(() => {
    const own = new AbortController();
    if (told.value?.key !== key || (told.value.comparison === null && told.value.trouble === null)) {
      told.value = { key, comparison: null, trouble: null };
      study<Comparison>({ kind: "compare", scenarios: plans.map(({ document }) => document), seed }, {}, own.signal).then(
        (comparison) => { if (told.value?.key === key) told.value = { key, comparison, trouble: null }; },
        (error: unknown) => {
          if (own.signal.aborted || told.value?.key !== key) return;
          told.value = { key, comparison: null, trouble: error instanceof Unsound ? error.problems.map(({ detail }) => detail).join(" ") : error instanceof NoResult ? error.message : reason(error) };
        },
      );
    }
    return () => own.abort(new Error("another question"));
  }, [key]);
  const now = told.value?.key === key ? told.value : null;
  const { title, waits, notes } = words.apart;
  /** The study calls its plans A, B, C. */
  const named = (text: string) => plans.reduce((said, { name }, i) => said.replaceAll(new RegExp(`(?<![\\p{L}\\p{N}])${"ABCDEF"[i]}(?![\\p{L}\\p{N}'])`, "gu"), name), text);
  return (
    <section aria-labelledby="apart">
      <h2 id="apart">{title}</h2>
      {now?.comparison
        ? <>
            <ul>{now.comparison.inWords.map((text) => <li key={text}>{named(textIn(units.value, text))}</li>)}</ul>
            {now.comparison.notes.length > 0 && <><h3>{notes}</h3><ul>{now.comparison.notes.map((text) => <li key={text} class="quiet">{named(textIn(units.value, text))}</li>)}</ul></>}
          </>
        : <p class="quiet" role="status">{now?.trouble ?? waits}</p>}
    </section>
  );
}
