/** `clampside compare A B`: two to six scenarios on the same luck. */
import type { Command } from "commander";
import type { Colors } from "picocolors/types.js";
import { counted, likely } from "../../sim/findings/figure.ts";
import { headlineIn, MEASURE_GROUPS } from "../../sim/findings/words.ts";
import { unitSystemOf } from "../../sim/scenario/system.ts";
import type { UnitSystem } from "../../sim/scenario/units.ts";
import { compare, type Comparison } from "../../sim/study/compare.ts";
import type { FigureName } from "../../sim/study/figures.ts";
import { usualRehearsals } from "../../sim/study/rehearsal.ts";
import { figureLabel, figureValue, limits, signed, type Reader } from "../../sim/study/figuretext.ts";
import { onePipedAtMost, readInput } from "./input.ts";
import { MOST_REHEARSALS, unitSystem, wholeNumber } from "./rehearse.ts";
import { penFor } from "./pen.ts";
import { carriedOut } from "./study.ts";
import { coloursFor, print, printJson, WIDTH } from "./terminal.ts";

interface Options {
  readonly rehearsals?: number;
  readonly seed?: number;
  readonly json?: boolean;
  readonly units?: UnitSystem;
  readonly threads?: number;
}

/** Most threads a command may be given. */
export const MOST_THREADS = 64;

/** Adds the command to the program. */
export function addCompare(program: Command): void {
  program.command("compare")
    .description("two to six scenarios on the same luck: what differs, and how sure that is")
    .argument("<files...>", "scenarios, YAML or JSON; the others are held against the first")
    .option("--rehearsals <n>", "how many days each (1 without variation, else 100)", wholeNumber(1, MOST_REHEARSALS))
    .option("--seed <s>", "another luck (default: the first scenario's)", wholeNumber(0, Number.MAX_SAFE_INTEGER))
    .option("--json", "print one JSON document")
    .option("--units <system>", "metric or us, for the page of text (default: the first file's own)", unitSystem)
    .option("--threads <n>", "threads to rehearse on; the result is the same", wholeNumber(1, MOST_THREADS))
    .addHelpText("after", "\nExample:\n  clampside compare scenarios/contractor-corn-day-living.yaml scenarios/contractor-corn-day-fixed.yaml")
    .action(run);
}

async function run(files: readonly string[], { rehearsals, seed, json, units, threads }: Options): Promise<void> {
  onePipedAtMost(...files);
  const inputs = files.map(readInput);
  const scenarios = inputs.map(({ scenario }) => scenario);
  const days = scenarios.length * (rehearsals ?? Math.max(...scenarios.map(usualRehearsals)));
  const comparison = await carriedOut(compare(scenarios, { ...(rehearsals && { rehearsals }), ...(seed !== undefined && { seed }) }), { days, threads });
  if (json) return printJson(comparison);
  const reader = { system: units ?? unitSystemOf(inputs[0]!.text), currency: scenarios[0]!.money.currency };
  print(page(comparison, reader, coloursFor(process.stdout)));
}

/** Columns of one plan's value, and of the mark behind it. */
const VALUE = 8;

function page({ plans, differences, inWords, rehearsals, seed, engine, notes }: Comparison, reader: Reader, c: Colors): string {
  const { wrap, hanging } = penFor(reader.system);
  const out: string[] = [];
  out.push(c.bold(`${plans.length} plans on the same luck`));
  out.push(c.dim(`${rehearsals === 1 ? "one day each" : `${counted(rehearsals)} days each`}, seed ${seed}, engine ${engine}`), "");
  for (const plan of plans) {
    out.push(c.bold(`${plan.letter}  ${plan.name}`));
    const said = `${plan.verdict.keepsPace ? "Yes." : "No."} ${headlineIn(plan.verdict, reader.system)}`;
    out.push(...wrap(said, 3).map((line) => (plan.verdict.keepsPace ? c.green(line) : c.yellow(line))));
  }

  out.push("", c.bold("Side by side"));
  const width = Math.min(40, WIDTH - VALUE * plans.length);
  const row = (label: string, cells: readonly string[], marks: readonly boolean[] = []) => {
    const values = cells.map((cell, i) => `${cell}${marks[i] ? "*" : " "}`.padStart(VALUE)).join("").trimEnd();
    if (label.length < width) return [label.padEnd(width) + values];
    return [label, " ".repeat(width) + values];
  };
  out.push(c.dim(row("", plans.map(({ letter }) => letter))[0]!));
  const groups: readonly (readonly [string, readonly FigureName[]])[] = MEASURE_GROUPS.map(([group, names]) =>
    [group, names.flatMap((name): FigureName[] => (name === "finishedAt" ? ["closedAt"] : [name]))]);
  for (const [group, names] of groups) {
    const rows = names.flatMap((name) => {
      const values = plans.map((plan) => (name === "closedAt" ? plan.closedAt : plan.measures[name] ?? null));
      if (values.every((value) => value === null)) return [];
      return row(`  ${figureLabel(name, reader)}`, values.map((value) => (value ? figureValue(name, value.mean, reader) : "–")),
        plans.map((_, i) => i > 0 && differences[i - 1]!.figures[name]?.sure === true));
    });
    if (rows.length > 0) out.push(c.dim(group), ...rows);
  }
  const often = plans.map(({ verdict }) => `${Math.round(verdict.chance * 100)} %`);
  out.push(c.dim("Chances"), ...row("  Keeps pace, the luck of the day", often));
  out.push(...row("  Reaches the target, by the relation", plans.map(({ chanceOfTarget }) => (chanceOfTarget === null ? "–" : likely(chanceOfTarget)))));
  if (rehearsals > 1) out.push(...wrap(`* differs from A for sure: 95 % for all plans of a row together.`, 2).map((line) => c.dim(line)));

  for (const { plan, against, figures } of differences) {
    out.push("", c.bold(`${plan} instead of ${against}`));
    // A difference that rounds to nothing, however sure, is none to a reader.
    const shows = (name: FigureName) => /^[+\u2212]/u.test(signed(name, figures[name]!.mean, reader));
    const sure = (Object.keys(figures) as FigureName[]).filter((name) => figures[name]!.better !== null && name !== "finishedAt" && shows(name));
    if (sure.length === 0) out.push("  Nothing differs for sure that shows.");
    for (const name of sure) {
      const difference = figures[name]!;
      const label = `  ${figureLabel(name, reader)}`;
      const numbers = `${signed(name, difference.mean, reader).padStart(9)}  ${limits(name, difference, reader).padEnd(19)} ${difference.better ? c.green("better") : c.yellow("worse")}`;
      out.push(...(label.length <= 42 ? [label.padEnd(42) + numbers] : [label, " ".repeat(42) + numbers]));
    }
    const gains = sure.map((name) => figures[name]!.luckGain).filter((gain) => gain !== null).sort((a, b) => a - b);
    const middle = gains[Math.floor((gains.length - 1) / 2)];
    if (middle !== undefined) out.push(...wrap(worth(middle), 2).map((line) => c.dim(line)));
  }
  if (inWords.length > 0) out.push("", c.bold("In words"));
  for (const sentence of inWords) out.push(...hanging("  - ", sentence));
  for (const note of notes) out.push("", ...hanging("- ", note));
  return out.map((line) => line.trimEnd()).join("\n");
}

/** What the shared luck was worth, by the figure in the middle. */
function worth(gain: number): string {
  return gain >= 1
    ? `Both met the same luck: a day of it tells as much about a difference as ${gain.toFixed(gain < 10 ? 1 : 0)} days of separate luck (half of these figures more, half less).`
    : `The plans answer to luck so differently that meeting the same of it did not help: ${gain.toFixed(1)} days of separate luck would tell as much as one of these.`;
}
