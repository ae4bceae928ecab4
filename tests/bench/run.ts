/** `npm run bench`: every case in turn, or those whose names contain the words given. Add a case to the list. */
import type { Case } from "./case.ts";
import { KERNEL_CASES } from "./kernel.ts";
import { SERVER_CASES } from "./server.ts";

const CASES: readonly Case[] = [...KERNEL_CASES, ...SERVER_CASES];

const words = process.argv.slice(2);

for (const { name, run } of CASES.filter((one) => words.every((word) => one.name.includes(word)))) {
  console.log(`\n${name}`);
  for (const { name: figure, value, unit, bar } of await run()) {
    const judgement = bar === undefined ? "" : `  bar ${bar}: ${value <= bar ? "met" : "MISSED"}`;
    console.log(`  ${figure.padEnd(18)}${print(value).padStart(16)} ${unit.padEnd(16)}${judgement}`);
  }
}

/** Whole numbers and exact ends in full, the rest to three digits. */
function print(value: number): string {
  return Number.isInteger(value) || value > 1e5 ? String(value) : value.toPrecision(3);
}
