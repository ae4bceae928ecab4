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

describe("a price", () => {
  it("is turned with what it is paid for, and nothing else that has a per in it is", () => {
    // A gallon is 3.785 L, a square foot 0.0929 m2, a ton 0.907 t, an acre 0.405 ha.
    expect(turned("film 0.25 per m2; fuelPrice 1.40 per L; feedValue 180 EUR per t; 1,200 per ha; 400 kg per t/h; 420 per h")).toBe(
      "film 0.023 per ft2; fuelPrice 5.30 per gal; feedValue 163 EUR per ton; 485.6 per acre; 400 kg per t/h; 420 per h");
    expect(turned("fuelPrice 5.30 per gal")).toBe("fuelPrice 5.30 per gal");
  });
});

describe("a page of the terminal in US units", () => {
  it.each(Object.entries(PAGES))("has no metric quantity left: %s", async (_, words) => {
    const { code, stdout, stderr } = await clampsideHere(...words, "--units", "us");
    expect([code, stderr]).toEqual([0, ""]);
    // A quantity may stand on two lines.
    const page = stdout.replaceAll(/\n +/g, " ");
    expect(page.length).toBeGreaterThan(500);
    expect(turned(page)).toBe(page);
  });

  it("has none left where a file in US units is checked, what is filled in included", async () => {
    const { stdout } = await clampsideHere("check", "scenarios/us-corn-150-acres.yaml");
    expect(stdout).toMatch(/covering\.pace +3,229 ft2\/h/u);
    expect(turned(stdout)).toBe(stdout);
  });
});
