/** `clampside fields MAP`: fields from a map file, written as a scenario wants them. */
import { InvalidArgumentError, type Command } from "commander";
import { stringify } from "yaml";
import { readPlace, ROAD_FACTORS, roadFactor } from "../../sim/ground/distance.ts";
import { fieldsFromMap } from "../../sim/ground/fields.ts";
import type { MapField } from "../../sim/ground/fields.ts";
import { MAP_LIMITS } from "../../sim/ground/limits.ts";
import type { Place } from "../../sim/ground/plane.ts";
import { nameOf, textOf } from "./input.ts";
import { print, printJson, tell } from "./terminal.ts";

interface Options {
  readonly storage?: Place;
  readonly rows?: number;
  readonly roadFactor?: number;
  readonly json?: boolean;
}

export function addFields(program: Command): void {
  program.command("fields")
    .description("fields from a map: area, row length and distance, ready for a scenario")
    .argument("<map>", "GeoJSON, or GPX with a track about each field; - for standard input")
    .option("--storage <place>", "where the storage stands, \"latitude, longitude\" in degrees: gives the distance", placeWritten)
    .option("--rows <bearing>", "which way all rows run, in degrees clockwise from north (default: along each field's longest side)", between(0, 360))
    .option("--road-factor <f>", `length of the road over the straight line (default: ${roadFactor.value})`, between(...ROAD_FACTORS))
    .option("--json", "print one JSON document")
    .addHelpText("after", "\nWhat is refused, and why, goes to standard error; the other fields are printed all the same, and the exit code is 2.\n"
      + "\nExample:\n  clampside fields scenarios/maps/hollow-farm.geojson --storage \"52.105, 8.285\"")
    .action(run);
}

function run(file: string, { storage, rows, roadFactor: factor, json }: Options): void {
  const { fields, told, problems } = fieldsFromMap(textOf(file, MAP_LIMITS.text), {
    ...(storage && { storageAt: storage }), ...(rows !== undefined && { rowBearing: rows }), ...(factor !== undefined && { roadFactor: factor }),
  });
  if (problems.length > 0) process.exitCode = 2;
  if (json) return printJson({ fields, told, problems });
  for (const { detail } of problems) tell(`${nameOf(file)}: ${detail}`);
  for (const sentence of told) tell(sentence);
  if (fields.length > 0) print([...stillToWrite(fields), stringify({ fields }, { lineWidth: 0 })].join("\n"));
}

/** A scenario needs these of every field, and a map does not say them. */
function stillToWrite(fields: readonly MapField[]): string[] {
  const missing = (key: "yield" | "distance", how: string) => {
    const names = fields.filter((field) => field[key] === undefined).length;
    return names === 0 ? [] : [`# Still to be written for ${names === fields.length ? "each field" : `${names} of ${fields.length} fields`}: ${how}`];
  };
  return [...missing("yield", "yield, such as 45 t/ha"), ...missing("distance", "distance, such as 2.4 km; or say where the --storage stands")];
}

function placeWritten(text: string): Place {
  const place = readPlace(text);
  if ("wrong" in place) throw new InvalidArgumentError(`${place.wrong}.`);
  return place;
}

/** Reads a number; commander says what is wrong with another. */
function between(least: number, most: number): (text: string) => number {
  return (text) => {
    const value = text.trim() === "" ? NaN : Number(text);
    if (!(value >= least && value <= most)) throw new InvalidArgumentError(`a number from ${least} to ${most} would do.`);
    return value;
  };
}
