import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Shelf } from "../../server/shelf.ts";

describe("a shelf of answers", () => {
  it("puts away what was not asked for longest when there are too many", () => {
    const shelf = new Shelf<string>(2, 1_000);
    shelf.put("a", "A", 1);
    shelf.put("b", "B", 1);
    expect(shelf.get("a")).toBe("A");
    shelf.put("c", "C", 1);
    expect(shelf.get("b")).toBeUndefined();
    expect([shelf.get("a"), shelf.get("c")]).toEqual(["A", "C"]);
  });

  it("keeps the newest even when it alone is over the bytes, and nothing beside it", () => {
    const shelf = new Shelf<string>(10, 100);
    shelf.put("small", "s", 50);
    shelf.put("large", "l", 500);
    expect(shelf.get("small")).toBeUndefined();
    expect(shelf.get("large")).toBe("l");
    shelf.put("next", "n", 50);
    expect(shelf.get("large")).toBeUndefined();
    expect(shelf.bytes).toBe(50);
  });

  it("stays within its number and its bytes, and counts its bytes rightly, whatever is put and asked for", () => {
    const step = fc.record({ id: fc.constantFrom("a", "b", "c", "d", "e", "f"), bytes: fc.integer({ min: 0, max: 60 }), put: fc.boolean() });
    fc.assert(fc.property(fc.array(step, { maxLength: 60 }), (steps) => {
      const shelf = new Shelf<number>(4, 100);
      const sizes = new Map<string, number>();
      for (const { id, bytes, put } of steps) {
        if (put) {
          shelf.put(id, bytes, bytes);
          sizes.set(id, bytes);
          expect(shelf.get(id)).toBe(bytes);
        } else shelf.get(id);
        expect(shelf.size).toBeLessThanOrEqual(4);
        expect(shelf.bytes).toBeLessThanOrEqual(100);
      }
      const kept = [...sizes].filter(([id]) => shelf.get(id) !== undefined);
      expect(kept.length).toBe(shelf.size);
      expect(kept.reduce((sum, [, bytes]) => sum + bytes, 0)).toBe(shelf.bytes);
    }), { numRuns: 300 });
  });
});
