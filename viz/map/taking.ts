/** What the reader chose for the plots of the map that is open, and what each took the place of. Kept for as long as the page is open. */
import { signal } from "@preact/signals";
import type { Json } from "../document.ts";
import { change } from "../plan/Slot.tsx";
import { takenAt, withPlot, type Choice, type Plot } from "./plots.ts";

/** by number of the plot in the file */
export const choices = signal<Readonly<Record<number, Choice>>>({});
/** What each field of the plan was before a plot was put onto it; null for a new one. */
export const befores = signal<Readonly<Record<number, Json | null>>>({});
/** Length of the road over the straight line, for all plots; null: the usual. */
export const factor = signal<number | null>(null);

export const choiceOf = (plot: Plot): Choice => ({ rows: null, gate: "", ...choices.value[plot.number], factor: factor.value });

/** A plot that stands in the plan is put there again when something about it was chosen anew. */
export function again(plot: Plot): void {
  change((now) => {
    const place = takenAt(now, plot);
    return place < 0 ? now : withPlot(now, plot, place, choiceOf(plot));
  });
}
