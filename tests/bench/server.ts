/**
 * How long the built server takes to answer, over HTTP on this machine: one day, a hundred rehearsals, and a sign of life while
 * it works. Prints only; a guide for a quiet machine of two cores is 25 ms for a day and 150 ms for a hundred.
 */
import { spawn } from "node:child_process";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { quantileSorted } from "simple-statistics";
import { buildHouse } from "../server/built.ts";

const EXAMPLE = "contractor-corn-day";

/** Starts the built server, asks, prints a line a case, and ends it. */
export async function benchServer(): Promise<void> {
  const house = buildHouse();
  const child = spawn(process.execPath, [join(house.folder, "dist/server/cli/main.js"), "serve", "--port", "0"], { stdio: ["ignore", "pipe", "inherit"] });
  try {
    const url = await new Promise<string>((resolve, reject) => {
      child.stdout.setEncoding("utf8").on("data", (text: string) => {
        const address = /http:\S+/.exec(text)?.[0];
        if (address !== undefined) resolve(address);
      });
      child.on("exit", () => reject(new Error("The server ended before it had an address.")));
    });
    const document = (await (await fetch(`${url}/api/v1/scenarios/${EXAMPLE}`)).json()) as Record<string, unknown>;
    const scenario = { ...document, variation: "typical" };
    let seed = 0;
    const ask = async (rehearsals: number) => {
      seed += 1;
      const answer = await fetch(`${url}/api/v1/rehearsals`, {
        method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ scenario, rehearsals, seed }),
      });
      if (!answer.ok) throw new Error(await answer.text());
      await answer.arrayBuffer();
    };
    const alive = async () => void (await (await fetch(`${url}/livez`)).arrayBuffer());

    await timed("one day, the first", 1, () => ask(1));
    await repeat(100, () => ask(1));
    await timed("one day", 200, () => ask(1));
    await timed("100 rehearsals", 40, () => ask(100));
    const burst = Promise.all(Array.from({ length: 40 }, () => ask(100)));
    await timed("a sign of life, while 40 x 100 rehearsals wait", 100, alive);
    await burst;
  } finally {
    child.kill("SIGTERM");
    house.remove();
  }
}

async function repeat(times: number, work: () => Promise<void>): Promise<number[]> {
  const took: number[] = [];
  for (let i = 0; i < times; i += 1) {
    const from = performance.now();
    await work();
    took.push(performance.now() - from);
  }
  return took.sort((a, b) => a - b);
}

async function timed(what: string, times: number, work: () => Promise<void>): Promise<void> {
  const took = await repeat(times, work);
  const at = (share: number) => quantileSorted(took, share).toFixed(1);
  console.log(`${what}: median ${at(0.5)} ms, 95 % within ${at(0.95)} ms, slowest ${at(1)} ms (${times} times)`);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) await benchServer();
