/** Texts about the plan as a whole, and of what opens its editor and the keeping of plans; they are there from the first moment. */
import { spoken } from "../english.ts";

export const doorWords = spoken({
  plan: "Plan",
  kept: "Kept plans",
  examples: "Worked examples",
  openWhole: "Open the whole plan",
  closeWhole: "Close the whole plan",
  keeping: "Keep, open, files",
  closeKeeping: "Close keeping and files",
  noLuck: "No luck is in it.",
  putLuck: "Put in a usual day's luck",
} as const);
