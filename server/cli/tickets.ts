/** `clampside tickets CSV FILE`: weigh tickets read, measured and fitted, and the recorded day held against the scenario. */
import { Option, type Command } from "commander";
import type { Colors } from "picocolors/types.js";
import { clockOf } from "../../sim/findings/clock.ts";
import { unitSystemOf } from "../../sim/scenario/system.ts";
import { displayUnit, formatNumber, inDisplayUnit, type UnitSystem } from "../../sim/scenario/units.ts";
import { pathOf } from "../../sim/scenario/words.ts";
import { DATE_ORDERS, DECIMALS, MASS_UNITS, type DateOrder, type Decimal, type MassUnit } from "../../sim/study/tickets/cells.ts";
import { MOST_TEXT } from "../../sim/study/tickets/csv.ts";
import type { DayOfLoads, Part, Spread } from "../../sim/study/tickets/loads.ts";
import { columnsSaid } from "../../sim/study/tickets/mapping.ts";
import { patchedText } from "../../sim/study/tickets/patchtext.ts";
import { tickets, type WeighedDay } from "../../sim/study/tickets/study.ts";
import { readTickets } from "../../sim/study/tickets/tickets.ts";
import { MINUS } from "../../sim/study/figuretext.ts";
import { usualRehearsals } from "../../sim/study/rehearsal.ts";
import { MOST_THREADS } from "./compare.ts";
import { onePipedAtMost, readInput, Refusal, textOf } from "./input.ts";
import { MOST_REHEARSALS, unitSystem, wholeNumber, writeWhole } from "./rehearse.ts";
import { penFor, type Pen } from "./pen.ts";
import { carriedOut } from "./study.ts";
import { coloursFor, print, printJson } from "./terminal.ts";

interface Options {
  readonly decimal?: Decimal;
  readonly dates?: DateOrder;
  readonly unit?: MassUnit;
  readonly columns?: string;
  readonly rehearsals?: number;
  readonly seed?: number;
  readonly threads?: number;
  readonly json?: boolean;
  readonly units?: UnitSystem;
  readonly patch?: string;
}

/** Adds the command to the program. */
export function addTickets(program: Command): void {
  program.command("tickets")
    .description("weigh tickets: what they tell of a day, and whether the scenario was right")
    .argument("<csv>", "tickets as the scale exports them; - for standard input")
    .argument("<file>", "scenario of that day, YAML or JSON")
    .addOption(new Option("--decimal <mark>", "decimal point or comma, where the file leaves it open").choices(DECIMALS))
    .addOption(new Option("--dates <order>", "order of day, month and year, where the file leaves it open").choices(DATE_ORDERS))
    .addOption(new Option("--unit <unit>", "unit of the masses, where the file does not say it; t is 1,000 kg, ton 2,000 lb").choices(MASS_UNITS))
    .option("--columns <names>", "which column is what, as in \"gross=Full,time=Weighed at\"")
    .option("--rehearsals <n>", "how many days to hold the recorded one against (1 without variation, else 100)", wholeNumber(1, MOST_REHEARSALS))
    .option("--seed <s>", "another luck (default: the scenario's)", wholeNumber(0, Number.MAX_SAFE_INTEGER))
    .option("--threads <n>", "threads to rehearse on; the result is the same", wholeNumber(1, MOST_THREADS))
    .option("--json", "print one JSON document")
    .option("--units <system>", "metric or us, for the page of text (default: the scenario's own)", unitSystem)
    .option("--patch <file>", "write the scenario with what the tickets tell put in")
    .addHelpText("after", "\nExample:\n  clampside tickets scenarios/tickets/low-meadow-stop.csv scenarios/low-meadow.yaml")
    .action(run);
}

/** Inputs of a usual judgement that are tried, for telling whether threads pay. */
const ABOUT_TRIED = 20 * 30;

async function run(csvFile: string, file: string, { decimal, dates, unit, columns, rehearsals, seed, threads, json, units, patch }: Options): Promise<void> {
  onePipedAtMost(csvFile, file);
  const { scenario, text } = readInput(file);
  const csv = textOf(csvFile, MOST_TEXT);
  const answers = { ...(decimal && { decimal }), ...(dates && { dates }), ...(unit && { unit }), ...(columns !== undefined && { columns: inWords(() => columnsSaid(columns)) }) };
  const { questions } = inWords(() => readTickets(csv, answers));
  if (questions.length > 0) throw new Refusal(questions.map(({ sentence, about }) => (csv.trim() === "" ? sentence : `${sentence} Say it with --${about}.`)).join("\n"));
  const study = tickets(scenario, { csv, ...answers, ...(rehearsals && { rehearsals }), ...(seed !== undefined && { seed }) });
  const result = await carriedOut(study, { days: (rehearsals ?? usualRehearsals(scenario)) + ABOUT_TRIED, threads });
  if (patch !== undefined) writeWhole(patch, patchedText(text, result.patch), "The scenario");
  if (json) return printJson(result);
  print(page(result, units ?? unitSystemOf(text), coloursFor(process.stdout)));
}

/** What the user said or sent wrongly becomes a refusal. */
function inWords<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw error instanceof RangeError ? new Refusal(error.message) : error;
  }
}

/** Refused rows and remarks that are shown; the rest is counted, and whole in the document. */
const SHOWN = 12;

function page(result: WeighedDay, system: UnitSystem, c: Colors): string {
  const { reading, days, owners, fields, trucks, storages, shapes, patch, judgement, judgedDay, scenario, seed, engine } = result;
  const out: string[] = [];
  const pen = penFor(system);
  const { wrap, hanging } = pen;
  const tonnes = (t: number, digits = 1) => formatNumber(inDisplayUnit(t * 1000, "mass", system), digits);
  const title = (text: string) => out.push("", c.bold(text));
  const list = (lines: readonly string[]) => lines.forEach((line) => out.push(...hanging("  - ", line)));
  out.push(c.bold(`Weigh tickets, and ${scenario.name}`));
  out.push(c.dim(`${judgement.rehearsals === 1 ? "one day rehearsed" : `${formatNumber(judgement.rehearsals, 0)} days rehearsed`}, seed ${seed}, engine ${engine}`));

  title(`Was the model right?${days.length > 1 ? ` The day of most loads, ${judgedDay + 1} of ${days.length}` : ""}`);
  judgement.inWords.forEach((line) => out.push(...wrap(line, 2)));
  title("Recorded beside rehearsed");
  Object.values(judgement.figures).forEach((figure) => out.push(...hanging(figure.inside === false ? "  * " : "    ", figure.inWords)));
  if (judgement.falseAlarms !== null) out.push(...wrap(`On about ${Math.round(judgement.falseAlarms * 100)} of 100 days that go as rehearsed, some stretch would be called unusual too.`, 2).map((line) => c.dim(line)));
  const off = judgement.hours.filter(({ recorded, low, high }) => recorded < low || recorded > high);
  if (off.length > 0) out.push(...wrap(`Hours outside what 8 of 10 rehearsed days show, recorded and expected ${displayUnit("mass", system)}: ${off.map(({ from, recorded, predicted }) => `${clockOf(from)} ${tonnes(recorded, 0)} (${tonnes(predicted, 0)})`).join(", ")}.`, 2));
  if (judgement.explained.length > 0) {
    title("What would explain it");
    const shares = judgement.explained.map(({ closes }) => `${formatNumber(closes * 100, 0).replace("-", MINUS)} %`);
    const width = Math.max(6, ...shares.map(({ length }) => length));
    judgement.explained.forEach(({ what }, i) => out.push(...hanging(`  ${shares[i]!.padStart(width)}  `, what)));
    out.push(c.dim("  share of the difference that it takes away, one change at a time"));
  }

  title("What the tickets tell");
  for (const [i, day] of days.entries()) out.push(...dayLines(day, days.length > 1 ? `Day ${i + 1}: ` : "", pen));
  for (const [name, parts] of [["owner", owners], ["field", fields], ["truck", trucks], ["storage", storages]] as const) {
    if (parts.some((part) => part.name !== null)) out.push(...wrap(`By ${name}: ${parts.map(partWords).join("; ")}.`, 2));
  }
  title("Shapes");
  for (const [name, fitted] of Object.entries(shapes)) list([fitted ? `${SHAPED[name as keyof typeof shapes]}, ${fitted.n} values: ${fitted.why}` : `${SHAPED[name as keyof typeof shapes]}: too few to fit, or all alike.`]);
  title("What they change in the scenario");
  list(patch.changes.map(({ path, value, n, because }) => `${pathOf(path)}: ${typeof value === "string" ? value : `${value.shape}${value.cv === undefined ? "" : `, cv ${value.cv}`}`} (${n} tickets; ${because})`));
  list(patch.cannot.map((sentence) => `Not told. ${sentence}`));

  title("How the file was read");
  list(reading.mapping.understood);
  if (reading.mapping.ignored.length > 0) list([`Not read: ${reading.mapping.ignored.join(", ")}.`]);
  out.push(...wrap(`${formatNumber(reading.rows, 0)} rows: ${formatNumber(reading.tickets, 0)} tickets, ${formatNumber(reading.refused.length, 0)} refused.`, 2));
  list(reading.refused.slice(0, SHOWN).map(({ row, because }) => `Row ${row} is refused. ${because}`));
  list(reading.remarks.slice(0, SHOWN).map(({ row, remark }) => `Row ${row}. ${remark}`));
  const more = Math.max(0, reading.refused.length - SHOWN) + Math.max(0, reading.remarks.length - SHOWN);
  if (more > 0) list([`${formatNumber(more, 0)} more; --json has them all.`]);
  return out.map((line) => line.trimEnd()).join("\n");
}

const DAY = 86_400;
const SHAPED = { load: "Full loads", cycle: "Rounds", stay: "Time at the storage", between: "Between weighings" } as const;

function dayLines({ first, last, loads, tonnes, tonnesPerHour, loadsPerHour, steadyPace, load, cycle, stay, gaps }: DayOfLoads, head: string, { wrap }: Pen): string[] {
  const spread = (words: string, value: Spread | null, unit: string) => (value ? [`${words} ${formatNumber(value.mean, 1)} ${unit}${value.sd === null ? "" : `, spread ${formatNumber(value.sd, 1)} ${unit}`} (${value.n})`] : []);
  const rates = tonnesPerHour === null || loadsPerHour === null ? [] : [`${formatNumber(tonnesPerHour, 0)} t/h and ${formatNumber(loadsPerHour, 1)} loads an hour`];
  const pace = steadyPace === null ? [] : [`while loads kept coming ${formatNumber(steadyPace, 0)} t an hour, which the chopper gave at the least`];
  // By the clock of its own first day, however many came before.
  const clock = (at: number) => clockOf(at - Math.floor(first / DAY) * DAY);
  const longest = gaps.slice(0, 3).map(({ from, to }) => `${clock(from)} to ${clock(to)}`);
  const sentence = [...rates, ...pace, ...spread("a load", load, "t"), ...spread("a round", cycle, "min"), ...spread("at the storage", stay, "min"), ...(longest.length > 0 ? [`longest without a load ${longest.join(", ")}`] : [])].join("; ");
  return wrap(`${head}${formatNumber(loads, 0)} loads, ${formatNumber(tonnes, 1)} t from ${clock(first)} to ${clock(last)}; ${sentence}.`, 2);
}

const partWords = ({ name, loads, tonnes }: Part): string => `${name ?? "not named"} ${formatNumber(tonnes, 1)} t in ${loads === 1 ? "one load" : `${formatNumber(loads, 0)} loads`}`;
