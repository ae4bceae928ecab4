import { afterEach, describe, expect, it } from "vitest";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { english } from "../../viz/english.ts";
import { figureRow } from "../../viz/lessons/figures.ts";
import { plan } from "../harvest/plan.ts";

const scenario = plan({});
const told = [{ scenario, findings: rehearse(scenario, { rehearsals: 1 }).findings }];
afterEach(() => { english.value = "general"; });

describe("the figures of a lesson", () => {
  it("go by the names that the reader's country has for the machines", () => {
    expect(figureRow("chopperWaiting", told, "metric").label).toBe("Chopper waiting");
    english.value = "uk";
    expect(figureRow("chopperWaiting", told, "metric").label).toBe("Forager waiting");
  });
});
