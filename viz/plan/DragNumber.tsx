/** A figure in a sentence: typed, stepped by keys, dragged sideways. */
import { useRef, useState } from "preact/hooks";
import { printed } from "../quantity.ts";
import { stepOf, tidy } from "./amounts.ts";

interface DragNumberProps {
  readonly id: string;
  readonly label: string;
  /** null: what stands there is no number; `text` shows it */ readonly figure: number | null;
  readonly text: string;
  readonly unit: string;
  readonly least: number;
  readonly most: number;
  /** the figure is what is usual, not what the plan says */ readonly usual: boolean;
  readonly wrong: boolean;
  readonly describedBy: string | undefined;
  /** whether what stands in the box can be read; what cannot yet waits until the reader leaves the box, for half a unit is no unit */ readable(text: string): boolean;
  /** what was typed, or a figure that was stepped or dragged to; not called for an empty box */ set(text: string): void;
  /** the box was left empty */ emptied(): void;
}

/** px of dragging that make one step, and those that still count as a press. */
const PER_STEP = 6;
const SLACK = 4;

export function DragNumber({ id, label, figure, text, unit, least, most, usual, wrong, describedBy, readable, set, emptied }: DragNumberProps) {
  /** What the reader is typing; nobody writes over it. */
  const [draft, setDraft] = useState<string | null>(null);
  /** Where the drag began. Its step stays the same on the way. */
  const drag = useRef<{ readonly x: number; readonly from: number; readonly step: number; moved: boolean } | null>(null);
  /** The step by which this figure is stepped: that of the figure it was first seen with, so that going up and down comes back to it. */
  const steps = useRef(new Map<string, number>());
  const step = () => {
    if (!steps.current.has(unit)) steps.current.set(unit, stepOf(figure ?? 0, unit));
    return steps.current.get(unit)!;
  };
  const leave = () => {
    if (draft !== null && draft.trim() === "") emptied();
    else if (draft !== null && !readable(draft)) set(draft);
    setDraft(null);
  };
  const go = (to: number) => {
    setDraft(null);
    set(String(tidy(Math.min(most, Math.max(least, to)))));
  };

  const onKeyDown = (event: KeyboardEvent) => {
    const way = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[event.key];
    if (way === undefined || figure === null || event.altKey || event.ctrlKey || event.metaKey) {
      if (event.key === "Enter") leave();
      return;
    }
    event.preventDefault();
    go(figure + way * step() * (event.shiftKey && Math.abs(way) === 1 ? 10 : 1));
  };

  const onPointerDown = (event: PointerEvent) => {
    const box = event.currentTarget as HTMLInputElement;
    if (event.button !== 0 || figure === null || document.activeElement === box) return;
    // The press becomes a drag or, if it stays where it is, a way into the box: see onClick.
    event.preventDefault();
    box.setPointerCapture(event.pointerId);
    drag.current = { x: event.clientX, from: figure, step: step(), moved: false };
  };
  const onPointerMove = (event: PointerEvent) => {
    const held = drag.current;
    if (!held || !(event.buttons & 1)) return;
    const way = event.clientX - held.x;
    if (!held.moved && Math.abs(way) < SLACK) return;
    held.moved = true;
    const to = held.from + Math.round(way / PER_STEP) * held.step * (event.shiftKey ? 10 : 1);
    if (to !== figure) go(to);
  };
  const onClick = (event: MouseEvent) => {
    const held = drag.current;
    drag.current = null;
    const box = event.currentTarget as HTMLInputElement;
    if (held === null || held.moved) return;
    box.focus();
    box.select();
  };

  return (
    <span class={`number${usual ? " as-usual" : ""}${wrong ? " wrong" : ""}`}>
      <input id={id} type="text" inputMode="decimal" autocomplete="off" role="spinbutton" aria-label={unit === "" ? label : `${label}, ${unit}`} aria-valuenow={figure ?? undefined} aria-valuemin={least} aria-valuemax={most}
        aria-valuetext={figure === null ? text : `${text} ${unit}`} aria-invalid={wrong} aria-describedby={describedBy}
        style={{ width: `calc(${Math.min(16, Math.max(2, (draft ?? text).length))}ch + 14px)` }} placeholder="–" value={draft ?? text}
        onInput={(event) => {
          const said = event.currentTarget.value;
          setDraft(said);
          if (readable(said)) set(said);
        }}
        onBlur={leave}
        onKeyDown={onKeyDown} onPointerDown={onPointerDown} onPointerMove={onPointerMove} onPointerCancel={() => { drag.current = null; }} onClick={onClick} />
      {unit !== "" && <span class="unit" aria-hidden="true">{printed(unit)}</span>}
    </span>
  );
}
