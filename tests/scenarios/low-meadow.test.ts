/** Low Meadow: the crew packs two fifths of what comes, and the rule it works by makes it worse. */
import { describe, expect, it } from "vitest";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { altered, example } from "./example.ts";

const { verdict, handCheck, measures } = rehearse(example("low-meadow"), { rehearsals: 60 }).findings;

describe("Low Meadow", () => {
  it("has a crew that packs about two fifths of what the chopper brings", () => {
    const cutting = handCheck.find(({ station }) => station === "cutting")!.boundTPerH;
    expect(verdict.paceKept / cutting).toBeGreaterThan(0.37);
    expect(verdict.paceKept / cutting).toBeLessThan(0.47);
    expect(verdict).toMatchObject({ keepsPace: false, chance: 0, bottleneck: "packing" });
  });

  it("stays loose, and looser than if the crew had buried every load at once: a full apron comes onto the clamp in thick layers", () => {
    const buried = rehearse(altered("low-meadow", "whenBehind: hold-then-bury", "whenBehind: bury"), { rehearsals: 60 }).findings.measures;
    expect(measures.dryDensity!.high).toBeLessThan(buried.dryDensity!.low);
    expect(buried.dryDensity!.high).toBeLessThan(200);
  });
});
