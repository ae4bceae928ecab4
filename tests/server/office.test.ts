import { describe, expect, it } from "vitest";
import { Office } from "../../server/office.ts";
import { document } from "../../server/documents.ts";
import type { Answer, Job, ShownDay } from "../../server/job.ts";
import { Lasting } from "../../server/lasting.ts";
import { LIMITS } from "../../server/limits.ts";
import type { Limits } from "../../server/limits.ts";
import { Store } from "../../server/store/store.ts";
import { ClientGone, Refusal } from "../../server/problems.ts";

const never = new AbortController().signal;
const job = (id: string) => ({ id }) as Job;
const answerTo = ({ id }: Job): Answer => ({ findings: document(id, "text/plain"), rehearsal: 3 });
const ask = (office: Office, id: string, gone = never) => office.answer(job(id), { form: "json", text: id, query: "" }, gone);

/** A runner whose jobs end when the test says so. */
function heldRunner(atOnce: number) {
  const told: ShownDay[] = [];
  const begun: { job: Job; signal: AbortSignal; finish: () => void; fail: (error: unknown) => void }[] = [];
  return {
    begun,
    atOnce,
    run: (wanted: Job, signal: AbortSignal) => new Promise<Answer>((resolve, reject) => {
      signal.addEventListener("abort", () => reject(new Error("the thread was ended")));
      begun.push({ job: wanted, signal, finish: () => resolve(answerTo(wanted)), fail: reject });
    }),
    told,
    log: async (day: ShownDay) => {
      told.push(day);
      return document(`${day.job.id} log`, "text/plain");
    },
    close: async () => {},
  };
}

function officeWith(atOnce: number, limits: Partial<Limits> = {}) {
  const runner = heldRunner(atOnce);
  const all = { ...LIMITS, ...limits };
  const lasting = new Lasting(new Store(null, all), all, (error) => { throw error; });
  return { runner, lasting, office: new Office(runner, all, lasting) };
}

/** Lets everything that is due on this turn of the loop happen. */
const settle = () => new Promise((resolve) => setImmediate(resolve));

describe("the office that takes questions", () => {
  it("runs equal questions once and gives all who asked the same answer, also those who ask later", async () => {
    const { runner, office } = officeWith(2);
    const both = [ask(office, "a"), ask(office, "a")];
    await settle();
    expect(runner.begun.length).toBe(1);
    runner.begun[0]?.finish();
    const [first, second] = await Promise.all(both);
    expect(second).toBe(first);
    expect(await ask(office, "a")).toBe(first);
    expect(office.kept("a")).toBe(first);
    expect(runner.begun.length).toBe(1);
  });

  it("drops a run that waits in line when its only client leaves", async () => {
    const { runner, office } = officeWith(1);
    const running = ask(office, "a");
    const client = new AbortController();
    const dropped = ask(office, "b", client.signal);
    const last = ask(office, "c");
    client.abort(new ClientGone());
    await expect(dropped).rejects.toBeInstanceOf(ClientGone);
    runner.begun[0]?.finish();
    await running;
    await settle();
    expect(runner.begun.map((run) => run.job.id)).toEqual(["a", "c"]);
    runner.begun[1]?.finish();
    await last;
  });

  it("goes on with a run that another client still waits for", async () => {
    const { runner, office } = officeWith(1, { graceMs: 0 });
    const leaver = new AbortController();
    const one = ask(office, "a", leaver.signal);
    const other = ask(office, "a");
    await settle();
    leaver.abort(new ClientGone());
    await settle();
    expect(runner.begun[0]?.signal.aborted).toBe(false);
    runner.begun[0]?.finish();
    expect(await other).toBe(await one);
  });

  it("ends a run that nobody waits for any more once the grace is over, and gives its turn to the next", async () => {
    const { runner, office } = officeWith(1, { graceMs: 0 });
    const client = new AbortController();
    const abandoned = ask(office, "a", client.signal);
    const next = ask(office, "b");
    await settle();
    client.abort(new ClientGone());
    await expect(abandoned).rejects.toBeInstanceOf(ClientGone);
    await settle();
    expect(runner.begun.map((run) => run.job.id)).toEqual(["a", "b"]);
    runner.begun[1]?.finish();
    await next;
    expect(office.kept("a")).toBeUndefined();
  });

  it("takes a client who comes back within the grace to the run it left", async () => {
    const { runner, office } = officeWith(1);
    const client = new AbortController();
    const left = ask(office, "a", client.signal);
    await settle();
    client.abort(new ClientGone());
    const back = ask(office, "a");
    await settle();
    expect(runner.begun.length).toBe(1);
    runner.begun[0]?.finish();
    expect(await back).toBe(await left);
  });

  it("keeps the answer of an abandoned run that finishes within the grace", async () => {
    const { runner, office } = officeWith(1);
    const client = new AbortController();
    const abandoned = ask(office, "a", client.signal);
    await settle();
    client.abort(new ClientGone());
    runner.begun[0]?.finish();
    await abandoned;
    expect(office.kept("a")).toBeDefined();
  });

  it("gives whoever asks again after the grace a run of its own", async () => {
    const { runner, office } = officeWith(1, { graceMs: 0 });
    const client = new AbortController();
    const abandoned = ask(office, "a", client.signal);
    await settle();
    client.abort(new ClientGone());
    await expect(abandoned).rejects.toBeInstanceOf(ClientGone);
    const again = ask(office, "a");
    await settle();
    expect(runner.begun.length).toBe(2);
    runner.begun[1]?.finish();
    expect(await again).toBe(office.kept("a"));
  });

  it("stops a run that takes too long, says so, and runs the next", async () => {
    const { runner, office } = officeWith(1, { runMs: 1 });
    const tooLong = ask(office, "a");
    await expect(tooLong).rejects.toMatchObject({ status: 504 });
    expect(runner.begun[0]?.signal.aborted).toBe(true);
    const next = ask(office, "b").catch((error: unknown) => error);
    await settle();
    expect(runner.begun.map((run) => run.job.id)).toEqual(["a", "b"]);
    runner.begun[1]?.finish();
    await next;
  });

  it("says that it is busy when the line is full, and takes questions again when it is not", async () => {
    const { runner, office } = officeWith(1, { waiting: 1 });
    const running = ask(office, "a");
    const waiting = ask(office, "b");
    const refused: unknown = await ask(office, "c").catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(Refusal);
    expect(refused).toMatchObject({ status: 503, more: { headers: { "Retry-After": "1" } } });
    runner.begun[0]?.finish();
    await running;
    const later = ask(office, "c");
    await settle();
    runner.begun[1]?.finish();
    await waiting;
    await settle();
    runner.begun[2]?.finish();
    await later;
  });

  it("has a day told once for all who want to see it, and again for those who come later", async () => {
    const { runner, office } = officeWith(1);
    const asked = ask(office, "a");
    await settle();
    runner.begun[0]?.finish();
    const kept = await asked;
    const [first, second] = await Promise.all([office.log(kept, never), office.log(kept, never)]);
    expect(second).toBe(first);
    expect(await office.log(office.kept("a")!, never)).toBe(first);
    expect(runner.told).toEqual([{ job: job("a"), rehearsal: 3 }]);
  });

  it("passes the engine's own error on, keeps nothing, and tries again when asked again", async () => {
    const { runner, office } = officeWith(1);
    const failing = ask(office, "a");
    await settle();
    runner.begun[0]?.fail(new Error("broken shaft"));
    await expect(failing).rejects.toThrow("broken shaft");
    const again = ask(office, "a");
    await settle();
    runner.begun[1]?.finish();
    expect(await again).toBe(office.kept("a"));
  });
});
