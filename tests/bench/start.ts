/** How long a person waits for the built command: its version, a day rehearsed, and the server's first sign of life. */
import { spawn, spawnSync } from "node:child_process";
import { join } from "node:path";
import { addressOf } from "../server/addressof.ts";
import { buildHouse } from "../server/built.ts";
import type { Case, Figure } from "./case.ts";

const ROUNDS = 5;

export const START_CASES: readonly Case[] = [{ name: "start: the built command from cold", run: start }];

async function start(): Promise<readonly Figure[]> {
  const house = buildHouse();
  const command = join(house.folder, "dist/server/cli/main.js");
  try {
    const once = (words: readonly string[]) => {
      const from = performance.now();
      const { status, stderr } = spawnSync(process.execPath, [command, ...words], { encoding: "utf8", cwd: house.folder });
      if (status !== 0) throw new Error(stderr);
      return performance.now() - from;
    };
    const best = (words: readonly string[]) => Math.min(...Array.from({ length: ROUNDS }, () => once(words)));
    const serving: number[] = [];
    for (let round = 0; round < ROUNDS; round += 1) serving.push(await firstAnswer(command, join(house.folder, `data-${round}`)));
    return [
      { name: "--version", value: best(["--version"]), unit: "ms", bar: 1000 },
      { name: "rehearse, one day", value: best(["rehearse", join("scenarios", "contractor-corn-day.yaml")]), unit: "ms" },
      { name: "serve, first answer", value: Math.min(...serving), unit: "ms", bar: 1000 },
    ];
  } finally {
    house.remove();
  }
}

/** ms from the command to an answer over HTTP. */
async function firstAnswer(command: string, data: string): Promise<number> {
  const from = performance.now();
  const child = spawn(process.execPath, [command, "serve", "--port", "0", "--data", data], { stdio: ["ignore", "pipe", "inherit"] });
  try {
    const url = await addressOf(child);
    await (await fetch(`${url}/livez`)).arrayBuffer();
    return performance.now() - from;
  } finally {
    child.kill("SIGTERM");
    await new Promise((done) => (child.exitCode === null ? child.once("exit", done) : done(null)));
  }
}
