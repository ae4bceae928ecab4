/** The whole plan in the trade's order, in sentences whose figures are inputs. */
import { signal } from "@preact/signals";
import { Fragment, type ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import { at, listAt, put, type Path } from "../document.ts";
import { later } from "../page/Later.tsx";
import { textIn, verdictIn } from "../sentences.ts";
import { findings, plan, units } from "../state.ts";
import { capital, words } from "../words.ts";
import { planWords } from "../words/plan.ts";
import { said, withCopy, without, withoutItem } from "./change.ts";
import { keyAt } from "./keys.ts";
import { SECTIONS, tractorsAt, type Group, type Once, type Part, type Things } from "./layout.ts";
import { Slot, Wrong, change, idOf, isWrongWithin, labelOf, optional, placeOf, usualWords, wrongAt } from "./Slot.tsx";
import { Spreads } from "./Spreads.tsx";
import "./plan.css";

export function PlanEditor() {
  if (!plan.value) return null;
  return (
    <form class="whole-plan" aria-label={planWords.whole} onSubmit={(event) => event.preventDefault()}>
      <h2>{planWords.whole}</h2>
      <p class="quiet">{planWords.how}</p>
      <p class="answer-now"><strong>{planWords.answer}:</strong> {findings.value ? verdictIn(units.value, findings.value.verdict) : words.waitingForFirst}</p>
      <Sentence group={NAMED} path={[]} whose="" />
      {SECTIONS.map(({ id, parts }) => (
        <details key={id} class="part" open={!LATE.has(id)}>
          <summary><h3>{planWords.sections[id]}</h3></summary>
          {parts.map((part) => <Fragment key={part.id}><PartOf part={part} />{part.id === "luck" && <Spreads />}</Fragment>)}
          {id === "fields" && <MapDoor />}
        </details>
      ))}
    </form>
  );
}

/** What heads the day sheet and stands beside other plans. */
const NAMED: Group = { id: "plan", place: "", more: [] };

const mapOpen = signal(false);
const FromMap = later(async () => (await import("../map/FromMap.tsx")).FromMap);

/** Fetched when it is opened: reading maps needs the ellipsoid. */
function MapDoor() {
  return (
    <>
      <button type="button" class="add" aria-expanded={mapOpen.value} onClick={() => { mapOpen.value = !mapOpen.value; }}>{planWords.map.open}</button>
      {mapOpen.value && <FromMap />}
    </>
  );
}

/** Folded until asked for. */
const LATE = new Set(["rest", "luckAll", "search"]);

const isThings = (part: Part): part is Things => "list" in part;

function PartOf({ part }: { readonly part: Part }) {
  return isThings(part) ? <ThingsOf things={part} /> : <OnceOf once={part} />;
}

function ThingsOf({ things }: { readonly things: Things }) {
  const { list, id, nameKey, least } = things;
  const items = listAt(plan.value!, list);
  if (things.ifThere && items.length === 0) return null;
  const firstKey = keysIn(planWords.sentences[id]!)[0]!;
  /** id of the first input of what was added and does not stand there yet */
  const comes = useRef<string | null>(null);
  const copy = (i: number) => {
    comes.current = idOf([...list, i + 1, firstKey]);
    change((now) => (items.length > 0 ? withCopy(now, list, i, nameKey) : put(now, list, [NEW[id] ?? {}])));
  };
  // Whoever adds something goes on with it: what is typed takes the place of what was taken over.
  useLayoutEffect(() => {
    const input = comes.current === null ? null : document.getElementById(comes.current) as HTMLInputElement | null;
    comes.current = null;
    input?.focus();
    input?.select();
  });
  return (
    <>
      <ul class="things">
        {items.map((item, i) => {
          const name = nameKey === null ? `${planWords.sections[id]} ${i + 1}` : String(at(item, [nameKey]) ?? `${labelOf(`${things.place}.${nameKey}`)} ${i + 1}`);
          return (
            <li key={i}>
              {typeof item === "string" ? <p>{item}</p> : <Sentence group={things} path={[...list, i]} whose={name}>
                <span class="doing">
                  <button type="button" class="plain" aria-label={planWords.copyOf(name)} onClick={() => copy(i)}>{planWords.copy}</button>
                  <button type="button" class="plain" aria-label={planWords.removeOf(name)} disabled={items.length <= least} title={items.length <= least ? planWords.lastOne : undefined}
                    onClick={() => change((now) => withoutItem(now, list, i))}>{planWords.remove}</button>
                </span>
              </Sentence>}
              {id === "storage" && listAt(item, ["tractors"]).length > 0 && (
                <div class="own-crew"><h4>{planWords.tractorsOf(name)}</h4><ThingsOf things={tractorsAt([...list, i, "tractors"])} /></div>
              )}
            </li>
          );
        })}
      </ul>
      <Wrong path={list} />
      <button type="button" class="add" onClick={() => copy(items.length - 1)}>{planWords.add[id]}</button>
    </>
  );
}

/** What a list that was empty begins with. */
const NEW: Readonly<Record<string, Readonly<Record<string, string>>>> = { breaks: { at: "12:00", for: "30 min" }, tractors: { name: "Tractor 1", mass: "14 t" } };

/** A group that stands in the plan once, in its sentence; also where another sheet asks for it. */
export function OnceOf({ once, whose }: { readonly once: Once; /** whose it is, where several have one */ readonly whose?: string }) {
  const { id, path, starts } = once;
  const called = (words: string | undefined) => (whose === undefined ? undefined : `${whose}: ${words}`);
  const stands = at(plan.value!, path);
  if (starts !== undefined && (stands === undefined || stands === "none")) {
    return <p class="absent">{planWords.without[id]} <button type="button" class="plain" aria-label={called(planWords.put[id])} onClick={() => change((now) => said(now, path, starts))}>{planWords.put[id]}</button><Wrong path={path} /></p>;
  }
  return (
    <Sentence group={once} path={path} whose={whose ?? (path.length === 0 ? "" : planWords.sections[id] ?? "")}>
      {starts !== undefined && <button type="button" class="plain" aria-label={called(planWords.away[id])} onClick={() => change((now) => without(now, path))}>{planWords.away[id]}</button>}
    </Sentence>
  );
}

/** Which helps and folds are open, by the id of what they belong to. */
const opened = signal<ReadonlySet<string>>(new Set());
function turn(id: string): void {
  const others = new Set(opened.value);
  if (!others.delete(id)) others.add(id);
  opened.value = others;
}

/** Keys of a sentence, in its order. */
const keysIn = (sentence: string): string[] => [...sentence.matchAll(/\{-(\w+)\}/g)].map(([, key]) => key!);

interface SentenceProps { readonly group: Group; readonly path: Path; readonly whose: string; readonly children?: ComponentChildren }

function Sentence({ group, path, whose, children }: SentenceProps) {
  const document = plan.value!;
  const wet = at(document, [...path, "moisture"]) !== undefined;
  const text = planWords.sentences[group.id === "crop" && wet ? "cropWet" : group.id]!;
  const keys = keysIn(text);
  const more = group.more.map((key) => (key === "dryMatter" && wet ? "moisture" : key));
  const helpId = `${idOf([group.id, ...path])}-help`;
  const moreId = `${idOf([group.id, ...path])}-more`;
  const inner = (group.inner ?? []).map((part): Once => ({ ...part, place: `${group.place}.${part.id}`, path: [...path, part.id], more: [] }));
  const isWrongInside = more.some((key) => wrongAt([...path, key]) !== null) || inner.some((part) => isWrongWithin(part.path));
  const toSay = planWords.more(more.length + inner.length);
  return (
    <div class="sentence">
      <p>
        {text.split(/(\{-\w+\}[.,:]?)/).map((piece, i) => {
          const found = /^\{-(\w+)\}([.,:]?)$/.exec(piece);
          if (!found) return <span key={i}>{piece}</span>;
          // The mark behind a figure stays on its line.
          return <span key={i} class="slot"><Slot path={[...path, found[1]!]} place={placeOf(group.place, found[1]!)} whose={whose} />{found[2]}</span>;
        })}
        {" "}
        <Ask id={helpId} what={whose === "" ? planWords.sections[group.id] ?? group.id : whose} />
        {children}
      </p>
      {keys.map((key) => <Wrong key={key} path={[...path, key]} />)}
      <Wrong path={path} />
      {opened.value.has(helpId) && (
        <dl class="help" id={helpId}>
          {keys.map((key) => <HelpLine key={key} path={[...path, key]} place={placeOf(group.place, key)} />)}
        </dl>
      )}
      {more.length > 0 && (
        <>
          <button type="button" class="plain more" aria-expanded={opened.value.has(moreId) || isWrongInside} aria-label={`${whose === "" ? "" : `${whose}: `}${toSay}`} onClick={() => turn(moreId)}>{toSay}</button>
          {(opened.value.has(moreId) || isWrongInside) && (
            <>
              <ul class="rows">{more.map((key) => <Row key={key} path={[...path, key]} place={placeOf(group.place, key)} whose={whose} />)}</ul>
              {inner.map((part) => <div key={part.id} class="inner"><OnceOf once={part} whose={whose} /></div>)}
            </>
          )}
        </>
      )}
    </div>
  );
}

function Ask({ id, what }: { readonly id: string; readonly what: string }) {
  const open = opened.value.has(id);
  return <button type="button" class="ask" aria-expanded={open} aria-controls={open ? id : undefined} aria-label={planWords.help(what)} onClick={() => turn(id)}>?</button>;
}

function HelpLine({ path, place }: { readonly path: Path; readonly place: string }) {
  const usual = usualWords(plan.value!, path, place);
  return (
    <>
      <dt>{labelOf(place)}</dt>
      <dd>
        {textIn(units.value, keyAt(place).help)}{usual !== null && ` ${capital(planWords.usualIs(usual.value, usual.mark))}.`} <Back path={path} place={place} />
      </dd>
    </>
  );
}

/** One key that most plans leave out. */
function Row({ path, place, whose }: { readonly path: Path; readonly place: string; readonly whose: string }) {
  const helpId = `${idOf(path)}-help`;
  const usual = usualWords(plan.value!, path, place);
  const said = at(plan.value!, path) !== undefined;
  return (
    <li>
      <label class="row-name" for={idOf(path)}>{labelOf(place)}</label>
      <span class="slot"><Slot path={path} place={place} whose={whose} /> <Ask id={helpId} what={`${whose} ${labelOf(place)}`} /></span>
      <span class="usual">{said ? <Back path={path} place={place} /> : usual === null ? planWords.notSaid : planWords.usualIs(usual.value, usual.mark)}</span>
      <Wrong path={path} />
      {opened.value.has(helpId) && <p class="help" id={helpId}>{textIn(units.value, keyAt(place).help)}{usual !== null && said && ` ${capital(planWords.usualIs(usual.value, usual.mark))}.`}</p>}
    </li>
  );
}

/** The way back to what is usual, for a key that the plan says and need not say. */
function Back({ path, place }: { readonly path: Path; readonly place: string }) {
  if (!optional(plan.value!, path, place) || at(plan.value!, path) === undefined) return null;
  const usual = usualWords(plan.value!, path, place) !== null;
  return (
    <button type="button" class="plain" aria-label={usual ? planWords.backOf(labelOf(place)) : planWords.takeOutOf(labelOf(place))} onClick={() => change((now) => without(now, path))}>
      {usual ? planWords.back : planWords.takeOut}
    </button>
  );
}
