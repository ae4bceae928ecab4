/** What the page asks of the server, and how it reads the answers. */
import type { Findings } from "../sim/findings/types.ts";
import type { Problem } from "../sim/scenario/types.ts";
import type { Document } from "./document.ts";

export interface Example { readonly id: string; readonly name: string; readonly shows: string }

/** A plan that the server keeps, at its newest revision. */
export interface Kept { readonly id: string; readonly name: string; readonly revision: number; readonly savedAt: string }

/** The plan is unsound: where, and what would be right. */
export class Unsound extends Error {
  constructor(readonly problems: readonly Problem[]) {
    super("unsound scenario");
  }
}

/** A study that came to no result, with the server's own sentence. */
export class NoResult extends Error {}

/** The server wants fewer questions. */
export class TooFast extends Error {}

/** The worked examples, and the plans that are kept. */
export async function plans(): Promise<{ readonly scenarios: readonly Example[]; readonly saved: readonly Kept[] }> {
  return json(await get("/api/v1/scenarios"));
}

/** A plan, and the tag of its revision for whoever means to change it. */
export async function opened(id: string): Promise<{ readonly document: Document; readonly tag: string | null }> {
  const response = await get(`/api/v1/scenarios/${encodeURIComponent(id)}`);
  return { document: await json<Document>(response), tag: response.headers.get("ETag") };
}

export async function example(id: string): Promise<Document> {
  return json<Document>(await get(`/api/v1/scenarios/${encodeURIComponent(id)}`));
}

/** What a rehearsal may be asked with besides the plan. */
export interface RehearseOptions {
  /** of the luck; left out: the scenario's own */ readonly seed?: number;
  /** days; left out: as many as are usual */ readonly rehearsals?: number;
  /** how the day stands; left out: in the morning */ readonly from?: Document;
}

export async function rehearse(scenario: Document, signal: AbortSignal, options: RehearseOptions = {}): Promise<{ findings: Findings; log: string }> {
  const response = await fetch("/api/v1/rehearsals", {
    method: "POST", signal, body: JSON.stringify({ scenario, ...options }), headers: { "Content-Type": "application/json", Accept: "application/json" },
  });
  return json(response);
}

/** The day that is shown, as JSON lines. */
export async function log(path: string, signal: AbortSignal): Promise<string> {
  const response = await fetch(path, { signal, headers: { Accept: "application/x-ndjson" } });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return response.text();
}

/** The server points into the body of the request, the page into the scenario in it. */
const withinScenario = (problem: Problem): Problem => ({ ...problem, pointer: problem.pointer.replace(/^\/scenario(?=\/|$)/, "") });

const get = (path: string) => fetch(path, { headers: { Accept: "application/json" } });

async function json<T>(response: Response): Promise<T> {
  if (response.ok) return (await response.json()) as T;
  if (response.status === 429) throw new TooFast();
  const problem = (await response.json().catch(() => ({}))) as { detail?: string; errors?: Problem[] };
  if (response.status >= 400 && response.status < 500) throw new Unsound((problem.errors ?? [{ pointer: "", detail: problem.detail ?? String(response.status) }]).map(withinScenario));
  throw new Error(problem.detail ?? String(response.status));
}
