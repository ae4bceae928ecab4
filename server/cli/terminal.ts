/** What the commands share in speaking to a terminal: colours where they belong, plain lines elsewhere. */
import pico from "picocolors";
import type { Colors } from "picocolors/types.js";

/** Columns of a page of text. */
export const WIDTH = 80;

/** Colours only on a terminal, and not where NO_COLOR asks for none. */
export function coloursFor(stream: NodeJS.WriteStream): Colors {
  const { NO_COLOR, TERM } = process.env;
  return pico.createColors(stream.isTTY === true && !NO_COLOR && TERM !== "dumb");
}

/** One line to standard error. */
export function tell(sentence: string): void {
  process.stderr.write(`${sentence}\n`);
}

/** Whole lines to standard output. */
export function print(text: string): void {
  process.stdout.write(text.endsWith("\n") ? text : `${text}\n`);
}

/** One JSON document to standard output and nothing else. */
export function printJson(document: unknown): void {
  print(JSON.stringify(document, null, 2));
}

/** A name from outside, safe to show: nothing in it moves the cursor. */
export function printable(text: string): string {
  return text.replace(/\p{Cc}/gu, "\u00b7");
}

/** Where a reader closes the pipe early (`| head`), the rest is not wanted: end quietly. */
export function endQuietlyWhenNobodyReads(): void {
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit(process.exitCode ?? 0);
    throw error;
  });
}
