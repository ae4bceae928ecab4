/** What the page shows, as text behind the `#` of its address: restorable, short, readable, e.g. `#example=low-meadow&trucks.0=6&at=09:40&units=us`. */
import { deflateSync, inflateSync, strFromU8, strToU8 } from "fflate";
import { EFFECTS, type EffectName } from "../sim/study/effectnames.ts";
import { WHATS, type Edits } from "./controls.ts";
import type { Document } from "./document.ts";
import { ENGLISHES, type English } from "./english.ts";
import { clock, secondsOfClock, type UnitSystem } from "./quantity.ts";
import { PAPERS, SHEETS, STEPS, type Paper, type Sheet, type Step } from "./sheets.ts";

export interface View {
  readonly sheet: Sheet;
  /** id of an open lesson */ readonly lesson: string | null;
  /** how far a room is in it */ readonly step: Step;
  /** its sliders that the room has turned: slider id -> what a document would say, or the plain number */ readonly turned: Readonly<Record<string, string>>;
  /** id of a worked example or of a kept plan; null: the first one there is */ readonly example: string | null;
  /** a plan of the reader's own, whole, in place of the example */ readonly own: Document | null;
  readonly edits: Edits;
  /** the whole plan is open */ readonly whole: boolean;
  /** how the day stands, where somebody has told it */ readonly now: Document | null;
  /** s after midnight, to the second; null: the moment the answer is about */ readonly at: number | null;
  readonly units: UnitSystem;
  readonly english: English;
  /** null: as the system has it */ readonly paper: Paper | null;
  /** what the plan is compared with, none while nobody asked */ readonly beside: readonly string[];
  /** what the reader looks for first in the remedies, null: what the answer suggests */ readonly order: EffectName | null;
  /** farms that a campaign goes on to, ids of plans */ readonly farms: readonly string[];
}

export const PLAIN: View = { sheet: "day", lesson: null, step: "predict", turned: {}, example: null, own: null, edits: {}, whole: false, now: null, at: null, units: "metric", english: "general", paper: null, order: null, beside: [], farms: [] };

/** Longest text an edit may have: more is nobody's quantity. */
const LONGEST = 40;
const EDIT = new RegExp(`^(${WHATS.join("|")})(\\.\\d{1,2}){0,2}$`);
const TURNED = /^turned\.([a-z]{1,20})$/;
const ID = /^[\w-]{1,80}$/;
const OPEN = "open";
/** Plans that one may be held against. */
export const MOST_BESIDE = 3;
/** Farms that a campaign may go on to after the first: as many as the engine takes. */
export const MOST_AFTER = 9;
/** Letters of a whole plan, or of how the day stands, in the address, and bytes that they may unpack to: far beyond any plan that the server takes. */
const LONGEST_OWN = 30_000;
const LARGEST_OWN = 400_000;

/** Reads an address. What it does not know it leaves out; it never throws. */
export function readAddress(hash: string): View {
  const said = new URLSearchParams(hash.replace(/^#/, ""));
  const edits: Record<string, string> = {};
  const turned: Record<string, string> = {};
  for (const [key, value] of said) {
    if (value.length > LONGEST) continue;
    const slider = TURNED.exec(key)?.[1];
    if (slider !== undefined) turned[slider] = value;
    else if (EDIT.test(key)) edits[key] = value;
  }
  const id = (key: string) => {
    const value = said.get(key);
    return value !== null && ID.test(value) ? value : null;
  };
  const ids = (key: string) => (said.get(key) ?? "").split(",").filter((name) => ID.test(name));
  const lesson = id("lesson");
  return {
    sheet: SHEETS.find((name) => name === said.get("sheet")) ?? PLAIN.sheet,
    lesson,
    step: STEPS.find((name) => name === said.get("step")) ?? PLAIN.step,
    turned: lesson === null ? PLAIN.turned : turned,
    example: id("example"),
    own: unpacked(said.get("plan")),
    edits,
    whole: said.get("whole") === OPEN,
    now: unpacked(said.get("now")),
    at: secondsOfClock(said.get("at") ?? ""),
    units: said.get("units") === "us" ? "us" : "metric",
    english: ENGLISHES.find((name) => name === said.get("words")) ?? PLAIN.english,
    paper: PAPERS.find((name) => name === said.get("paper")) ?? null,
    order: EFFECTS.find((name) => name === said.get("order")) ?? null,
    beside: [...new Set(ids("beside"))].slice(0, MOST_BESIDE),
    farms: ids("farms").slice(0, MOST_AFTER),
  };
}

/** The address of a view, with its `#`; empty when there is nothing to say. */
export function writeAddress(view: View): string {
  const said: [string, string][] = [];
  if (view.sheet !== PLAIN.sheet) said.push(["sheet", view.sheet]);
  if (view.lesson !== null) said.push(["lesson", view.lesson]);
  if (view.lesson !== null && view.step !== PLAIN.step) said.push(["step", view.step]);
  if (view.lesson !== null) for (const id of Object.keys(view.turned).sort()) said.push([`turned.${id}`, view.turned[id]!]);
  if (view.example !== null) said.push(["example", view.example]);
  if (view.own !== null) said.push(["plan", packed(view.own)]);
  for (const id of Object.keys(view.edits).sort()) said.push([id, view.edits[id]!]);
  if (view.whole) said.push(["whole", OPEN]);
  if (view.now !== null) said.push(["now", packed(view.now)]);
  if (view.at !== null) said.push(["at", clockToSecond(view.at)]);
  if (view.units !== "metric") said.push(["units", view.units]);
  if (view.english !== PLAIN.english) said.push(["words", view.english]);
  if (view.paper !== null) said.push(["paper", view.paper]);
  if (view.order !== null) said.push(["order", view.order]);
  if (view.beside.length > 0) said.push(["beside", view.beside.join(",")]);
  if (view.farms.length > 0) said.push(["farms", view.farms.join(",")]);
  const text = new URLSearchParams(said).toString().replaceAll("%3A", ":").replaceAll("%2F", "/").replaceAll("%2C", ",");
  return text === "" ? "" : `#${text}`;
}

/** A plan as letters that an address may carry. */
function packed(plan: Document): string {
  const bytes = deflateSync(strToU8(JSON.stringify(plan)), { level: 9 });
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join("")).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

function unpacked(text: string | null): Document | null {
  if (text === null || text === "" || text.length > LONGEST_OWN) return null;
  try {
    const bytes = Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
    // The room given is all that is filled: a plan that unpacks to more is cut short, and then no JSON.
    const plan: unknown = JSON.parse(strFromU8(inflateSync(bytes, { out: new Uint8Array(LARGEST_OWN) })));
    return typeof plan === "object" && plan !== null && !Array.isArray(plan) ? (plan as Document) : null;
  } catch {
    return null;
  }
}

function clockToSecond(time: number): string {
  const seconds = Math.round(time);
  const rest = seconds % 60;
  return rest === 0 ? clock(seconds) : `${clock(seconds)}:${String(rest).padStart(2, "0")}`;
}
