/** `clampside fields MAP`: fields from a map file, written as a scenario wants them. */
import { InvalidArgumentError, type Command } from "commander";
import { stringify } from "yaml";
import { readPlace, ROAD_FACTORS, roadFactor } from "../../sim/ground/distance.ts";
import { fieldsFromMap } from "../../sim/ground/fields.ts";
import type { MapField } from "../../sim/ground/fields.ts";
import { MAP_LIMITS } from "../../sim/ground/limits.ts";
import type { Place } from "../../sim/ground/plane.ts";
import type { UnitSystem } from "../../sim/scenario/units.ts";
import { found } from "../../sim/scenario/words.ts";
import { nameOf, textOf } from "./input.ts";
import { unitSystem } from "./rehearse.ts";
import { print, printJson, tell } from "./terminal.ts";

interface Options {
  readonly storage?: Place;
  /** by field; under the empty name that of every other */ readonly gate?: ReadonlyMap<string, Place>;
  readonly rows?: number;
  readonly roadFactor?: number;
  readonly units?: UnitSystem;
  readonly json?: boolean;
}

export function addFields(program: Command): void {
  program.command("fields")
    .description("fields from a map: area, row length and distance, ready for a scenario")
    .argument("<map>", "GeoJSON, or GPX with a track about each field; - for standard input")
    .option("--storage <place>", "where the storage stands, \"latitude, longitude\" in degrees: gives the distance", placeWritten)
    .option("--gate <place>", "where trucks leave the fields, \"latitude, longitude\"; of one field with its name before it, \"Long Strip=52.1, 8.29\"; may be given again (default: the middle of each field)", gateWritten)
    .option("--rows <bearing>", "which way all rows run, in degrees clockwise from north (default: along each field's longest side)", between(0, 360))
    .option("--road-factor <f>", `length of the road over the straight line (default: ${roadFactor.value})`, between(...ROAD_FACTORS))
    .option("--units <system>", "metric or us, for the quantities that are written (default: metric)", unitSystem)
    .option("--json", "print one JSON document")
    .addHelpText("after", "\nWhat is refused, and why, goes to standard error; the other fields are printed\nall the same, and the exit code is 2.\n"
      + "\nExample:\n  clampside fields scenarios/maps/hollow-farm.geojson --storage \"52.105, 8.285\" --gate \"Pond Field=52.1108, 8.308\" --units us")
    .action(run);
}

function run(file: string, { storage, gate, rows, roadFactor: factor, units = "metric", json }: Options): void {
  const { fields, told, problems } = fieldsFromMap(textOf(file, MAP_LIMITS.text), {
    units, ...(storage && { storageAt: storage }), ...(gate && { gateOf: (name: string) => gate.get(name) ?? gate.get("") }), ...(rows !== undefined && { rowBearing: rows }), ...(factor !== undefined && { roadFactor: factor }),
  });
  // A gate that opens nothing is a slip of the pen.
  const strange = [...gate?.keys() ?? []].filter((name) => name !== "" && !fields.some((field) => field.name === name));
  if (problems.length > 0 || strange.length > 0 || (gate && !storage)) process.exitCode = 2;
  for (const name of strange) tell(`--gate: the map has no field ${found(name)}.`);
  if (gate && !storage) tell("--gate: a gate gives the road only together with where the --storage stands.");
  if (json) return printJson({ fields, told, problems });
  for (const { detail } of problems) tell(`${nameOf(file)}: ${detail}`);
  for (const sentence of told) tell(sentence);
  if (fields.length > 0) print([...stillToWrite(fields, units), stringify({ fields }, { lineWidth: 0 })].join("\n"));
}

/** A scenario needs these of every field, and a map does not say them. */
function stillToWrite(fields: readonly MapField[], units: UnitSystem): string[] {
  const missing = (key: "yield" | "distance", how: string) => {
    const names = fields.filter((field) => field[key] === undefined).length;
    return names === 0 ? [] : [`# Still to be written for ${names === fields.length ? "each field" : `${names} of ${fields.length} fields`}: ${how}`];
  };
  return [...missing("yield", `yield, such as ${units === "us" ? "20 ton/acre" : "45 t/ha"}`), ...missing("distance", `distance, such as ${units === "us" ? "1.5 mi" : "2.4 km"}; or say where the --storage stands`)];
}

function placeWritten(text: string): Place {
  const place = readPlace(text);
  if ("wrong" in place) throw new InvalidArgumentError(`${place.wrong}.`);
  return place;
}

/** `52.1, 8.29`, or `Long Strip=52.1, 8.29`; added to those that were given before. */
function gateWritten(text: string, before: ReadonlyMap<string, Place> = new Map()): ReadonlyMap<string, Place> {
  const end = text.lastIndexOf("=");
  return new Map([...before, [text.slice(0, Math.max(0, end)).trim(), placeWritten(text.slice(end + 1))]]);
}

/** Reads a number; commander says what is wrong with another. */
function between(least: number, most: number): (text: string) => number {
  return (text) => {
    const value = text.trim() === "" ? NaN : Number(text);
    if (!(value >= least && value <= most)) throw new InvalidArgumentError(`a number from ${least} to ${most} would do.`);
    return value;
  };
}
