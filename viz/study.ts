/** Asks the server for a study, listens how far it is, waits while the server is busy, and gives it up when nobody wants it any more. */
import { NoResult, TooFast, Unsound } from "./ask.ts";
import type { Document } from "./document.ts";
import type { Problem } from "../sim/scenario/types.ts";

/** What is asked: a kind, its plan or plans, and what the kind takes besides. */
export type StudyAsked = { readonly kind: string } & Readonly<Record<string, unknown>> & ({ readonly scenario: Document } | { readonly scenarios: readonly Document[] });

export interface Heard<SoFar> {
  /** days rehearsed of about so many */ progress?(done: number, expected: number): void;
  /** what there is to show already */ soFar?(found: SoFar): void;
  /** the server is busy: asked again after so many s */ waits?(seconds: number): void;
}

interface Told {
  readonly id: string;
  readonly state: "waiting" | "running" | "done" | "failed" | "cancelled";
  readonly result?: unknown;
  readonly because?: string;
  readonly events: string;
  readonly progress?: { readonly done: number; readonly expected: number };
  readonly soFar?: unknown;
}

const STUDIES = "/api/v1/studies";

/** How often a busy server is asked again, and the longest wait before that, s (assumptions of this project). */
const PATIENT = 6;
const LONGEST_WAIT = 10;
/** ms between two looks at a study whose events cannot be had. */
const LOOK = 1_000;

/**
 * Carries a study out on the server and gives its result. Cancels it there when the signal is aborted.
 * @throws Unsound, TooFast, NoResult, or the network's own error
 */
export async function study<Result, SoFar = never>(asked: StudyAsked, heard: Heard<SoFar>, signal: AbortSignal): Promise<Result> {
  const taken = await takenOn(JSON.stringify(asked), heard, signal);
  if (taken.state === "done") return taken.result as Result;
  const place = `${STUDIES}/${encodeURIComponent(taken.id)}`;
  try {
    await ended(taken.events, heard, signal);
    for (;;) {
      const now = await told(await fetch(place, { signal, headers: { Accept: "application/json" } }));
      if (now.state === "done") return now.result as Result;
      if (now.state === "failed" || now.state === "cancelled") throw new NoResult(now.because ?? now.state);
      // The events broke off before the end: it is looked at now and then instead.
      if (now.progress) heard.progress?.(now.progress.done, now.progress.expected);
      if (now.soFar !== undefined) heard.soFar?.(now.soFar as SoFar);
      await pause(LOOK, signal);
    }
  } catch (error) {
    if (signal.aborted) void fetch(place, { method: "DELETE", keepalive: true }).catch(() => {});
    throw error;
  }
}

async function takenOn(body: string, heard: Pick<Heard<never>, "waits">, signal: AbortSignal): Promise<Told> {
  for (let left = PATIENT; ; left--) {
    const answer = await fetch(STUDIES, { method: "POST", signal, headers: { "Content-Type": "application/json", Accept: "application/json" }, body });
    const seconds = Math.min(LONGEST_WAIT, Math.max(1, Number(answer.headers.get("Retry-After")) || 1));
    if (!isBusy(answer) || left === 0) return told(answer);
    heard.waits?.(seconds);
    await pause(seconds * 1_000, signal);
  }
}

/** Listens until the study is over, or its events cannot be had any more. A line that breaks is taken up again by the browser itself. */
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
    const on = (name: string, listen: (data: string) => void) => source.addEventListener(name, (event) => listen((event as MessageEvent).data as string));
    on("progress", (data) => {
      const { done, expected } = JSON.parse(data) as { done: number; expected: number };
      heard.progress?.(done, expected);
    });
    on("so-far", (data) => heard.soFar?.(JSON.parse(data) as SoFar));
    for (const last of ["done", "failed", "cancelled"]) on(last, () => end(resolve));
    source.addEventListener("error", () => { if (source.readyState === EventSource.CLOSED) end(resolve); });
  });
}

function pause(ms: number, signal: AbortSignal): Promise<void> {
  return new Promise((resolve, reject) => {
    const gaveUp = () => {
      clearTimeout(alarm);
      reject(signal.reason as Error);
    };
    const alarm = setTimeout(() => {
      signal.removeEventListener("abort", gaveUp);
      resolve();
    }, ms);
    signal.addEventListener("abort", gaveUp, { once: true });
  });
}

const isBusy = ({ status }: Response): boolean => status === 429 || status === 503;

async function told(response: Response): Promise<Told> {
  if (response.ok) return (await response.json()) as Told;
  if (isBusy(response)) throw new TooFast();
  const problem = (await response.json().catch(() => ({}))) as { detail?: string; errors?: Problem[] };
  throw new Unsound(problem.errors ?? [{ pointer: "", detail: problem.detail ?? String(response.status) }]);
}
