/** One study of a sheet: asked for the plan, or the plans, as they stand, followed, kept by plan so that coming back shows it again, given up at once. */
import { signal, type ReadonlySignal } from "@preact/signals";
import type { Document } from "../document.ts";
import { reason } from "../state.ts";
import { study } from "../study.ts";
import { words } from "../words/change.ts";

export interface Asked<Result, SoFar> {
  /** the plan and options that this stands for */ readonly key: string;
  readonly result: Result | null;
  readonly soFar: SoFar | null;
  /** days done and expected while under way, else null */ readonly progress: { readonly done: number; readonly expected: number } | null;
  /** s until a busy server is asked again, else null */ readonly waits: number | null;
  /** why there is none, in words */ readonly trouble: string | null;
}

export interface Asking<Result, SoFar> {
  readonly now: ReadonlySignal<Asked<Result, SoFar> | null>;
  /** What became of this very question; null where the last one asked was about another plan. */
  of(plans: Document | readonly Document[], more?: Readonly<Record<string, unknown>>): Asked<Result, SoFar> | null;
  /** The key under which this question stands in `now`. */
  keyOf(plans: Document | readonly Document[], more?: Readonly<Record<string, unknown>>): string;
  /** Asks, unless this very question is answered or under way; another one under way is given up. */
  ask(plans: Document | readonly Document[], more?: Readonly<Record<string, unknown>>): void;
  /** Gives up what is under way. */
  stop(): void;
}

/** Answers kept for coming back to, the oldest forgotten first. */
const KEPT = 12;

export function asking<Result, SoFar = never>(kind: string): Asking<Result, SoFar> {
  const now = signal<Asked<Result, SoFar> | null>(null);
  const kept = new Map<string, Result>();
  let under: AbortController | null = null;

  const change = (key: string, part: Partial<Asked<Result, SoFar>>) => {
    if (now.value?.key === key) now.value = { ...now.value, ...part };
  };

  async function carryOut(key: string, plans: Document | readonly Document[], more: Readonly<Record<string, unknown>>): Promise<void> {
    const own = new AbortController();
    under = own;
    try {
      const result = await study<Result, SoFar>({ kind, ...(isList(plans) ? { scenarios: plans } : { scenario: plans }), ...more }, {
        progress: (done, expected) => change(key, { progress: { done, expected }, waits: null }),
        soFar: (soFar) => change(key, { soFar }),
        waits: (waits) => change(key, { waits }),
      }, own.signal);
      kept.set(key, result);
      if (kept.size > KEPT) kept.delete(kept.keys().next().value!);
      change(key, { result, progress: null });
    } catch (error) {
      change(key, { progress: null, trouble: own.signal.aborted ? words.givenUp : reason(error) });
    } finally {
      if (under === own) under = null;
    }
  }

  const keyOf = (plans: Document | readonly Document[], more: Readonly<Record<string, unknown>> = {}) => JSON.stringify([plans, more]);
  return {
    now,
    keyOf,
    of: (plans, more = {}) => (now.value?.key === keyOf(plans, more) ? now.value : null),
    ask(plans, more = {}) {
      const key = keyOf(plans, more);
      if (now.value?.key === key && (now.value.result !== null || now.value.progress !== null)) return;
      under?.abort();
      const result = kept.get(key) ?? null;
      now.value = { key, result, soFar: null, progress: result === null ? { done: 0, expected: 0 } : null, waits: null, trouble: null };
      if (result === null) void carryOut(key, plans, more);
    },
    stop: () => under?.abort(),
  };
}

const isList = (plans: Document | readonly Document[]): plans is readonly Document[] => Array.isArray(plans);
