/** How a page of text is written for one reader: in lines that fit a terminal of 80 columns, in that reader's units. */
import { turned, TURNED_UNITS } from "../../sim/scenario/turned.ts";
import type { UnitSystem } from "../../sim/scenario/units.ts";
import { WIDTH } from "./terminal.ts";

export interface Pen {
  /** A sentence in lines of at most `width` columns, indented; those of the engine speak metric, and are turned. */ wrap(sentence: string, indent: number, width?: number): string[];
  /** The first line begins with the head, the rest stands under its end. */ hanging(head: string, sentence: string): string[];
}

/** A pen for whoever reads in these units. Colour what it gives, not what it is given: a code before a figure hides it. */
export function penFor(system: UnitSystem): Pen {
  const wrap = (sentence: string, indent: number, width = WIDTH) => filled(system === "us" ? turned(sentence) : sentence, indent, width);
  return {
    wrap,
    hanging: (head, sentence) => {
      const [first = "", ...more] = wrap(sentence, head.length);
      return [head + first.slice(head.length), ...more];
    },
  };
}

/** A figure stays on one line with its unit. */
const WITH_UNIT = new RegExp(`\\d (?:${[...TURNED_UNITS.flatMap(([metric, , , us]) => [metric, us]), "min", "h", "s", "%"].join("|")})(?![\\w/])`, "gu");
const FIRM = "\u00a0";

function filled(text: string, indent: number, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const kept of text.replace(WITH_UNIT, (figure) => figure.replaceAll(" ", FIRM)).split(" ")) {
    const word = kept.replaceAll(FIRM, " ");
    if (line !== "" && indent + line.length + 1 + word.length > width) {
      lines.push(" ".repeat(indent) + line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, " ".repeat(indent) + line];
}
