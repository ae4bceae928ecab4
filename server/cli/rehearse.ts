/** `clampside rehearse FILE`: simulates the day; verdict and measures. */
import { renameSync, rmSync, writeFileSync } from "node:fs";
import { InvalidArgumentError, type Command } from "commander";
import pc from "picocolors";
import { counted } from "../../sim/findings/figure.ts";
import { LOG_SCHEMA, writeLog } from "../../sim/harvest/log.ts";
import { unitSystemOf } from "../../sim/scenario/system.ts";
import type { UnitSystem } from "../../sim/scenario/units.ts";
import { isDeterministic, rehearse, usualRehearsals, type Rehearsal } from "../../sim/study/rehearsal.ts";
import { ENGINE_VERSION } from "../../sim/version.ts";
import { onePipedAtMost, Refusal, whyUnwritten, readInput, readStart } from "./input.ts";
import { countProgress } from "./progress.ts";
import { report } from "./report.ts";

/** Most rehearsals of one command; beyond it the limits of the mean shrink too slowly to be worth the wait. */
export const MOST_REHEARSALS = 100_000;

interface Options {
  readonly rehearsals?: number;
  readonly seed?: number;
  readonly json?: boolean;
  readonly log?: string;
  readonly from?: string;
  readonly units?: UnitSystem;
}

/** Adds the command to the program. */
export function addRehearse(program: Command): void {
  program
    .command("rehearse")
    .description("simulate the day: does packing keep up, and what follows")
    .argument("<file>", "scenario, YAML or JSON; - for standard input")
    .option("--rehearsals <n>", "how many days to rehearse (1 without variation, else 100)", wholeNumber(1, MOST_REHEARSALS))
    .option("--seed <s>", "another luck (default: the scenario's)", wholeNumber(0, Number.MAX_SAFE_INTEGER))
    .option("--from <file>", "rehearse the rest of the day, from how things stand in this file (YAML)")
    .option("--json", "print the findings as one JSON document")
    .option("--log <file>", "write the day with the median finish as JSON lines")
    .option("--units <system>", "metric or us, for the page of text (default: the file's own)", unitSystem)
    .addHelpText("after", "\nExamples:\n  clampside rehearse scenarios/low-meadow.yaml --rehearsals 200 --log day.jsonl\n  clampside rehearse scenarios/low-meadow.yaml --from scenarios/now/low-meadow-noon.yaml")
    .action(run);
}

function run(file: string, options: Options): void {
  onePipedAtMost(file, options.from);
  const { scenario, defaults, text } = readInput(file);
  const rehearsals = options.rehearsals ?? usualRehearsals(scenario);
  const seed = options.seed ?? scenario.seed;
  const start = options.from === undefined ? null : readStart(options.from, scenario);
  const progress = countProgress("days rehearsed", rehearsals);
  let result: Rehearsal;
  try {
    result = rehearse(scenario, { rehearsals, seed, defaults, onDay: progress.tick, ...(start && { start }) });
  } finally {
    progress.done();
  }
  const { findings, day, rehearsal } = result;
  if (options.log !== undefined) {
    writeWhole(options.log, writeLog({ schema: LOG_SCHEMA, scenario: findings.scenario, plan: scenario, seed, engine: ENGINE_VERSION, rehearsal }, day));
  }
  if (options.json) {
    process.stdout.write(`${JSON.stringify(findings, null, 2)}\n`);
    return;
  }
  const system = options.units ?? unitSystemOf(text);
  const colours = pc.createColors(process.stdout.isTTY === true && pc.isColorSupported);
  process.stdout.write(report(findings, { system, colours, lucky: !isDeterministic(scenario), shiftStart: day.from }));
}

/** Writes a file whole or not at all: an interrupt leaves the old one, or none. */
export function writeWhole(path: string, content: string, what = "The log"): void {
  const draft = `${path}.${process.pid}.part`;
  try {
    writeFileSync(draft, content);
    renameSync(draft, path);
  } catch (cause) {
    rmSync(draft, { force: true });
    throw new Refusal(`${what} cannot be written to ${path}: ${whyUnwritten(cause)}.`, { exitCode: 1 });
  }
}

/** Reads a whole number; commander says what is wrong with another. */
export function wholeNumber(least: number, most: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!Number.isInteger(value) || value < least || value > most) throw new InvalidArgumentError(`a whole number from ${counted(least)} to ${counted(most)} would do.`);
    return value;
  };
}

/** Reads the reader's units. */
export function unitSystem(text: string): UnitSystem {
  if (text !== "metric" && text !== "us") throw new InvalidArgumentError("metric or us would do.");
  return text;
}
