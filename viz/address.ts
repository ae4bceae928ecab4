/** What the page shows, as text behind the `#` of its address: restorable, short, readable, e.g. `#example=low-meadow&trucks.0=6&at=09:40&units=us`. */
import { WHATS, type Edits } from "./controls.ts";
import { clock, secondsOfClock, type UnitSystem } from "./quantity.ts";

export interface View {
  /** null: the first one there is */ readonly example: string | null;
  readonly edits: Edits;
  /** s after midnight, to the second; null: the moment the answer is about */ readonly at: number | null;
  readonly units: UnitSystem;
  /** what the plan is compared with, or null while nobody asked */ readonly beside: string | null;
}

export const PLAIN: View = { example: null, edits: {}, at: null, units: "metric", beside: null };

/** Longest text an edit may have: more is nobody's quantity. */
const LONGEST = 40;
const EDIT = new RegExp(`^(${WHATS.join("|")})(\\.\\d{1,2}){0,2}$`);

/** Reads an address. What it does not know it leaves out; it never throws. */
export function readAddress(hash: string): View {
  const said = new URLSearchParams(hash.replace(/^#/, ""));
  const edits: Record<string, string> = {};
  for (const [key, value] of said) if (EDIT.test(key) && value.length <= LONGEST) edits[key] = value;
  const id = (key: string) => {
    const value = said.get(key);
    return value !== null && /^[\w-]{1,80}$/.test(value) ? value : null;
  };
  return {
    example: id("example"),
    edits,
    at: secondsOfClock(said.get("at") ?? ""),
    units: said.get("units") === "us" ? "us" : "metric",
    beside: id("beside"),
  };
}

/** The address of a view, with its `#`; empty when there is nothing to say. */
export function writeAddress(view: View): string {
  const said: [string, string][] = [];
  if (view.example !== null) said.push(["example", view.example]);
  for (const id of Object.keys(view.edits).sort()) said.push([id, view.edits[id]!]);
  if (view.at !== null) said.push(["at", clockToSecond(view.at)]);
  if (view.units !== "metric") said.push(["units", view.units]);
  if (view.beside !== null) said.push(["beside", view.beside]);
  const text = new URLSearchParams(said).toString().replaceAll("%3A", ":").replaceAll("%2F", "/");
  return text === "" ? "" : `#${text}`;
}

function clockToSecond(time: number): string {
  const seconds = Math.round(time);
  const rest = seconds % 60;
  return rest === 0 ? clock(seconds) : `${clock(seconds)}:${String(rest).padStart(2, "0")}`;
}
