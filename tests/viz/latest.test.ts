import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { latest } from "../../viz/latest.ts";

/** Questions under way, to be answered when the test says so. */
function desk() {
  const begun: { question: string; signal: AbortSignal; answer: () => void }[] = [];
  const answered: string[] = [];
  const asker = latest<string>((question, signal) => new Promise((resolve) => {
    begun.push({ question, signal, answer: () => {
      if (!signal.aborted) answered.push(question);
      resolve();
    } });
  }), 400);
  return { asker, begun, answered };
}

describe("asking for the latest answer", () => {
  beforeEach(() => { vi.useFakeTimers(); });
  afterEach(() => { vi.useRealTimers(); });

  it("asks at once when nothing is under way", () => {
    const { asker, begun } = desk();
    asker.ask("5 trucks");
    expect(begun.map(({ question }) => question)).toEqual(["5 trucks"]);
  });

  it("lets a quick answer come, then asks only the newest of what was wanted meanwhile", async () => {
    const { asker, begun, answered } = desk();
    asker.ask("5 trucks");
    asker.ask("6 trucks");
    asker.ask("7 trucks");
    begun[0]!.answer();
    await vi.advanceTimersByTimeAsync(0);
    expect(begun.map(({ question }) => question)).toEqual(["5 trucks", "7 trucks"]);
    begun[1]!.answer();
    await vi.advanceTimersByTimeAsync(0);
    expect(answered).toEqual(["5 trucks", "7 trucks"]);
  });

  it("hangs up on a slow answer once a newer question has waited long enough, and never takes it afterwards", async () => {
    const { asker, begun, answered } = desk();
    asker.ask("slow");
    await vi.advanceTimersByTimeAsync(5000);
    expect(begun[0]!.signal.aborted).toBe(false);
    asker.ask("newer");
    await vi.advanceTimersByTimeAsync(399);
    expect(begun[0]!.signal.aborted).toBe(false);
    await vi.advanceTimersByTimeAsync(1);
    expect(begun[0]!.signal.aborted).toBe(true);
    expect(begun[1]!.question).toBe("newer");
    begun[1]!.answer();
    begun[0]!.answer();
    await vi.advanceTimersByTimeAsync(0);
    expect(answered).toEqual(["newer"]);
  });

  it("tells whoever answers whether a newer question waits, so that less may do", async () => {
    const told: boolean[] = [];
    let answer = () => {};
    const asker = latest<string>(async (_question, _signal, isOutdated) => {
      told.push(isOutdated());
      await new Promise<void>((resolve) => { answer = resolve; });
      told.push(isOutdated());
    }, 400);
    asker.ask("5 trucks");
    asker.ask("6 trucks");
    answer();
    await vi.advanceTimersByTimeAsync(0);
    answer();
    await vi.advanceTimersByTimeAsync(0);
    expect(told).toEqual([false, true, false, false]);
  });

  it("goes on after an answer that failed", async () => {
    let fail: (reason: Error) => void = () => {};
    const begun: string[] = [];
    const failures: unknown[] = [];
    const asker = latest<string>((question) => {
      begun.push(question);
      return new Promise<void>((_, reject) => { fail = reject; }).catch((error: unknown) => { failures.push(error); });
    }, 400);
    asker.ask("first");
    asker.ask("second");
    fail(new Error("no line"));
    await vi.advanceTimersByTimeAsync(0);
    expect(begun).toEqual(["first", "second"]);
    expect(failures).toHaveLength(1);
  });

  it("stops: what waits is dropped and what is under way is hung up on", () => {
    const { asker, begun } = desk();
    asker.ask("first");
    asker.ask("second");
    asker.stop();
    expect(begun).toHaveLength(1);
    expect(begun[0]!.signal.aborted).toBe(true);
  });
});
