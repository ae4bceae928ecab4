/** A plan's file, out and in. What comes in is read here, as far as words and brackets go, and judged by the server, before anything on the page changes. */
import type { Document } from "../document.ts";
import { LIMITS } from "../../sim/scenario/limits.ts";
import type { Problem } from "../../sim/scenario/types.ts";

export type Taken = { readonly plan: Document } | { readonly wrong: "too-large" | "no-text" } | { readonly problems: readonly Problem[] };

/** Bytes of a file; each is a character at the most. */
export const LARGEST = LIMITS.text;

/** `1000000` -> `1,000,000`. */
export const grouped = (figure: number): string => String(figure).replace(/\B(?=(\d{3})+$)/g, ",");

export const asJson = (plan: Document): string => `${JSON.stringify(plan, null, 2)}\n`;

export async function asYaml(plan: Document): Promise<string> {
  const { stringify } = await import("yaml");
  return stringify(plan, { lineWidth: 0 });
}

/** Reads a file: the plan in it, or why not, with line and column. Rejects when the server cannot be asked. */
export async function take(file: Blob): Promise<Taken> {
  if (file.size > LARGEST) return { wrong: "too-large" };
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer());
  } catch {
    return { wrong: "no-text" };
  }
  const { readDocument } = await import("../../sim/scenario/document.ts");
  const read = readDocument(text);
  if ("problem" in read) return { problems: [read.problem] };
  const response = await fetch("/api/v1/rehearsals?rehearsals=1", { method: "POST", body: text, headers: { "Content-Type": "application/yaml", Accept: "application/json" } });
  if (response.ok) return { plan: read.value as Document };
  const problem = (await response.json().catch(() => ({}))) as { detail?: string; errors?: readonly Problem[] };
  return { problems: problem.errors ?? [{ pointer: "", detail: problem.detail ?? String(response.status) }] };
}
