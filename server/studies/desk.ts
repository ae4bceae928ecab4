/** Studies under way and done: each is asked once, waits for its turn, tells how far it is, can be cancelled, and is kept when it is done. */
import { hashOf } from "../../sim/scenario/hash.ts";
import type { Lasting } from "../lasting.ts";
import type { Limits } from "../limits.ts";
import { refusals } from "../problems.ts";
import { Turns } from "../turns.ts";
import type { AskedStudy } from "./asked.ts";
import { Events } from "./events.ts";
import type { StudyProgress, StudyRunner } from "./runner.ts";
import { StudyRefused } from "./runner.ts";
import { wordsOf } from "./words.ts";

export type StudyState = "waiting" | "running" | "done" | "failed" | "cancelled";

export const STUDIES = "/api/v1/studies";

/** Why a study ends before it is done. */
class Cancelled extends Error {}

export class StudyRecord {
  readonly events = new Events();
  readonly stop = new AbortController();
  state: StudyState = "waiting";
  progress: Pick<StudyProgress, "done" | "expected"> = { done: 0, expected: 0 };
  soFar: string | undefined;
  /** the whole document, once done */ result: string | undefined;
  because: string | undefined;

  constructor(readonly asked: AskedStudy) {}

  get isOver(): boolean {
    return this.state !== "waiting" && this.state !== "running";
  }

  /** The document of the study as it is now. */
  get text(): string {
    return this.result ?? documentOf(this.asked, this.state, {
      progress: JSON.stringify(this.progress), ...(this.soFar === undefined ? {} : { soFar: this.soFar }), ...(this.because === undefined ? {} : { because: JSON.stringify(this.because) }),
    });
  }
}

/** `parts` are JSON already: a result is not written twice. */
function documentOf({ id, question }: AskedStudy, state: StudyState, parts: Readonly<Record<string, string>>): string {
  const head = JSON.stringify({ id, kind: question.kind, state, scenarios: question.scenarios.map((scenario) => ({ name: scenario.name, hash: hashOf(scenario) })), events: `${STUDIES}/${id}/events` });
  return `${head.slice(0, -1)}${Object.entries(parts).map(([key, json]) => `,"${key}":${json}`).join("")}}`;
}

/** The last event of a study: where to look. */
const lastWord = (state: StudyState, id: string) => JSON.stringify({ state, study: `${STUDIES}/${id}` });

export class StudyDesk {
  readonly #runner: StudyRunner;
  readonly #limits: Limits;
  readonly #lasting: Lasting;
  readonly #report: (error: unknown) => void;
  readonly #turns: Turns;
  /** oldest first */ readonly #records = new Map<string, StudyRecord>();

  constructor(runner: StudyRunner, limits: Limits, lasting: Lasting, report: (error: unknown) => void) {
    this.#runner = runner;
    this.#limits = limits;
    this.#lasting = lasting;
    this.#report = report;
    this.#turns = new Turns(1, limits.studiesWaiting);
  }

  /** The study's document as it is now; undefined when none of that id is known. */
  text(id: string): string | undefined {
    const record = this.#records.get(id);
    if (record !== undefined) return record.text;
    const kept = this.#lasting.find("study", id);
    return kept && new TextDecoder().decode(kept.body);
  }

  record(id: string): StudyRecord | undefined {
    return this.#records.get(id);
  }

  /** Takes a question on, unless it is already; gives the study's document, and whether it is done. Throws a `Refusal` when too many wait. */
  ask(asked: AskedStudy): { readonly text: string; readonly isDone: boolean } {
    const { id } = asked;
    const known = this.#records.get(id);
    if (known && (!known.isOver || known.state === "done")) return { text: known.text, isDone: known.state === "done" };
    const kept = known ? undefined : this.text(id);
    if (kept !== undefined) return { text: kept, isDone: true };
    if (this.#turns.isFull) throw refusals.busyWithStudies();
    const record = new StudyRecord(asked);
    this.#records.delete(id);
    this.#records.set(id, record);
    this.#forgetOldest();
    void this.#carryOut(record);
    return { text: record.text, isDone: false };
  }

  /** Cancels a study that is not over, forgets one that is. False when none of that id is known. */
  remove(id: string): boolean {
    const record = this.#records.get(id);
    if (record && !record.isOver) {
      record.stop.abort(new Cancelled());
      this.#end(record, "cancelled");
      return true;
    }
    const wasKnown = this.#records.delete(id);
    return this.#lasting.remove("study", id) || wasKnown;
  }

  /** Cancels all; for when the server ends. */
  close(): void {
    for (const [id, record] of this.#records) if (!record.isOver) this.remove(id);
  }

  async #carryOut(record: StudyRecord): Promise<void> {
    const { asked, stop } = record;
    let giveBack = () => {};
    let tooLong: NodeJS.Timeout | undefined;
    record.events.tell("state", JSON.stringify({ state: record.state }));
    try {
      giveBack = await this.#turns.turn(stop.signal);
      record.state = "running";
      record.events.tell("state", JSON.stringify({ state: record.state }));
      tooLong = setTimeout(() => stop.abort(new StudyRefused(`It was stopped: it was not done after ${this.#limits.studyMs / 1000} seconds. Fewer rehearsals or fewer plans would do.`)), this.#limits.studyMs);
      const result = await this.#runner.run(asked.question, (progress) => this.#tell(record, progress), stop.signal);
      if (record.isOver) return;
      record.result = documentOf(asked, "done", { result });
      this.#lasting.keep("study", asked.id, Buffer.from(record.result), null);
      this.#end(record, "done");
    } catch (error) {
      if (record.isOver) return;
      record.because = error instanceof StudyRefused ? error.message : wordsOf(error) ?? this.#fault(error);
      this.#end(record, "failed");
    } finally {
      clearTimeout(tooLong);
      giveBack();
    }
  }

  /** What is told of a fault that is the server's own. */
  #fault(error: unknown): string {
    if ((error as { code?: unknown } | null)?.code === "ERR_WORKER_OUT_OF_MEMORY") return `It was stopped: it took more than ${this.#limits.threadHeapMb} MB. Fewer rehearsals or fewer plans would do.`;
    this.#report(error);
    return "Something went wrong inside the server; the server's own log tells more.";
  }

  #tell(record: StudyRecord, { done, expected, soFar }: StudyProgress): void {
    if (record.isOver) return;
    record.progress = { done, expected };
    record.events.tell("progress", JSON.stringify(record.progress));
    if (soFar === undefined) return;
    record.soFar = soFar;
    record.events.tell("so-far", soFar);
  }

  #end(record: StudyRecord, state: StudyState): void {
    record.state = state;
    record.events.tell(state, lastWord(state, record.asked.id), true);
  }

  #forgetOldest(): void {
    for (const [id, { isOver }] of this.#records) {
      if (this.#records.size <= this.#limits.studiesKept) break;
      if (isOver) this.#records.delete(id);
    }
  }
}
