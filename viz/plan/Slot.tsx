/** The input of one key of the plan: as its kind wants it, with what is usual where the plan is silent. */
import { at, listAt, put, type Document, type Json, type Path } from "../document.ts";
import { pointerOf } from "../../sim/scenario/words.ts";
import { printed } from "../quantity.ts";
import { wrongHere } from "../sentences.ts";
import { plan, problems, rehearsed, rewrite, units } from "../state.ts";
import { planWords } from "../words/plan.ts";
import { endsIn, shownOf, typed, unitFor } from "./amounts.ts";
import { isOff, renamed, said as saying, without } from "./change.ts";
import { DragNumber } from "./DragNumber.tsx";
import { BY_ACTIVITY, keyAt, measuredAt, usualAt, type Usual } from "./keys.ts";
import { ListOf, Several } from "./lists.tsx";
import { typicalByActivity } from "./spreads.ts";
import { TypedBox } from "./TypedBox.tsx";

export interface SlotProps {
  readonly path: Path;
  /** in the tables: `fields[].area` */ readonly place: string;
  /** whose it is, for those who do not see the sentence */ readonly whose: string;
}

/** Writes to the plan as it now stands, however long ago the input was drawn. */
export function change(how: (document: Document) => Document): void {
  if (plan.value) rewrite(how(plan.value));
}

export const placeOf = (group: string, key: string): string => (group === "" ? key : `${group}.${key}`);
export const labelOf = (place: string): string => planWords.placed[place] ?? planWords.labels[place.split(".").at(-1)!] ?? place;
export const idOf = (path: Path): string => `plan-${path.join("-")}`;

/** What is wrong at this very place. */
export function wrongAt(path: Path): string | null {
  const pointer = pointerOf(path);
  const problem = problems.value.find((each) => each.pointer === pointer);
  return problem ? wrongHere(units.value, problem) : null;
}

/** Whether anything is wrong at this place or within it. */
export function isWrongWithin(path: Path): boolean {
  const pointer = pointerOf(path);
  return problems.value.some((problem) => problem.pointer === pointer || problem.pointer.startsWith(`${pointer}/`));
}

/** What stands where the plan is silent: as measured on its outline, or as it is usual. */
function standing(document: Document, path: Path, place: string): Usual | null {
  if (place.startsWith("losses.") && isOff(at(document, ["losses"]))) return { value: "off", mark: planWords.allOff };
  return isMeasured(document, path, place) ? measuredAt(rehearsed.value?.scenario ?? null, document, path, planWords.map.measured) : usualAt(document, path, place);
}

/** The same in the reader's units; null where nothing stands. */
export function usualWords(document: Document, path: Path, place: string): Usual | null {
  const usual = standing(document, path, place);
  if (usual === null) return null;
  const { kind } = keyAt(place);
  const shown = kind.is === "amount" ? shownOf(usual.value, kind.dimension, units.value) : null;
  if (kind.is === "switch") return { value: usual.value === "on" ? planWords.on : planWords.off, mark: usual.mark };
  return { value: shown ? `${shown.figure} ${printed(shown.unit)}` : planWords.options[usual.value] ?? usual.value, mark: usual.mark };
}

export function Slot({ path, place, whose }: SlotProps) {
  const document = plan.value!;
  const { kind } = keyAt(place);
  const said = at(document, path);
  const usual = said === undefined ? standing(document, path, place) : null;
  const value = said ?? usual?.value;
  const wrong = wrongAt(path) !== null;
  const id = idOf(path);
  const label = whose === "" ? labelOf(place) : `${whose}: ${labelOf(place)}`;
  const common = { id, "aria-label": label, "aria-invalid": wrong, "aria-describedby": wrong ? `${id}-wrong` : undefined, class: said === undefined ? "as-usual" : undefined };
  const say = (to: Json) => change((now) => saying(now, path, to));
  const takeOut = () => change((now) => without(now, path));

  const names = namesFor(document, place);
  if (names !== null) return <Names {...common} said={said} names={names} say={(to) => change((now) => (to === "" ? without(now, path) : put(now, path, to)))} nothing={NOTHING[place] ?? planWords.any} />;
  if (kind.is === "amounts") return <ListOf id={id} label={label} invalid={wrong} describedBy={common["aria-describedby"]} class={common.class} said={said} dimension={kind.dimension} say={say} takeOut={takeOut} />;
  if (kind.is === "several") return <Several id={id} label={label} said={said} options={kind.options} say={say} takeOut={takeOut} />;
  if (kind.is === "choice" || kind.is === "switch") {
    const options = kind.is === "switch" ? ["on", "off"] : kind.options;
    const chosen = place === "variation" && typeof value === "object" ? BY_ACTIVITY : value === true || value === "yes" ? "on" : value === false || value === "no" ? "off" : value;
    return (
      <select {...common} value={typeof chosen === "string" ? chosen : ""} onChange={(event) => say(event.currentTarget.value === BY_ACTIVITY ? typicalByActivity() : event.currentTarget.value)}>
        {(typeof chosen !== "string" || !options.includes(chosen)) && <option value={typeof chosen === "string" ? chosen : ""}>{chosen === undefined ? planWords.notSaid : typeof chosen === "string" ? chosen : planWords.asWritten}</option>}
        {options.map((option) => <option key={option} value={option}>{kind.is === "switch" ? (option === "on" ? planWords.on : planWords.off) : planWords.options[option] ?? option}</option>)}
      </select>
    );
  }
  if (kind.is === "text") {
    return (
      <TypedBox id={id} label={label} invalid={wrong} describedBy={common["aria-describedby"]} class={common.class} maxLength={80} placeholder={planWords.notSaid} value={typeof value === "string" ? value : ""}
        style={{ width: `calc(${Math.min(24, Math.max(5, 0.95 * String(value ?? planWords.notSaid).length)).toFixed(1)}ch + 14px)` }}
        take={(text) => {
          if (text === "") change((now) => without(now, path));
          else if (text !== value) change((now) => (/(name|kind)$/.test(place) ? renamed(now, path, text) : saying(now, path, text)));
        }} />
    );
  }
  const shown = kind.is === "amount" ? shownOf(value, kind.dimension, units.value) : typeof value === "number" || /^\d+$/.test(String(value)) ? { figure: Number(value), unit: "" } : null;
  const unit = shown?.unit ?? (kind.is === "amount" ? unitFor(kind.dimension, units.value) : "");
  const [least, most] = kind.is === "amount" ? endsIn(unit, kind.dimension, kind.least, kind.most) : [kind.least, kind.most];
  const readable = (text: string) => (kind.is === "amount" ? shownOf(typed(text, unit), kind.dimension, units.value) !== null : /^\d+$/.test(text.trim()));
  const set = (text: string) => say(kind.is === "amount" ? typed(text, unit) : /^\d+(\.\d+)?$/.test(text.trim()) ? Number(text) : text);
  return (
    <DragNumber id={id} label={label} figure={shown?.figure ?? null} text={shown ? String(shown.figure) : typeof value === "string" || typeof value === "number" ? String(value) : ""} unit={unit} least={least} most={most}
      usual={said === undefined} wrong={wrong} describedBy={common["aria-describedby"]} readable={readable} set={set} emptied={() => { if (optional(document, path, place)) change((now) => without(now, path)); }} />
  );
}

/** Keys that a plan cannot be without: an emptied box shows again what stood there. */
const ALWAYS = new Set([
  "fields[].area", "fields[].yield", "fields[].distance", "choppers[].width", "choppers[].speed", "choppers[].throughput", "trucks[].count", "storage[].width", "storage[].length", "storage[].height",
  "tractors[].mass", "lane.length", "lane.speed", "weighing.time", "shift.breaks[].for", "shift.breaks[].at", "herd.head", "herd.intake",
  "fields[].opening.time", "fields[].opening.pace", "search.trucks.from", "search.trucks.to", "search.tractors.from", "search.tractors.to", "search.tractors.list[].mass",
  ...["choppers[].", "trucks[].", "tractors[].", "search.tractors.list[]."].flatMap((machine) => [`${machine}breakdowns.between`, `${machine}breakdowns.repair`]),
  ...["choppers", "trucks", "tractors"].flatMap((kind) => [`breakdowns.${kind}.between`, `breakdowns.${kind}.repair`]),
]);

/** What stands for a name that the plan does not say, where it is not any. */
const NOTHING: Readonly<Record<string, string>> = { "fields[].storage": planWords.anyStorage, "search.trucks.kind": planWords.mostTrucks, "search.tractors.storage": planWords.onlyStorage };

/** Whether a plan may leave this key out. */
export const optional = (document: Document, path: Path, place: string): boolean => (!ALWAYS.has(place) && place !== "storage[].form") || isMeasured(document, path, place);

/** What an outline stands for; a gate gives the road alone. */
function isMeasured(document: Document, path: Path, place: string): boolean {
  const has = (key: string) => at(document, [...path.slice(0, -1), key]) !== undefined;
  if (place === "fields[].distance") return has("outline") || has("gate");
  return (place === "fields[].area" || place === "fields[].rowLength") && has("outline");
}

/** The names that would do, for a key that names something else of the plan. */
function namesFor(document: Document, place: string): readonly string[] | null {
  const [list, key] = NAMED[place] ?? [null, ""];
  if (list === null) return null;
  return listAt(document, [list]).map((item) => at(item, [key])).filter((name): name is string => typeof name === "string");
}

const NAMED: Readonly<Record<string, readonly [list: string, key: string]>> = {
  "fields[].storage": ["storage", "name"], "fields[].chopper": ["choppers", "name"], "trucks[].chopper": ["choppers", "name"], "search.trucks.kind": ["trucks", "kind"], "search.tractors.storage": ["storage", "name"],
};

interface NamesProps { readonly said: Json | undefined; readonly names: readonly string[]; readonly nothing: string; say(to: string): void; readonly id: string; readonly class: string | undefined }

function Names({ said, names, nothing, say, ...common }: NamesProps) {
  const strange = said !== undefined && !(typeof said === "string" && names.includes(said));
  return (
    <select {...common} value={strange ? "\u0000" : (said as string | undefined) ?? ""} onChange={(event) => { if (event.currentTarget.value !== "\u0000") say(event.currentTarget.value); }}>
      <option value="">{nothing}</option>
      {strange && <option value={"\u0000"}>{Array.isArray(said) ? said.join(", ") : String(said)}</option>}
      {names.map((name) => <option key={name} value={name}>{name}</option>)}
    </select>
  );
}

/** What is wrong at this place, under it. */
export function Wrong({ path }: { readonly path: Path }) {
  const wrong = wrongAt(path);
  return wrong === null ? null : <p class="why" id={`${idOf(path)}-wrong`}>{wrong}</p>;
}
