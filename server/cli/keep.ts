/** `clampside keep` and `clampside restore`: all that is kept in a data folder as one file, and such a file put beside what a folder holds. No server may be using the folder. */
import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { join, resolve } from "node:path";
import type { Command } from "commander";
import { house } from "../house.ts";
import { LIMITS } from "../limits.ts";
import { archiveOf, linesOf, NoArchive } from "../store/archive.ts";
import { DATABASE_FILE } from "../store/database.ts";
import { usualFolder } from "../store/folder.ts";
import { lookThrough, takeArchive } from "../store/restore.ts";
import type { Taken } from "../store/restore.ts";
import { Store } from "../store/store.ts";
import { StoreTrouble } from "../store/trouble.ts";
import { readTemplates } from "../templates.ts";
import { Refusal, whyUnwritten } from "./input.ts";
import { print, printable } from "./terminal.ts";

interface Options { readonly data?: string }

const DATA = "the data folder (default: the platform's folder for such data)";

export function addKeep(program: Command): void {
  program.command("keep")
    .description("all that is kept in the data folder as one file, for another place")
    .argument("<file>", "the file to write")
    .option("--data <folder>", DATA)
    .addHelpText("after", "\nExample:\n  clampside keep harvest.jsonl")
    .action((file: string, { data }: Options) => keep(file, folderOf(data)));
  program.command("restore")
    .description("puts what such a file holds beside what is in the data folder; nothing there is changed or lost")
    .argument("<file>", "a file that was written by keep, or that the server gave under /api/v1/archive")
    .option("--data <folder>", DATA)
    .addHelpText("after", "\nExample:\n  clampside restore harvest.jsonl --data new-folder")
    .action((file: string, { data }: Options) => restore(file, folderOf(data)));
}

const folderOf = (data: string | undefined): string => (data === undefined ? usualFolder() : resolve(data));

/** Writes the file whole or not at all. */
async function keep(file: string, folder: string): Promise<void> {
  if (!existsSync(join(folder, DATABASE_FILE))) throw new Refusal(`Nothing is kept in ${printable(folder)}.`);
  const part = `${file}.${process.pid}.part`;
  await using(folder, (store) => {
    try {
      const handle = openSync(part, "w", 0o600);
      try {
        for (const line of archiveOf(store, new Date())) writeSync(handle, line);
        fsyncSync(handle);
      } finally {
        closeSync(handle);
      }
      renameSync(part, file);
    } catch (error) {
      rmSync(part, { force: true });
      throw error instanceof StoreTrouble ? error : new Refusal(`${printable(file)} cannot be written: ${whyUnwritten(error)}.`, { exitCode: 1 });
    }
  });
}

async function restore(file: string, folder: string): Promise<void> {
  if (!existsSync(file)) throw new Refusal(`There is no file ${printable(file)}.`);
  // Nothing is made of the folder before the file is known to be whole.
  const histories = await lookThrough(linesOf(file)).catch((error: unknown) => { throw refusalOf(error, file); });
  const examples = new Set(readTemplates(join(house(), "scenarios")).map(({ id }) => id));
  await using(folder, (store) => {
    try {
      print(inWords(takeArchive(store, linesOf(file), histories, (id) => examples.has(id))));
    } catch (error) {
      throw refusalOf(error, file);
    }
  });
}

/** Opens the folder, and closes it however the work ends. */
async function using(folder: string, work: (store: Store) => void): Promise<void> {
  let store: Store | undefined;
  try {
    store = new Store(folder, LIMITS);
    work(store);
  } catch (error) {
    throw error instanceof StoreTrouble ? new Refusal(printable(error.message), { exitCode: 1 }) : error;
  } finally {
    store?.close();
  }
}

function refusalOf(error: unknown, file: string): unknown {
  if (error instanceof NoArchive) return new Refusal(`${printable(file)}: ${error.message} Nothing of it was taken.`);
  return (error as { code?: unknown }).code === "EISDIR" ? new Refusal(`${printable(file)} is a folder, not a file.`) : error;
}

function inWords({ added, continued, same, renamed, answers }: Taken): string {
  const scenarios = `Scenarios: ${added + renamed.length} new, ${continued} gone on with, ${same} here already. Rehearsals and studies: ${answers} new.`;
  return [scenarios, ...renamed.map(({ from, to }) => `Another ${from} is kept here; theirs is ${to}.`)].join("\n");
}
