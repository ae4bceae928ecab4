/** Runs the built command line as a person would, and tells what came of it. */
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { BuiltHouse } from "../server/built.ts";

export interface Ran { readonly code: number | null; readonly stdout: string; readonly stderr: string }

export interface Surroundings {
  /** what is piped in */ readonly input?: string;
  readonly env?: Readonly<Record<string, string>>;
  /** nobody reads what it prints */ readonly closeOutput?: boolean;
}

/** In a process of its own, until its end. */
export const clampside = (house: BuiltHouse, ...words: string[]): Promise<Ran> => clampsideIn(house, words);

/** The same in surroundings of another kind. */
export function clampsideIn(house: BuiltHouse, words: readonly string[], { input, env = {}, closeOutput = false }: Surroundings = {}): Promise<Ran> {
  const child = spawn(process.execPath, [fileURLToPath(house.url("cli/main.js")), ...words], { cwd: house.folder, env: { ...process.env, FORCE_COLOR: undefined, ...env } });
  let [stdout, stderr] = ["", ""];
  child.stdout.setEncoding("utf8").on("data", (piece: string) => { stdout += piece; });
  child.stderr.setEncoding("utf8").on("data", (piece: string) => { stderr += piece; });
  if (closeOutput) child.stdout.destroy();
  child.stdin.on("error", () => undefined).end(input ?? "");
  return new Promise((resolve) => child.on("close", (code) => resolve({ code, stdout, stderr })));
}
