import { describe, expect, it } from "vitest";
import { LOSS_SWITCHES, type Scenario } from "../../sim/scenario/types.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { fallingLedger } from "../../viz/ledger.ts";
import { plan } from "../harvest/plan.ts";

const answerTo = (losses: Scenario["losses"]) => rehearse({ ...plan({}), losses }, { rehearsals: 1 }).findings;
const all = Object.fromEntries(LOSS_SWITCHES.map((cause) => [cause, true])) as Scenario["losses"];

describe("the falling ledger", () => {
  it("leaves off where the engine's own figure for dry matter fed stands, whichever lines count", () => {
    for (const off of [null, ...LOSS_SWITCHES]) {
      const { ledger, losses } = answerTo(off === null ? all : { ...all, [off]: false });
      const counted = fallingLedger(ledger, losses).filter(({ line }) => line.on);
      expect(counted.at(-1)!.until).toBeCloseTo(ledger.fedT.central, 9);
    }
  });

  it("begins each line where the last one that counts left off", () => {
    const { ledger, losses } = answerTo({ ...all, density: false });
    let left = ledger.storedT;
    for (const { line, from, until } of fallingLedger(ledger, losses)) {
      expect(from).toBe(left);
      if (line.on) left = until;
      else expect(line.cause).toBe("density");
    }
  });
});
