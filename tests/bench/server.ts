/**
 * How long the built server takes to answer, over HTTP on this machine: one day, a hundred rehearsals, and a sign of life while
 * it works. Shown without a bar, for times over HTTP hang on what else the machine does; on a quiet machine of two cores the aim
 * is 25 ms for a day and 150 ms for a hundred rehearsals.
 */
import { spawn } from "node:child_process";
import { join } from "node:path";
import { quantile } from "simple-statistics";
import { buildHouse } from "../server/built.ts";
import type { Case, Figure } from "./case.ts";

export const SERVER_CASES: readonly Case[] = [{ name: "server: answers over HTTP", run: answers }];

const EXAMPLE = "contractor-corn-day";

async function answers(): Promise<readonly Figure[]> {
  const house = buildHouse();
  const child = spawn(process.execPath, [join(house.folder, "dist/server/cli/main.js"), "serve", "--port", "0", "--data", join(house.folder, "data")], { stdio: ["ignore", "pipe", "inherit"] });
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
    /** A question that was never asked before: another seed each time. */
    const ask = async (rehearsals: number) => {
      seed += 1;
      const answer = await fetch(`${url}/api/v1/rehearsals`, {
        method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ scenario, rehearsals, seed }),
      });
      if (!answer.ok) throw new Error(await answer.text());
      await answer.arrayBuffer();
    };
    const alive = async () => void (await (await fetch(`${url}/livez`)).arrayBuffer());

    await timesOf(100, () => ask(1));
    const day = figures("one day", await timesOf(200, () => ask(1)));
    const hundred = figures("100 rehearsals", await timesOf(40, () => ask(100)));
    const burst = Promise.all(Array.from({ length: 40 }, () => ask(100)));
    const pulse = figures("life while busy", await timesOf(100, alive));
    await burst;
    return [...day, ...hundred, ...pulse];
  } finally {
    child.kill("SIGTERM");
    house.remove();
  }
}

async function timesOf(count: number, work: () => Promise<void>): Promise<number[]> {
  const times: number[] = [];
  for (let i = 0; i < count; i += 1) {
    const from = performance.now();
    await work();
    times.push(performance.now() - from);
  }
  return times;
}

const figures = (what: string, times: number[]): Figure[] => [
  { name: what, value: quantile(times, 0.5), unit: "ms, median" },
  { name: what, value: quantile(times, 0.95), unit: "ms, 95 % within" },
];
