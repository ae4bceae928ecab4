/**
 * `npm run bench`: every case in turn, or those whose names contain the words given. Each figure stands beside its bar.
 * `--json FILE` writes what was measured; `--against FILE` puts an earlier result beside it. Nothing here passes or fails.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { parseArgs } from "node:util";
import type { Case, Figure } from "./case.ts";
import { DAY_CASES } from "./day.ts";
import { KERNEL_CASES } from "./kernel.ts";
import { LOAD_CASES } from "./load.ts";
import { PAGE_CASES } from "./page.ts";
import { SERVER_CASES } from "./server.ts";
import { START_CASES } from "./start.ts";

const CASES: readonly Case[] = [...KERNEL_CASES, ...DAY_CASES, ...START_CASES, ...SERVER_CASES, ...LOAD_CASES, ...PAGE_CASES];

/** What `--json` writes. */
interface Result {
  readonly at: string;
  readonly node: string;
  readonly cores: number;
  readonly figures: readonly (Figure & { readonly case: string })[];
}

const { values: { json, against }, positionals: words } = parseArgs({ allowPositionals: true, options: { json: { type: "string" }, against: { type: "string" } } });
const earlier = against === undefined ? null : (JSON.parse(readFileSync(against, "utf8")) as Result);
const figures: Result["figures"][number][] = [];

for (const { name, run } of CASES.filter((one) => words.every((word) => one.name.includes(word)))) {
  console.log(`\n${name}`);
  for (const figure of await run()) {
    figures.push({ case: name, ...figure });
    console.log(line(name, figure));
  }
}

if (json !== undefined) {
  const result: Result = { at: new Date().toISOString(), node: process.version, cores: cpus().length, figures };
  writeFileSync(json, `${JSON.stringify(result, null, 2)}\n`);
}

function line(name: string, { name: figure, value, unit, bar }: Figure): string {
  const before = earlier?.figures.find((one) => one.case === name && one.name === figure && one.unit === unit)?.value;
  return [
    `  ${figure.padEnd(22)}${print(value).padStart(16)} ${unit.padEnd(18)}`,
    bar === undefined ? "" : `  bar ${bar}: ${value <= bar ? "met" : "MISSED"}`,
    before === undefined ? "" : `  before ${print(before)}${before === 0 ? "" : `, now ${(value / before).toPrecision(3)} times that`}`,
  ].join("").trimEnd();
}

/** Whole numbers and exact ends in full, the rest to three digits. */
function print(value: number): string {
  return Number.isInteger(value) || value > 1e5 ? String(value) : value.toPrecision(3);
}
