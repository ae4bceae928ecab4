/** `clampside fixes FILE`: remedies, ranked, each rehearsed on the same days. */
import type { Command } from "commander";
import type { Colors } from "picocolors/types.js";
import { counted } from "../../sim/findings/figure.ts";
import type { Caution } from "../../sim/findings/types.ts";
import { MEASURE_WORDS, measureUnit } from "../../sim/findings/words.ts";
import { unitSystemOf } from "../../sim/scenario/system.ts";
import { displayUnit, formatQuantity, type UnitSystem } from "../../sim/scenario/units.ts";
import type { EffectName } from "../../sim/study/effectnames.ts";
import type { Effects } from "../../sim/study/effects.ts";
import { fixes, mostPlans, type Does, type FixRow, type Fixes } from "../../sim/study/fixes.ts";
import { GAINED } from "../../sim/study/marginal.ts";
import { usualRehearsals } from "../../sim/study/rehearsal.ts";
import { LEFT_STANDING } from "../../sim/study/figures.ts";
import { MOST_THREADS } from "./compare.ts";
import { figureValue, LEAST_GAIN, remedyLabel, signed, type Reader } from "../../sim/study/figuretext.ts";
import { onePipedAtMost, readInput, readStart } from "./input.ts";
import { MOST_REHEARSALS, unitSystem, wholeNumber } from "./rehearse.ts";
import { penFor } from "./pen.ts";
import { carriedOut } from "./study.ts";
import { coloursFor, print, printJson } from "./terminal.ts";

interface Options {
  readonly rehearsals?: number;
  readonly seed?: number;
  readonly json?: boolean;
  readonly units?: UnitSystem;
  readonly threads?: number;
  readonly from?: string;
}

/** Adds the command to the program. */
export function addFixes(program: Command): void {
  program.command("fixes")
    .description("what to change: remedies, ranked, each rehearsed on the same days")
    .argument("<file>", "scenario, YAML or JSON; - for standard input")
    .option("--rehearsals <n>", "how many days each (1 without variation, else 100)", wholeNumber(1, MOST_REHEARSALS))
    .option("--seed <s>", "another luck (default: the scenario's)", wholeNumber(0, Number.MAX_SAFE_INTEGER))
    .option("--from <file>", "only what can still be done today, from how things stand in this file (YAML)")
    .option("--json", "print one JSON document")
    .option("--units <system>", "metric or us, for the page of text (default: the file's own)", unitSystem)
    .option("--threads <n>", "threads to rehearse on; the result is the same", wholeNumber(1, MOST_THREADS))
    .addHelpText("after", "\nExamples:\n  clampside fixes scenarios/low-meadow.yaml\n  clampside fixes scenarios/low-meadow.yaml --from scenarios/now/low-meadow-noon.yaml")
    .action(run);
}

async function run(file: string, { rehearsals, seed, json, units, threads, from }: Options): Promise<void> {
  onePipedAtMost(file, from);
  const { scenario, text } = readInput(file);
  const asked = { ...(rehearsals && { rehearsals }), ...(seed !== undefined && { seed }), ...(from !== undefined && { start: readStart(from, scenario) }) };
  const result = await carriedOut(fixes(scenario, asked), { days: mostPlans(scenario, asked) * (rehearsals ?? usualRehearsals(scenario)), threads });
  if (json) return printJson(result);
  print(page(result, { system: units ?? unitSystemOf(text), currency: scenario.money.currency }, coloursFor(process.stdout)));
}

/** The headings, in the order of the page. */
const HEADINGS: readonly (readonly [Does, string])[] = [
  ["helps", "Helps"], ["mixed", "Gives and takes"], ["saves", "Saves money, and nothing that counts gets worse"], ["harms", "Makes the day worse"],
];

const LABEL = 38;
const COLUMNS: readonly EffectName[] = ["cost", "density", "waiting", "finish"];
const WIDTHS = [9, 7, 9, 7];

function page(result: Fixes, reader: Reader, c: Colors): string {
  const { base, rows, rehearsals, seed, engine, scenario, cost, proof, marginal, ranking } = result;
  const { wrap, hanging } = penFor(reader.system);
  const out: string[] = [c.bold(`What to change${result.from === undefined ? "" : ` for the rest of the day, from ${result.from}`}: ${scenario.name}`)];
  out.push(c.dim(`${rehearsals === 1 ? "one day each" : `${counted(rehearsals)} days each, on the same luck`}, seed ${seed}, engine ${engine}`));
  const cautions: Caution[] = [];
  const noted: string[] = [];
  const refs = (row: FixRow) => row.cautions.map((caution) => {
    const at = cautions.findIndex(({ id, where, text }) => id === caution.id && where === caution.where && text === caution.text);
    return at >= 0 ? at + 1 : cautions.push(caution);
  });
  const line = (label: string, cells: readonly string[], end = "", indent = 2) => {
    const numbers = `${cells.map((cell, i) => cell.padStart(WIDTHS[i]!)).join("")}${end}`;
    const [first = "", ...more] = wrap(label, indent, LABEL);
    return [`${first.padEnd(LABEL)}${numbers}`.trimEnd(), ...more.map((rest) => `  ${rest}`)];
  };

  const as = (name: "dryDensity" | "chopperWaiting" | typeof cost) => {
    const measure = base.measures[name];
    const unit = measureUnit(name, reader.system);
    return measure ? [`${MEASURE_WORDS[name].label.toLowerCase()} ${figureValue(name, measure.mean, reader)} ${name === cost ? `${reader.currency} ` : ""}${unit}`] : [];
  };
  out.push(...wrap(`As it is: ${[...as(cost), ...as("dryDensity"), ...as("chopperWaiting")].join("; ")}. Packing keeps pace on ${Math.round(base.chance * 100)} of 100 days.`, 2));
  out.push("", c.dim(line("", [`${reader.currency}${measureUnit(cost, reader.system).replace("per ", "/")}`, displayUnit("density", reader.system), "chopper", "closed"])[0]!));
  out.push(c.dim(line("", [cost === "costPerTonneFed" ? "dry, fed" : "fresh", "dry", "waits, %", "h:min"])[0]!));

  for (const [does, heading] of HEADINGS) {
    const shown = rows.filter((row) => row.does === does).sort((a, b) => a.effects!.by.cost.mean - b.effects!.by.cost.mean);
    if (shown.length === 0) continue;
    out.push(c.bold(heading));
    for (const row of shown) {
      const marks = refs(row);
      out.push(...line(remedyLabel(row, reader), cellsOf(row.effects!, reader), marks.length > 0 ? c.dim(` ${marks.join(" ")}`) : ""));
      const left = row.effects!.left[1];
      if (left > LEFT_STANDING && left - row.effects!.left[0] > LEFT_STANDING) out.push(c.yellow(`    Left standing: ${formatQuantity(left, "mass", reader.system, 0)}.`));
      if (row.withoutLayerTerm) out.push(...line("the same where the layer has no effect", cellsOf(row.withoutLayerTerm, reader), "", 4).map((text) => c.dim(text)));
      for (const { note } of row.parts.length > 0 ? row.parts.map((id) => rows.find((part) => part.id === id)!) : [row]) if (note !== null && !noted.includes(note)) noted.push(note);
    }
  }
  out.push(...wrap("Empty: not noticeably different. What is shown is sure, 95 % for a whole column together. Small figures: cautions below.", 2).map((text) => c.dim(text)));

  const idle = rows.filter(({ does }) => does === "nothing" || does === "endless");
  if (idle.length > 0) {
    out.push("", c.bold("Does nothing, and why"));
    for (const row of idle) out.push(...hanging("  - ", `${remedyLabel(row, reader)}: ${row.why ?? ""}`));
  }
  const best = (name: EffectName) => ranking[name].slice(0, 3).map((id) => remedyLabel(rows.find((row) => row.id === id)!, reader));
  const most = ([["cost", "Cheapest tonne"], ["density", "Densest clamp"], ["waiting", "Least waiting"], ["finish", "Done first"]] as const).filter(([name]) => ranking[name].length > 0);
  if (most.length > 0) {
    out.push("", c.bold("First of each kind"));
    for (const [name, words] of most) out.push(...hanging(`  ${`${words}:`.padEnd(17)}`, best(name).join("; ")));
  }

  out.push("", c.bold("One unit more of each"));
  for (const { station, unit, worth } of [...marginal].sort((a, b) => b.worth - a.worth)) {
    out.push(`  ${`${station === "apron" ? "apron" : station}: ${unit}`.padEnd(62)}${`${worth >= LEAST_GAIN ? `+${(worth * 100).toFixed(1)} %` : "–"}`.padStart(9)}`);
  }
  out.push(...wrap(`Told as the gain of what the plan is short of: ${GAINED[proof.of]}.`, 2).map((text) => c.dim(text)), ...wrap(proof.inWords, 2));

  if (result.sendHome.length > 0) {
    out.push("", c.bold("Who can be sent home"));
    for (const { what, inWords } of result.sendHome) out.push(...hanging("  - ", `${what}: ${inWords}`));
  }
  if (noted.length + result.notTried.length > 0) {
    out.push("", c.bold("To be read with it"));
    for (const note of [...noted, ...result.notTried.map(({ because }) => because)]) out.push(...hanging("  - ", note));
  }
  if (cautions.length > 0) {
    out.push("", c.bold("Cautions"));
    cautions.forEach(({ where, text }, i) => out.push(...hanging(`  ${i + 1} `, `${where}: ${text}`)));
  }
  return out.map((text) => text.trimEnd()).join("\n");
}

/** What moves noticeably; the rest stays empty. */
const cellsOf = ({ by }: Effects, reader: Reader): string[] => COLUMNS.map((name) => (by[name].moves ? signed(by[name].figure, by[name].mean, reader) : ""));
