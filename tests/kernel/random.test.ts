import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { Streams } from "../../sim/kernel/index.ts";
import { fingerprint } from "./fingerprint.ts";

const take = (stream: () => number, n: number) => Array.from({ length: n }, () => stream());

describe("a random stream", () => {
  test("gives the same numbers for the same seed, rehearsal and name", () => {
    expect(take(new Streams(7, 3).stream("tip"), 100)).toEqual(take(new Streams(7, 3).stream("tip"), 100));
  });

  test("does not care what other streams there are, or who draws first", () => {
    const alone = take(new Streams(7, 3).stream("tip"), 100);
    const streams = new Streams(7, 3);
    const other = streams.stream("road");
    const mixed = Array.from({ length: 100 }, () => {
      other();
      return streams.stream("tip")();
    });
    expect(mixed).toEqual(alone);
  });

  test("is another one for another seed, rehearsal or name, and keys that run together do not meet", () => {
    const firsts = [[1, 1, "a"], [1, 2, "a"], [2, 1, "a"], [1, 1, "b"], [11, 1, "a"], [1, 11, "a"], [1, 1, "1/a"], [1, 1, ""]] as const;
    const numbers = firsts.map(([seed, rehearsal, name]) => new Streams(seed, rehearsal).stream(name)());
    expect(new Set(numbers).size).toBe(firsts.length);
  });

  test("lies strictly between 0 and 1", () => {
    expect(take(new Streams(1, 0).stream("many"), 1e5).filter((u) => !(u > 0 && u < 1))).toEqual([]);
  });

  // 2000 streams of neighbouring seeds, rehearsals and names, as the tool really uses them; first draws, as these are what seeding could spoil.
  const families = {
    rehearsals: Array.from({ length: 2000 }, (_, i) => new Streams(1, i).stream("tip 0")),
    seeds: Array.from({ length: 2000 }, (_, i) => new Streams(i, 0).stream("tip 0")),
    names: Array.from({ length: 2000 }, (_, i) => new Streams(1, 0).stream(`tip ${i}`)),
  };

  test.each(Object.entries(families))("is even over neighbouring %s: the first draws fill 20 equal classes evenly", (_, streams) => {
    const classes = new Array<number>(20).fill(0);
    for (const stream of streams) classes[Math.floor(stream() * 20)]! += 1;
    const chi2 = classes.reduce((sum, n) => sum + (n - 100) ** 2 / 100, 0);
    // 99.9 % point of chi-square with 19 degrees of freedom, any table; three fixed families.
    expect(chi2).toBeLessThan(43.82);
  });

  test.each(Object.entries(families))("is independent of its neighbour among %s: no correlation beyond chance", (_, streams) => {
    const us = streams.map((stream) => take(stream, 10).map((u) => (u - 0.5) * Math.sqrt(12)));
    let sum = 0;
    for (let i = 1; i < us.length; i += 1) for (let k = 0; k < 10; k += 1) sum += us[i]![k]! * us[i - 1]![k]!;
    const pairs = (us.length - 1) * 10;
    // Mean of products of independent standard values: standard error 1 / sqrt(pairs); 4 of them, one in 16,000 by chance.
    expect(Math.abs(sum / pairs)).toBeLessThan(4 / Math.sqrt(pairs));
  });
});

test("the same seed gives the same bytes, in this process and in another, and another seed gives others", () => {
  const script = fileURLToPath(new URL("fingerprint.ts", import.meta.url));
  const code = `import { fingerprint } from ${JSON.stringify(`file://${script}`)}; process.stdout.write(fingerprint(5));`;
  const elsewhere = execFileSync(process.execPath, ["--import", "tsx", "--input-type=module", "--eval", code], { encoding: "utf8" });
  expect(fingerprint(5)).toBe(fingerprint(5));
  expect(elsewhere).toBe(fingerprint(5));
  expect(fingerprint(6)).not.toBe(fingerprint(5));
});
