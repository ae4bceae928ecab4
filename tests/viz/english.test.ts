import fc from "fast-check";
import { afterEach, describe, expect, it } from "vitest";
import { english, inEnglish, spoken } from "../../viz/english.ts";

afterEach(() => { english.value = "general"; });

describe("the reader's English", () => {
  it("turns the words of the trade, small and capital, one and many, and nothing inside another word", () => {
    expect(inEnglish("Choppers wait for a truck; the chopper's trucks wait too.", "uk")).toBe("Foragers wait for a trailer; the forager's trailers wait too.");
    expect(inEnglish("trucker, subtruck, clampdown", "uk")).toBe("trucker, subtruck, clampdown");
    expect(inEnglish("The clamp ends loose; a tonne of it costs more.", "us")).toBe("The storage ends loose; a metric ton of it costs more.");
  });

  it("leaves the names that the reader gave as they are, also next to words that are turned", () => {
    expect(inEnglish("North bunker: the bunker is full, and Truck 3 waits.", "uk", ["North bunker", "Truck 3"])).toBe("North bunker: the clamp is full, and Truck 3 waits.");
    expect(inEnglish("the (bunker) [x]", "uk", ["(bunker) [x]"])).toBe("the (bunker) [x]");
  });

  it("turns a word in a sentence although a machine is called the same with a capital", () => {
    expect(inEnglish("Stop the chopper: Chopper waits, and North Bunker is a bunker.", "uk", ["Chopper", "North Bunker"])).toBe("Stop the forager: Chopper waits, and North Bunker is a clamp.");
  });

  it("changes nothing when asked for no country's words", () => {
    fc.assert(fc.property(fc.string(), (text) => { expect(inEnglish(text, "general")).toBe(text); }));
  });

  it("never fails, whatever the text and the names", () => {
    fc.assert(fc.property(fc.string(), fc.array(fc.string()), fc.constantFrom("us", "uk"), (text, names, wanted) => { inEnglish(text, wanted, names); }));
  });

  it("is spoken by a table of texts and by the functions in it, as soon as the reader asks", () => {
    const words = spoken({ one: "a truck", list: ["bunker", "pile"], in: { many: (count: number) => `${count} trucks` } });
    expect([words.one, words.in.many(2), ...words.list]).toEqual(["a truck", "2 trucks", "bunker", "pile"]);
    english.value = "uk";
    expect([words.one, words.in.many(2), ...words.list]).toEqual(["a trailer", "2 trailers", "clamp", "pile"]);
  });
});
