/** How the reader wants to see it: which sheet, which units, which English, which paper, and what is pointed at. */
import { computed, effect, signal } from "@preact/signals";
import type { EffectName } from "../../sim/study/effectnames.ts";
import { readAddress } from "../address.ts";
import { english } from "../english.ts";
import type { UnitSystem } from "../quantity.ts";
import type { Paper, Sheet, Step } from "../sheets.ts";

const opened = readAddress(location.hash);
english.value = opened.english;

export const sheet = signal<Sheet>(opened.sheet);
/** id of the lesson that is open, or null */ export const lesson = signal(opened.lesson);
/** How far a room is in that lesson. */
export const step = signal<Step>(opened.step);
/** Sliders of that lesson that the room has turned: slider id -> what a document would say, or the plain number. */
export const turned = signal(opened.turned);

/** The whole plan is open. */
export const wholeOpen = signal(opened.whole);

/** What the reader looks for first in the remedies, or null: what the answer suggests. */
export const order = signal<EffectName | null>(opened.order);

export const SYSTEMS_SHOWN: readonly UnitSystem[] = ["metric", "us"];
export const units = signal<UnitSystem>(opened.units);

/** The reader's choice, or null: as the system has it. */
export const paper = signal<Paper | null>(opened.paper);

const dark = matchMedia("(prefers-color-scheme: dark)");
const darkOutside = signal(dark.matches);
dark.addEventListener("change", () => { darkOutside.value = dark.matches; });
export const paperShown = computed<Paper>(() => paper.value ?? (darkOutside.value ? "dark" : "light"));
effect(() => { document.documentElement.dataset.paper = paperShown.value; });

/** s after midnight that the reader went to, or null: the moment that tells most */
export const cursor = signal(opened.at);

/** What the reader points at in one picture, for all of them to show: a machine of the day (index into `day.machines`), or nothing. */
export const pointed = signal<{ readonly machine: number } | null>(null);

/** A time of day that the reader points at in one picture of the day, s after midnight, or null: nowhere. */
export const hovered = signal<number | null>(null);
