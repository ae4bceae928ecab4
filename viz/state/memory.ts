/** The address is the page's memory: it is written as things change, and read when somebody changes it. */
import { batch, effect } from "@preact/signals";
import { PLAIN, readAddress, writeAddress, type View } from "../address.ts";
import { english } from "../english.ts";
import { beside } from "./beside.ts";
import { farms } from "./farms.ts";
import { now } from "./now.ts";
import { edits, exampleId, examples, kept, missing, openExample, original, own, tried } from "./plan.ts";
import { cursor, lesson, order, paper, sheet, step, turned, units, wholeOpen } from "./show.ts";
import { reason, trouble } from "./trouble.ts";

/** What is shown now, as an address would say it. */
export const viewNow = (): View => ({
  sheet: sheet.value, lesson: lesson.value, step: step.value, turned: turned.value, example: exampleId.value, own: own.value, edits: edits.value, whole: wholeOpen.value, now: now.value,
  at: cursor.value, units: units.value, english: english.value, paper: paper.value, order: order.value, beside: beside.value, farms: farms.value,
});

/** The whole address of what is shown now, or of something near it. What was turned in a lesson is no part of another. */
export function addressOf(change: Partial<View> = {}): string {
  const isAnother = change.lesson !== undefined && change.lesson !== lesson.value;
  return location.origin + location.pathname + writeAddress({ ...viewNow(), ...(isAnother ? { turned: {} } : {}), ...change });
}

/** The reader's own changes alone, as an address would say them. */
const changesOf = ({ own: whole, edits: some }: Pick<View, "own" | "edits">): string => writeAddress({ ...PLAIN, own: whole, edits: some });

/** The address is written once things have come to rest: browsers refuse more than a few changes a second. */
const REST = 250;
let writing: ReturnType<typeof setTimeout> | undefined;
/** As it was read or written last. One that differs was set by somebody else, and the browser has yet to say so: it is not written over. */
let known = location.hash;
effect(() => {
  const address = writeAddress(viewNow());
  clearTimeout(writing);
  writing = setTimeout(() => {
    if (!original.value || address === location.hash || location.hash !== known) return;
    history.replaceState(null, "", address || location.pathname);
    known = location.hash;
  }, REST);
});

addEventListener("hashchange", () => {
  known = location.hash;
  const said = readAddress(known);
  batch(() => {
    sheet.value = said.sheet;
    lesson.value = said.lesson;
    step.value = said.step;
    turned.value = said.turned;
    wholeOpen.value = said.whole;
    order.value = said.order;
    units.value = said.units;
    english.value = said.english;
    paper.value = said.paper;
    cursor.value = said.at;
    beside.value = said.beside;
    now.value = said.now;
    farms.value = said.farms;
  });
  const take = () => batch(() => {
    // Whoever went back to an earlier plan has left what was tried on this one.
    if (changesOf(said) !== changesOf({ own: own.value, edits: edits.value })) tried.value = [];
    own.value = said.own;
    edits.value = said.edits;
    cursor.value = said.at;
  });
  if (said.example !== null && said.example !== exampleId.value && [...examples.value, ...kept.value].some(({ id }) => id === said.example)) {
    void openExample(said.example).then(take).catch((error: unknown) => { trouble.value = reason(error); });
  } else {
    if (said.own !== null) missing.value = null;
    else if (said.example !== null && said.example !== exampleId.value) missing.value = said.example;
    take();
  }
});
