/** Changes to a plan beyond one value: a key taken out, things copied and removed, a name changed wherever it is used. Every plan given stays as it is. */
import { LOSS_SWITCHES } from "../../sim/scenario/types.ts";
import { at, listAt, put, type Document, type Json, type Path } from "../document.ts";

/** The plan with this value at this place, also where one word stood for the whole group so far (`breakdowns: none`, `losses: off`). */
export function said(document: Document, path: Path, value: Json): Document {
  let open = document;
  for (let steps = 1; steps < path.length; steps += 1) {
    const here = path.slice(0, steps);
    const word = at(open, here);
    if (word === undefined || (typeof word === "object" && word !== null)) continue;
    open = put(open, here, here[0] === "losses" && isOff(word) ? Object.fromEntries(LOSS_SWITCHES.map((line) => [line, "off"])) : {});
  }
  return put(open, path, value);
}

export const isOff = (value: Json | undefined): boolean => value === false || value === "off" || value === "no";

/** The plan without this key. */
export function without(document: Document, path: Path): Document {
  const group = at(document, path.slice(0, -1));
  if (typeof group !== "object" || group === null || Array.isArray(group)) return document;
  const { [String(path.at(-1))]: _, ...others } = group as Document;
  return put(document, path.slice(0, -1), others);
}

/** Another one like the one at this place, behind it, under a name that nobody has. */
export function withCopy(document: Document, list: Path, index: number, nameKey: string | null): Document {
  const items = listAt(document, list);
  const item = items[index];
  if (item === undefined) return document;
  const copy = nameKey === null || typeof item !== "object" ? item : put(item, [nameKey], freeName(items, nameKey, String(at(item, [nameKey]) ?? "")));
  return put(document, list, [...items.slice(0, index + 1), copy, ...items.slice(index + 1)]);
}

export function withoutItem(document: Document, list: Path, index: number): Document {
  return put(document, list, listAt(document, list).filter((_, i) => i !== index));
}

/** `Long Strip` -> `Long Strip 2`, `Tipper 2` -> `Tipper 3`: the first that is free. */
export function freeName(items: readonly Json[], nameKey: string, name: string): string {
  const taken = new Set(items.map((item) => at(item, [nameKey])));
  const stem = name.replace(/ \d+$/, "") || "New";
  let number = 2;
  while (taken.has(`${stem} ${number}`)) number += 1;
  return `${stem} ${number}`;
}

/** Where the names of a list's things are used elsewhere in a plan. */
const USED: Readonly<Record<string, readonly (readonly [list: string, key: string])[]>> = {
  choppers: [["fields", "chopper"], ["trucks", "chopper"]],
  storage: [["fields", "storage"]],
};

/** And where one of them is named by the crew search. */
const USED_ONCE: Readonly<Record<string, Path>> = { trucks: ["search", "trucks", "kind"], storage: ["search", "tractors", "storage"] };

/** A thing under another name, and everything that names it. */
export function renamed(document: Document, path: Path, name: string): Document {
  const before = at(document, path);
  const changed = put(document, path, name);
  if (typeof before !== "string") return changed;
  const other = (value: Json | undefined): Json | undefined => (value === before ? name : Array.isArray(value) ? value.map((one: Json) => (one === before ? name : one)) : value);
  const follow = (doc: Document, list: string, key: string): Document => listAt(doc, [list]).reduce((now: Document, item, i) => {
    const value = at(item, [key]);
    return value === undefined ? now : put(now, [list, i, key], other(value)!);
  }, doc);
  const once = USED_ONCE[String(path[0])];
  const named = once !== undefined && at(changed, once) === before ? put(changed, once, name) : changed;
  const followed = (USED[String(path[0])] ?? []).reduce((doc, [list, key]) => follow(doc, list, key), named);
  return path[0] === "packing" ? follow(followed, "storage", "tractors") : followed;
}
