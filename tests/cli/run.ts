/** Runs the built command line as a person would, and tells what came of it. */
import { execFile } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { BuiltHouse } from "../server/built.ts";

export interface Ran { readonly code: number; readonly stdout: string; readonly stderr: string }

export function clampside(house: BuiltHouse, ...words: string[]): Promise<Ran> {
  return new Promise((resolve) => {
    execFile(process.execPath, [fileURLToPath(house.url("cli/main.js")), ...words], { cwd: house.folder, maxBuffer: 64e6 }, (error, stdout, stderr) => {
      resolve({ code: error ? Number(error.code) : 0, stdout, stderr });
    });
  });
}
