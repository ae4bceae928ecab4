/** Texts of what opens the plan's editor and the keeping of plans; they are there from the first moment. */
import { spoken } from "../english.ts";

export const doorWords = spoken({
  kept: "Kept plans",
  examples: "Worked examples",
  openWhole: "Open the whole plan",
  closeWhole: "Close the whole plan",
  keeping: "Keep, open, files",
  closeKeeping: "Close keeping and files",
} as const);
