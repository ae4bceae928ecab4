import { describe, expect, it } from "vitest";
import { ownThreadStudies } from "../../server/studies/runner.ts";
import { compare } from "../../sim/study/compare.ts";
import { carryOut } from "../../sim/study/work.ts";
import { smallWithTrucks } from "../study/small.ts";

const scenarios = [smallWithTrucks(1), smallWithTrucks(2)];
const question = { kind: "compare", scenarios, options: { rehearsals: 20 } } as const;

/** Counts how often others have their turn until told to stop. */
function turns(): () => number {
  let count = 0;
  let going = true;
  const next = () => {
    count += 1;
    if (going) setImmediate(next);
  };
  setImmediate(next);
  return () => {
    going = false;
    return count;
  };
}

describe("a study on the server's own thread", () => {
  it("lets others have their turn between two small pieces of it, tells how far it is, and says what the study says", async () => {
    const others = turns();
    const told: number[] = [];
    const result = await ownThreadStudies({ progressMs: 0 }).run(question, ({ done }) => told.push(done), new AbortController().signal);
    // Forty days in pieces of two.
    expect(others()).toBeGreaterThanOrEqual(20);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect(told.at(-1)).toBe(40);
    expect(JSON.parse(result)).toEqual(JSON.parse(JSON.stringify(carryOut(compare(scenarios, { rehearsals: 20 })))));
  });

  it("ends at the next piece when nobody wants it any more", async () => {
    const own = new AbortController();
    const told: number[] = [];
    const gone = new Error("nobody wants it");
    await expect(ownThreadStudies({ progressMs: 0 }).run(question, ({ done }) => {
      told.push(done);
      if (done >= 4) own.abort(gone);
    }, own.signal)).rejects.toBe(gone);
    expect(Math.max(...told)).toBeLessThanOrEqual(6);
  });
});
