/** The scenario document as the page holds it: plain JSON, quantities as strings with units, read and changed by path. */

import type { Path } from "../sim/scenario/words.ts";

export type { Path };

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
export type Document = { readonly [key: string]: Json };


/** What stands at a path, or undefined when nothing does. */
export function at(document: Json | undefined, path: Path): Json | undefined {
  let here: Json | undefined = document;
  for (const step of path) {
    if (typeof here !== "object" || here === null) return undefined;
    here = (here as Record<string | number, Json | undefined>)[step];
  }
  return here;
}

/** The list at a path; empty when there is none. */
export function listAt(document: Json | undefined, path: Path): readonly Json[] {
  const found = at(document, path);
  return Array.isArray(found) ? found : [];
}

/** The document with this value at this path; the original stays as it is. Missing maps on the way are made. */
export function put<T extends Json>(document: T, path: Path, value: Json): T {
  const [step, ...rest] = path;
  if (step === undefined) return value as T;
  const inner = put(at(document, [step]) ?? {}, rest, value);
  if (Array.isArray(document)) return document.map((item, i) => (i === step ? inner : item)) as unknown as T;
  return { ...(document as object), [step]: inner } as unknown as T;
}
