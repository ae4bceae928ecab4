/** `clampside check FILE`: is the scenario sound, and what holds where it is silent. */
import type { Command } from "commander";
import type { Colors } from "picocolors/types.js";
import { hashOf } from "../../sim/scenario/hash.ts";
import { unitSystemOf } from "../../sim/scenario/system.ts";
import { turned } from "../../sim/scenario/turned.ts";
import type { AppliedDefault, Scenario } from "../../sim/scenario/types.ts";
import { machineMass } from "../../sim/findings/words.ts";
import { formatNumber, formatQuantity } from "../../sim/scenario/units.ts";
import type { UnitSystem } from "../../sim/scenario/units.ts";
import { ENGINE_VERSION } from "../../sim/version.ts";
import { readInput } from "./input.ts";
import { coloursFor, print, printJson } from "./terminal.ts";

export function addCheck(program: Command): void {
  program.command("check")
    .description("is the scenario sound; what defaults apply")
    .argument("<file>", "scenario, YAML or JSON; - for standard input")
    .option("--json", "print one JSON document")
    .addHelpText("after", "\nExample:\n  clampside check scenarios/low-meadow.yaml")
    .action((file: string, { json }: { readonly json?: boolean }) => {
      const { scenario, defaults, text } = readInput(file);
      if (json) printJson({ scenario: { name: scenario.name, hash: hashOf(scenario) }, engine: ENGINE_VERSION, defaults });
      else print(page(scenario, defaults, { system: unitSystemOf(text), colours: coloursFor(process.stdout) }));
    });
}

interface Looks { readonly system: UnitSystem; readonly colours: Colors }

function page(scenario: Scenario, defaults: readonly AppliedDefault[], { system, colours }: Looks): string {
  return [colours.bold(scenario.name), "The scenario is sound.", "", ...inFigures(scenario, system), "", ...silences(defaults, system, colours)].join("\n");
}

/** "1 field", "2 fields". */
const counted = (count: number, one: string): string => `${formatNumber(count, 0)} ${one}${count === 1 ? "" : "s"}`;

/** What the file describes, in its own units, so that a slip of the pen shows. */
function inFigures({ fields, choppers, trucks, storages, shift }: Scenario, system: UnitSystem): string[] {
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const mass = sum(fields.map((field) => field.area * field.yield));
  const dryMass = sum(fields.map((field) => field.area * field.yield * field.dryMatter));
  const fleet = sum(trucks.map(({ count }) => count));
  const meanLoad = sum(trucks.map(({ count, load }) => count * load)) / fleet;
  const tractors = storages.flatMap((storage) => storage.tractors);
  return [
    `${counted(fields.length, "field")}, ${formatQuantity(sum(fields.map(({ area }) => area)), "area", system)}: `
      + `${formatQuantity(mass, "mass", system, 0)} fresh, ${formatQuantity(dryMass / mass, "share", system, 1)} dry matter, about ${counted(Math.ceil(mass / meanLoad), "load")}`,
    `${counted(choppers.length, "chopper")}, ${counted(fleet, "truck")}; ${counted(storages.length, "storage")}, `
      + `${counted(tractors.length, "tractor")} of ${machineMass(sum(tractors.map((tractor) => tractor.mass)), system)} in all`,
    `${formatQuantity(shift.end - shift.start - sum(shift.breaks.map((pause) => pause.for)), "hours", system)} of work in the shift`,
  ].map((line) => `  ${line}`);
}

/** The defaults that applied, under their marks. */
function silences(defaults: readonly AppliedDefault[], system: UnitSystem, colours: Colors): string[] {
  if (defaults.length === 0) return ["The file says everything: no default applies."];
  const width = Math.max(...defaults.map(({ path }) => path.length));
  const marks = [...new Set(defaults.map(({ mark }) => mark))];
  return [
    `Where the file is silent, ${defaults.length === 1 ? "this default applies" : `these ${defaults.length} defaults apply`}:`,
    ...marks.flatMap((mark) => [
      "",
      colours.dim(mark),
      ...defaults.filter((entry) => entry.mark === mark).map(({ path, value }) => `  ${path.padEnd(width)}  ${system === "us" ? turned(value) : value}`),
    ]),
  ];
}
