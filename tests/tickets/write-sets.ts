/** Writes the two sets of weigh tickets anew from sets.ts. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { eveningText, FOLDER, stopText } from "./sets.ts";

writeFileSync(join(FOLDER, "low-meadow-stop.csv"), stopText());
writeFileSync(join(FOLDER, "evening.csv"), eveningText());
