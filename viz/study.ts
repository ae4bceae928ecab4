/** Asks the server for a study, listens how far it is, and gives it up when nobody wants it any more. */
import { TooFast, Unsound } from "./ask.ts";
import type { Document } from "./document.ts";
import type { Problem } from "../sim/scenario/types.ts";

/** What is asked: a kind, its plan or plans, and what the kind takes besides. */
export type StudyAsked = { readonly kind: string } & Readonly<Record<string, unknown>> & ({ readonly scenario: Document } | { readonly scenarios: readonly Document[] });

export interface Heard<SoFar> {
  /** days rehearsed of about so many */ progress?(done: number, expected: number): void;
  /** what there is to show already */ soFar?(found: SoFar): void;
}

/** A study that came to no result, with the server's own sentence. */
export class NoResult extends Error {}

interface Told { readonly id: string; readonly state: string; readonly result?: unknown; readonly because?: string; readonly events: string }

const STUDIES = "/api/v1/studies";

/**
 * Carries a study out on the server and gives its result. Cancels it there when the signal is aborted.
 * @throws Unsound, TooFast, NoResult, or the network's own error
 */
export async function study<Result, SoFar = never>(asked: StudyAsked, heard: Heard<SoFar>, signal: AbortSignal): Promise<Result> {
  const taken = await told(await fetch(STUDIES, { method: "POST", signal, headers: { "Content-Type": "application/json", Accept: "application/json" }, body: JSON.stringify(asked) }));
  if (taken.state === "done") return taken.result as Result;
  const place = `${STUDIES}/${encodeURIComponent(taken.id)}`;
  try {
    await ended(taken.events, heard, signal);
  } catch (error) {
    if (signal.aborted) void fetch(place, { method: "DELETE", keepalive: true }).catch(() => {});
    throw error;
  }
  const done = await told(await fetch(place, { signal, headers: { Accept: "application/json" } }));
  if (done.state !== "done") throw new NoResult(done.because ?? done.state);
  return done.result as Result;
}

/** Listens until the study is over. A line that breaks is taken up again by the browser itself. */
function ended<SoFar>(events: string, heard: Heard<SoFar>, signal: AbortSignal): Promise<void> {
  return new Promise((resolve, reject) => {
    const source = new EventSource(events);
    const end = (settle: () => void) => {
      source.close();
      signal.removeEventListener("abort", gaveUp);
      settle();
    };
    const gaveUp = () => end(() => reject(signal.reason as Error));
    signal.addEventListener("abort", gaveUp);
    if (signal.aborted) return gaveUp();
    const on = (name: string, listen: (data: string) => void) => source.addEventListener(name, (event) => listen((event as MessageEvent<string>).data));
    on("progress", (data) => {
      const { done, expected } = JSON.parse(data) as { done: number; expected: number };
      heard.progress?.(done, expected);
    });
    on("so-far", (data) => heard.soFar?.(JSON.parse(data) as SoFar));
    for (const last of ["done", "failed", "cancelled"]) on(last, () => end(resolve));
    source.addEventListener("error", () => { if (source.readyState === EventSource.CLOSED) end(() => reject(new Error("the line to the study is closed"))); });
  });
}

async function told(response: Response): Promise<Told> {
  if (response.ok) return (await response.json()) as Told;
  if (response.status === 429 || response.status === 503) throw new TooFast();
  const problem = (await response.json().catch(() => ({}))) as { detail?: string; errors?: Problem[] };
  throw new Unsound(problem.errors ?? [{ pointer: "", detail: problem.detail ?? String(response.status) }]);
}
