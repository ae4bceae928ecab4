/**
 * Pointing at a machine in one picture marks it in all. What may be pointed at carries `data-machine`, its index in the day; a picture, or a
 * table, takes the handlers on its outermost element. A mouse marks while it is there and a click holds the mark; a finger's tap holds it.
 */
import { signal } from "@preact/signals";
import { pointed, rehearsed } from "./state.ts";

/** The machine that stays marked when nothing is pointed at. */
const held = signal<number | null>(null);

function show(machine: number | null): void {
  if ((pointed.value?.machine ?? null) !== machine) pointed.value = machine === null ? null : { machine };
}

function machineAt(event: Event): number | null {
  const marked = (event.target as Element).closest("[data-machine]");
  return marked === null ? null : Number(marked.getAttribute("data-machine"));
}

export const pointing = {
  onPointerOver: (event: PointerEvent) => { if (event.pointerType !== "touch") show(machineAt(event) ?? held.value); },
  onPointerLeave: () => show(held.value),
  onClick: (event: MouseEvent) => {
    const machine = machineAt(event);
    hold(machine === held.value ? null : machine);
  },
} as const;

/** Marks a machine until another is held; null lets go. */
export function hold(machine: number | null): void {
  held.value = machine;
  show(machine);
}

/** Holds the truck after (way 1) or before (way -1) the one that is marked; past the last one nothing is. */
export function holdNext(way: 1 | -1): void {
  const trucks = rehearsed.value?.replay.trucks.map(({ machine }) => machine) ?? [];
  const from = pointed.value === null ? (way === 1 ? -1 : trucks.length) : trucks.indexOf(pointed.value.machine);
  hold(trucks[from + way] ?? null);
}

/** The machine pointed at, where the day that is shown has it. */
export function machinePointed(): number | null {
  const machine = pointed.value?.machine ?? null;
  return machine !== null && machine < (rehearsed.value?.replay.day.machines.length ?? 0) ? machine : null;
}
