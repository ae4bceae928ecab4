/** What `clampside` can do: one file a command, registered below. Exit codes: 0 done, 1 failed, 2 wrong use or unsound input. */
import { Command, CommanderError } from "commander";
import { ENGINE_VERSION } from "../../sim/version.ts";
import { addCampaign } from "./campaign.ts";
import { addCheck } from "./check.ts";
import { addCompare } from "./compare.ts";
import { addCrewUp } from "./crewup.ts";
import { addFields } from "./fields.ts";
import { addFixes } from "./fixes.ts";
import { Refusal } from "./input.ts";
import { addKeep } from "./keep.ts";
import { addRehearse } from "./rehearse.ts";
import { addServe } from "./serve-command.ts";
import { printable, tell } from "./terminal.ts";
import { addTickets } from "./tickets.ts";
import { wrongUse } from "./wronguse.ts";

/** Every command, in the order of the help. A command throws `Refusal` for what it cannot use; it sets `process.exitCode` itself only where it ends otherwise than done. */
const COMMANDS: readonly ((program: Command) => void)[] = [addRehearse, addCompare, addFixes, addCrewUp, addTickets, addFields, addCampaign, addCheck, addServe, addKeep];

/** Carries out what the words of a command line say, as far as `process.exitCode`. */
export async function run(words: readonly string[]): Promise<void> {
  const program = new Command("clampside")
    .description("Rehearses a silage harvest day before it happens.")
    .version(ENGINE_VERSION, "--version", "print the version of the engine")
    .helpOption("--help", "say what there is")
    .helpCommand("help [command]", "say what there is of one command")
    .configureOutput({ outputError: () => {} })
    .exitOverride();
  for (const add of COMMANDS) add(program);
  try {
    await program.parseAsync(words, { from: "user" });
  } catch (error) {
    process.exitCode = exitCodeOf(error);
  }
}

/** Says what went wrong, and gives the exit code. */
function exitCodeOf(error: unknown): number {
  if (error instanceof CommanderError) {
    if (error.exitCode === 0) return 0;
    // Where no command was given, all that there is was said already.
    if (error.code !== "commander.help") tell(`${wrongUse(error.message)}\nclampside --help says what there is.`);
    return 2;
  }
  if (error instanceof Refusal) {
    tell(error.message);
    return error.exitCode;
  }
  tell(`Clampside could not finish: ${printable(error instanceof Error ? error.message : String(error))}`);
  return 1;
}
