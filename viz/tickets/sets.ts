/** Invented days of weigh tickets that ship with the project, each fetched when it is asked for. */
import { ticketWords } from "../words/tickets.ts";
import { take, trouble } from "./taken.ts";

/** By the worked example that they belong to. */
export const SETS = ["low-meadow", "evening-meadow"] as const;
export type SetName = (typeof SETS)[number];

/** Takes one of the invented days. */
export async function takeSet(set: SetName): Promise<void> {
  try {
    const { default: text } = set === "low-meadow" ? await import("../../scenarios/tickets/low-meadow-stop.csv?raw") : await import("../../scenarios/tickets/evening.csv?raw");
    take({ name: set === "low-meadow" ? "low-meadow-stop.csv" : "evening.csv", text, encoding: "UTF-8", of: set });
  } catch {
    trouble.value = ticketWords.take.unreadable;
  }
}
