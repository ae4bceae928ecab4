/** Whoever reads US units is told nothing in metric ones, sentences of the engine included. */
import { describe, expect, it } from "vitest";
import { turned } from "../../sim/scenario/turned.ts";
import { clampsideHere } from "./here.ts";

const DAY = "scenarios/low-meadow.yaml";
const PAGES = {
  "a day": ["rehearse", "scenarios/us-corn-150-acres.yaml", "--rehearsals", "3"],
  "a pile": ["rehearse", "scenarios/dairy-pile-900-cows.yaml", "--rehearsals", "3"],
  "the rest of a day": ["rehearse", DAY, "--from", "scenarios/now/low-meadow-noon.yaml", "--rehearsals", "3"],
  "plans beside one another": ["compare", "scenarios/dairy-bunker-900-cows.yaml", "scenarios/dairy-pile-900-cows.yaml", "--rehearsals", "3"],
  remedies: ["fixes", "scenarios/contractor-corn-day.yaml", "--rehearsals", "1"],
  "a campaign": ["campaign", "scenarios/campaign/corn-two-weeks.yaml", "--campaigns", "3"],
  "weigh tickets": ["tickets", "scenarios/tickets/evening.csv", "scenarios/tickets/evening-meadow.yaml", "--rehearsals", "3"],
};

describe("a page of the terminal in US units", () => {
  it.each(Object.entries(PAGES))("has no metric quantity left: %s", async (_, words) => {
    const { code, stdout, stderr } = await clampsideHere(...words, "--units", "us");
    expect([code, stderr]).toEqual([0, ""]);
    // A quantity may stand on two lines.
    const page = stdout.replaceAll(/\n +/g, " ");
    expect(page.length).toBeGreaterThan(500);
    expect(turned(page)).toBe(page);
  });
});
