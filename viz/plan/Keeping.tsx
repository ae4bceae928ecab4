/** Plans to start from, plans that are kept, and plans as files. Whatever takes the place of a changed plan lays that aside: nothing is lost. */
import { batch, useSignal } from "@preact/signals";
import { useRef } from "preact/hooks";
import { at, put, type Document } from "../document.ts";
import { saveAs } from "../drawings/save.ts";
import { FileChoice } from "../page/FileChoice.tsx";
import { textIn } from "../sentences.ts";
import { aside, changed, edits, example, exampleId, examples, kept, keptTag, layAside, list, openExample, own, plan, reason, rewrite, takeUp, units } from "../state.ts";
import { fileName } from "../table.ts";
import { words } from "../words.ts";
import { planWords } from "../words/plan.ts";
import type { Problem } from "../../sim/scenario/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { LARGEST, asJson, asYaml, take } from "./files.ts";
import { Refused, archive, idFor, remove, revision, revisions, save, tagOf, takeArchive, type Revision } from "./kept.ts";
import "./plan.css";

/** What there is to say, and what stands in the way of saving. */
interface Said { readonly text: string; readonly wrong: boolean; readonly problems?: readonly Problem[] }
interface Clash { readonly id: string; readonly name: string; readonly tag: string; readonly meanwhile: boolean }

const nameIn = (document: Document | null): string => String(at(document ?? {}, ["name"]) ?? words.name);

export function Keeping() {
  const said = useSignal<Said | null>(null);
  const clash = useSignal<Clash | null>(null);
  const text = planWords.keep;
  const tell = (sentence: string) => { said.value = { text: sentence, wrong: false }; };
  /** Does what may be refused, and tells a refusal in words. */
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
      <Files attempt={attempt} tell={(told) => { said.value = told; }} />
      <Archive attempt={attempt} tell={tell} />
      <Kepts open={open} attempt={attempt} tell={tell} />
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
type Attempt = (what: () => Promise<void>) => Promise<void>;

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

function Files({ attempt, tell }: { readonly attempt: Attempt; tell(said: Said): void }) {
  const text = planWords.keep;
  const out = async (kind: "yaml" | "json") => {
    const document = plan.value!;
    saveAs(fileName(nameIn(document), "plan", kind), new Blob([kind === "yaml" ? await asYaml(document) : asJson(document)], { type: kind === "yaml" ? "application/yaml" : "application/json" }));
  };
  const bring = (file: File) => attempt(async () => {
    const taken = await take(file);
    if ("wrong" in taken) tell({ text: `${taken.wrong} ${text.stays}`, wrong: true });
    else if ("problems" in taken) tell({ text: `${text.broken(file.name)} ${text.stays}`, wrong: true, problems: taken.problems });
    else {
      layAside();
      rewrite(taken.plan);
      tell({ text: text.took(file.name), wrong: false });
    }
  });
  return (
    <>
      <h3>{text.files}</h3>
      <p class="row">
        <button type="button" onClick={() => attempt(() => out("yaml"))}>{text.asYaml}</button>
        <button type="button" onClick={() => attempt(() => out("json"))}>{text.asJson}</button>
      </p>
      <FileChoice label={text.take} accept=".yaml,.yml,.json,application/json,application/yaml" how={text.takeHow(formatNumber(LARGEST, 0))} take={bring} />
    </>
  );
}

/** Everything that the server keeps, out as one file and in again. */
function Archive({ attempt, tell }: { readonly attempt: Attempt; tell(sentence: string): void }) {
  const text = planWords.keep;
  const bring = (file: File) => attempt(async () => {
    const brought = await takeArchive(file);
    tell(text.brought(file.name, brought));
    await list().catch(() => undefined);
  });
  return (
    <>
      <h3>{text.all}</h3>
      <p class="quiet" id="archive-how">{text.allHow}</p>
      <p class="row"><button type="button" aria-describedby="archive-how" onClick={() => attempt(async () => saveAs("clampside-archive.jsonl", await archive()))}>{text.allOut}</button></p>
      <FileChoice label={text.allIn} accept=".jsonl" how={text.allInHow} take={bring} />
    </>
  );
}

function Kepts({ open, attempt, tell }: { open(id: string): Promise<void>; readonly attempt: Attempt; tell(sentence: string): void }) {
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
              <button type="button" aria-label={text.removeOf(name)} aria-expanded={asked.value === id} onClick={() => { asked.value = id; }}>{text.remove}</button>
            </p>
            {asked.value === id && (
              <p class="row asked" role="group" aria-label={text.removeOf(name)}>{text.sure(name)}
                <button type="button" onClick={() => takeAway(id, name)}>{text.yes}</button>
                <button type="button" onClick={() => { asked.value = null; }}>{text.no}</button>
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
