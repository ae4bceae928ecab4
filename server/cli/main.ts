#!/usr/bin/env node
/** `clampside`, as a process of its own. */
import { run } from "./program.ts";
import { endQuietlyWhenNobodyReads } from "./terminal.ts";

endQuietlyWhenNobodyReads();
await run(process.argv.slice(2));
