/** A plan's file, out and in. What comes in is read here, as far as words and brackets go, and judged by the server, before anything on the page changes. */
import { at, type Document } from "../document.ts";
import { LIMITS } from "../../sim/scenario/limits.ts";
import type { Problem } from "../../sim/scenario/types.ts";
import { utf8Of, type Wrong } from "../page/chosen.ts";
import { words } from "../words.ts";

export type Taken = { readonly plan: Document } | Wrong | { readonly problems: readonly Problem[] };

/** Bytes of a file; each is a character at the most. */
export const LARGEST = LIMITS.text;

/** What a plan is called; one without a name is called as the tool. */
export const nameIn = (plan: Document | null): string => String(at(plan ?? {}, ["name"]) ?? words.name);

export const asJson = (plan: Document): string => `${JSON.stringify(plan, null, 2)}\n`;

export async function asYaml(plan: Document): Promise<string> {
  const { stringify } = await import("yaml");
  return stringify(plan, { lineWidth: 0 });
}

/** Reads a file: the plan in it, or why not, with line and column. Rejects when the server cannot be asked. */
export async function take(file: File): Promise<Taken> {
  const text = await utf8Of(file, LARGEST);
  if (typeof text !== "string") return text;
  const { readDocument } = await import("../../sim/scenario/document.ts");
  const read = readDocument(text);
  if ("problem" in read) return { problems: [read.problem] };
  const response = await fetch("/api/v1/rehearsals?rehearsals=1", { method: "POST", body: text, headers: { "Content-Type": "application/yaml", Accept: "application/json" } });
  if (response.ok) return { plan: read.value as Document };
  const problem = (await response.json().catch(() => ({}))) as { detail?: string; errors?: readonly Problem[] };
  return { problems: problem.errors ?? [{ pointer: "", detail: problem.detail ?? String(response.status) }] };
}
