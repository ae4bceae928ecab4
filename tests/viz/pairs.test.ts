import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { house } from "../../server/house.ts";
import { readTemplates } from "../../server/templates.ts";
import { pairOf, storageOf, storedAs, withStorageOf } from "../../viz/beside/pairs.ts";
import type { Document } from "../../viz/document.ts";

const examples = readTemplates(join(house(), "scenarios"));
const nameOf = (id: string) => examples.find((each) => each.id === id)!.name;

describe("the example that stands beside another", () => {
  it("is the one that it names: a bunker's is the pile for the same crop, and the other way round", () => {
    for (const [a, b] of [["dairy-bunker-900-cows", "dairy-pile-900-cows"], ["bunker-12x45", "pile-for-12x45"]] as const) {
      expect(pairOf(a, examples)).toBe(b);
      expect(pairOf(b, examples)).toBe(a);
    }
    expect(pairOf("contractor-corn-day", examples)).toBe("contractor-corn-day-fixed");
  });

  it("is named by its whole name where that begins like another's, and never the example itself", () => {
    const told = [{ id: "a", name: "Corn", shows: "Corn. Beside it: Corn, as it goes." }, { id: "b", name: "Corn, as it goes", shows: "Corn in the rain." }, { id: "c", name: "Corn, as it", shows: "" }];
    expect(pairOf("a", told)).toBe("b");
    expect(pairOf("b", told)).toBe("a");
    expect(pairOf("c", told)).toBeNull();
    expect(pairOf("a plan of one's own", told)).toBeNull();
  });

  it("is told of in words that need no file", () => {
    for (const { shows } of examples) expect(shows).not.toMatch(/\.ya?ml/);
    expect(examples.find(({ id }) => id === "dairy-bunker-900-cows")!.shows).toContain(nameOf("dairy-pile-900-cows"));
  });
});

describe("a plan stored as in another", () => {
  it("keeps its crop, crew and herd, and has the other's storages", () => {
    const [bunker, pile] = ["dairy-bunker-900-cows", "dairy-pile-900-cows"].map((id) => parse(examples.find((each) => each.id === id)!.text) as Document);
    const mine: Document = { ...bunker!, fields: [{ name: "Mine", area: "20 ha", yield: "40 t/ha", distance: "1 km", rowLength: "300 m" }] };
    expect(withStorageOf(mine, pile!)).toEqual({ ...mine, storage: pile!.storage });
    expect(pile!.storage).not.toEqual(mine.storage);
  });

  it("has an id of its own, that no plan can have", () => {
    expect(storageOf(storedAs("pile-for-12x45"))).toBe("pile-for-12x45");
    expect(storageOf("pile-for-12x45")).toBeNull();
  });
});
