/** Keeping the plan on the page, and the ways to other plans. Whatever takes the place of a changed plan lays that aside: nothing is lost. */
import { batch, useSignal } from "@preact/signals";
import { useRef } from "preact/hooks";
import type { Problem } from "../../sim/scenario/types.ts";
import { at, put } from "../document.ts";
import { textIn } from "../sentences.ts";
import { aside, changed, edits, example, exampleId, examples, kept, keptTag, list, openExample, own, plan, reason, takeUp, units } from "../state.ts";
import { planWords } from "../words/plan.ts";
import { nameIn } from "./files.ts";
import { Refused, idFor, save } from "./kept.ts";
import { KeptPlans } from "./KeptPlans.tsx";
import { Archive, PlanFiles } from "./PlanFiles.tsx";
import "./plan.css";

/** What there is to say, and what stands in the way of saving. */
export interface Said { readonly text: string; readonly wrong: boolean; readonly problems?: readonly Problem[] }
interface Clash { readonly id: string; readonly name: string; readonly tag: string; readonly meanwhile: boolean }

export function Keeping() {
  const said = useSignal<Said | null>(null);
  const clash = useSignal<Clash | null>(null);
  const text = planWords.keep;
  const tell = (sentence: string) => { said.value = { text: sentence, wrong: false }; };
  const attempt = async (what: () => Promise<void>) => {
    said.value = null;
    try {
      await what();
    } catch (error) {
      said.value = { text: text.refused(error instanceof Refused ? error.message : reason(error)), wrong: true };
    }
  };
  const keep: Keep = (id, name, tag) => attempt(async () => {
    if (id === "") {
      said.value = { text: text.needsName, wrong: true };
      return;
    }
    const document = at(plan.value!, ["name"]) === name ? plan.value! : put(plan.value!, ["name"], name);
    try {
      const saved = await save(id, document, tag);
      clash.value = null;
      batch(() => {
        // What the reader changed while the save was under way stays a change.
        const further = plan.value !== null && JSON.stringify(put(plan.value, ["name"], name)) !== JSON.stringify(put(document, ["name"], name)) ? put(plan.value, ["name"], name) : null;
        exampleId.value = id;
        example.value = document;
        keptTag.value = saved.tag;
        own.value = further;
        edits.value = {};
      });
      tell(text.saved(name, saved.revision));
      // Saved is saved, even when the list of plans cannot be had just now.
      await list().catch(() => undefined);
    } catch (error) {
      if (!(error instanceof Refused && error.status === 412)) throw error;
      // No tag: what was kept there was taken away meanwhile, and the name is free again.
      if (error.tag === null) return keep(id, name, null);
      clash.value = { id, name, tag: error.tag, meanwhile: tag !== null };
    }
  });
  const open = (id: string) => attempt(async () => {
    await openExample(id);
    clash.value = null;
  });

  return (
    <section class="keeping" aria-label={text.title}>
      <Here keep={keep} />
      {clash.value !== null && <Clashed clash={clash.value} keep={keep} open={open} leave={() => { clash.value = null; document.getElementById("keep-name")?.focus(); }} />}
      <div role="status" class={said.value?.wrong ? "trouble" : undefined}>
        {said.value !== null && <p>{said.value.text}</p>}
        {said.value?.problems?.map(({ pointer, detail, line, column }) => <p key={pointer + detail}>{line !== undefined && column !== undefined && text.place(line, column)}{textIn(units.value, detail)}</p>)}
      </div>
      {aside.value !== null && <p>{text.aside(nameIn(aside.value.document))} <button type="button" onClick={() => { if (aside.value) takeUp(aside.value); }}>{text.takeBack}</button></p>}
      <KeptPlans open={open} attempt={attempt} tell={tell} />
      <PlanFiles attempt={attempt} tell={(told) => { said.value = told; }} />
      <Archive attempt={attempt} tell={tell} />
      <h3>{text.templates}</h3>
      <ul class="templates">
        {examples.value.map(({ id, name, shows }) => (
          <li key={id} aria-current={id === exampleId.value ? "true" : undefined}>
            <button type="button" class="plain" aria-label={text.startFromOf(name)} onClick={() => open(id)}>{name}</button>
            <p class="quiet">{textIn(units.value, shows)}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}

type Keep = (id: string, name: string, tag: string | null) => Promise<void>;
/** Does what may be refused, and tells a refusal in words. */
export type Attempt = (what: () => Promise<void>) => Promise<void>;

/** The plan on the page: where it comes from, and where it goes. */
function Here({ keep }: { readonly keep: Keep }) {
  const text = planWords.keep;
  const named = useRef<HTMLInputElement>(null);
  const stamp = kept.value.find(({ id }) => id === exampleId.value);
  const from = examples.value.find(({ id }) => id === exampleId.value)?.name ?? "";
  const name = nameIn(plan.value);
  return (
    <>
      <h3>{text.here}</h3>
      <p>{stamp ? text.of(stamp.name, stamp.revision) : text.fromExample(from)} {changed.value && text.changed}</p>
      <form class="row" onSubmit={(event) => { event.preventDefault(); void keep(idFor(named.current!.value), named.current!.value.trim(), null); }}>
        {stamp && keptTag.value !== null && <button type="button" disabled={!changed.value} onClick={() => keep(stamp.id, name, keptTag.value)}>{text.save}</button>}
        <label for="keep-name">{text.name}</label>
        <input id="keep-name" ref={named} type="text" maxLength={80} key={name} defaultValue={name} />
        <button type="submit">{text.saveAs}</button>
      </form>
    </>
  );
}

function Clashed({ clash: { id, name, tag, meanwhile }, keep, open, leave }: { readonly clash: Clash; readonly keep: Keep; open(id: string): Promise<void>; leave(): void }) {
  const text = planWords.keep;
  return (
    <div class="trouble" role="alert">
      <p>{meanwhile ? text.meanwhile(name) : text.taken(name)}</p>
      <p class="row">
        <button type="button" onClick={() => keep(id, name, tag)}>{text.mineOnTop}</button>
        <button type="button" onClick={() => open(id)}>{text.openTheirs}</button>
        <button type="button" onClick={leave}>{text.otherName}</button>
      </p>
    </div>
  );
}
