/** `clampside check FILE`: is the scenario sound, and what holds where it is silent. */
import type { Command } from "commander";
import type { Colors } from "picocolors/types.js";
import { hashOf } from "../../sim/scenario/hash.ts";
import type { AppliedDefault, Scenario } from "../../sim/scenario/types.ts";
import { formatNumber, formatQuantity } from "../../sim/scenario/units.ts";
import { ENGINE_VERSION } from "../../sim/version.ts";
import { scenarioFrom } from "./input.ts";
import { coloursFor, print, printJson } from "./terminal.ts";

export function addCheck(program: Command): void {
  program.command("check")
    .description("is the scenario sound; what defaults apply")
    .argument("<file>", "scenario file, YAML or JSON")
    .option("--json", "print one JSON document")
    .action(async (file: string, { json }: { readonly json?: boolean }) => {
      const { scenario, defaults } = await scenarioFrom(file);
      if (json) printJson({ scenario: { name: scenario.name, hash: hashOf(scenario) }, engine: ENGINE_VERSION, defaults });
      else print(page(scenario, defaults, coloursFor(process.stdout)));
    });
}

function page(scenario: Scenario, defaults: readonly AppliedDefault[], colours: Colors): string {
  return [colours.bold(scenario.name), "The scenario is sound.", "", ...inFigures(scenario), "", ...silences(defaults, colours)].join("\n");
}

/** "1 field", "2 fields". */
const counted = (count: number, one: string): string => `${formatNumber(count, 0)} ${one}${count === 1 ? "" : "s"}`;

/** What the file describes, so that a slip of the pen shows. */
function inFigures({ fields, choppers, trucks, storages, shift }: Scenario): string[] {
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const mass = sum(fields.map((field) => field.area * field.yield));
  const dryMass = sum(fields.map((field) => field.area * field.yield * field.dryMatter));
  const fleet = sum(trucks.map(({ count }) => count));
  const meanLoad = sum(trucks.map(({ count, load }) => count * load)) / fleet;
  const tractors = storages.flatMap((storage) => storage.tractors);
  return [
    `${counted(fields.length, "field")}, ${formatQuantity(sum(fields.map(({ area }) => area)), "area", "metric")}: `
      + `${formatQuantity(mass, "mass", "metric", 0)} fresh, ${formatQuantity(dryMass / mass, "share", "metric", 1)} dry matter, about ${counted(Math.ceil(mass / meanLoad), "load")}`,
    `${counted(choppers.length, "chopper")}, ${counted(fleet, "truck")}; ${counted(storages.length, "storage")}, `
      + `${counted(tractors.length, "tractor")} of ${formatQuantity(sum(tractors.map((tractor) => tractor.mass)), "mass", "metric")} in all`,
    `${formatQuantity(shift.end - shift.start - sum(shift.breaks.map((pause) => pause.for)), "hours", "metric")} of work in the shift`,
  ].map((line) => `  ${line}`);
}

/** The defaults that applied, under their marks. */
function silences(defaults: readonly AppliedDefault[], colours: Colors): string[] {
  if (defaults.length === 0) return ["The file says everything: no default applies."];
  const width = Math.max(...defaults.map(({ path }) => path.length));
  const marks = [...new Set(defaults.map(({ mark }) => mark))];
  return [
    `Where the file is silent, ${defaults.length === 1 ? "this default applies" : `these ${defaults.length} defaults apply`}:`,
    ...marks.flatMap((mark) => [
      "",
      colours.dim(mark),
      ...defaults.filter((entry) => entry.mark === mark).map(({ path, value }) => `  ${path.padEnd(width)}  ${value}`),
    ]),
  ];
}
