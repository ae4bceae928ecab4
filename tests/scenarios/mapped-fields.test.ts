/** Hollow farm: what the map gives, and that a third tractor does not make the crew quick enough. */
import { describe, expect, it } from "vitest";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { exampleText, sound } from "./example.ts";

const { scenario, defaults } = sound(exampleText("mapped-fields"));
const { verdict, handCheck } = rehearse(scenario, { rehearsals: 60 }).findings;

describe("Hollow farm", () => {
  it("has fields that the map measures, and says so beside the defaults", () => {
    const [strip, both] = scenario.fields;
    expect([strip!.area / 1e4, strip!.rowLength, both!.area / 1e4].map((figure) => Number(figure.toFixed(1)))).toEqual([14, 418, 13.2]);
    expect(defaults.filter(({ mark }) => mark === "measured on the map").map(({ path }) => path)).toEqual(["fields[0].outline", "fields[1].gate", "fields[1].outline"]);
  });

  it("has a crew of three that packs about two thirds of what the chopper brings", () => {
    const cutting = handCheck.find(({ station }) => station === "cutting")!.boundTPerH;
    expect(verdict.paceKept / cutting).toBeGreaterThan(0.6);
    expect(verdict.paceKept / cutting).toBeLessThan(0.72);
    expect(verdict).toMatchObject({ keepsPace: false, chance: 0, bottleneck: "packing" });
  });
});
