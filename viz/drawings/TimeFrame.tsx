/** The frame that drawings over time share: margins, the hours below, the breaks, the time cursor, and a second one where the reader points. */
import { scaleLinear, type ScaleLinear } from "d3";
import type { ComponentChildren } from "preact";
import { goTo } from "../player.ts";
import { clock } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";
import { hovered, time } from "../state.ts";
import { words } from "../words.ts";

/** Left for the scale's figures, right for half a slider's thumb; the scrubber keeps the same. px */
export const MARGINS = { left: 44, right: 14, top: 34, bottom: 24 } as const;

/** Room for one `HH:MM` below the axis, and half of one, px. */
const CLOCK_WIDTH = 52;
const HALF_CLOCK = 20;

/** s: one points at minutes. */
const MINUTE = 60;

export function timeScale(rehearsed: Rehearsed, width: number): ScaleLinear<number, number> {
  const { from, until } = rehearsed.replay.day;
  return scaleLinear([from, until], [MARGINS.left, width - MARGINS.right]);
}

/** A line across the frame with its name at the left. */
export interface Row { readonly at: number; readonly name: string; /** no line of its own */ readonly bare?: boolean }

interface FrameProps {
  readonly rehearsed: Rehearsed;
  readonly width: number;
  readonly height: number;
  /** lines across, px, from a scale or named */ readonly rows: readonly Row[];
  readonly label: string;
  readonly unit: string;
  readonly children: ComponentChildren;
}

/** Rows at the round figures of a scale. */
export const rowsOf = (y: ScaleLinear<number, number>, count = 4): Row[] => y.ticks(count).map((tick) => ({ at: y(tick), name: tick.toLocaleString("en") }));

export function TimeFrame({ rehearsed, width, height, rows, label, unit, children }: FrameProps) {
  const x = timeScale(rehearsed, width);
  const { from, until } = rehearsed.replay.day;
  const perHour = ((width - MARGINS.left - MARGINS.right) * 3600) / (until - from);
  const each = 3600 * ([1, 2, 3, 4, 6, 12].find((count) => count * perHour >= CLOCK_WIDTH) ?? 24);
  const hours: number[] = [];
  for (let hour = Math.ceil(from / each) * each; hour <= until; hour += each) hours.push(hour);
  const timeAt = (event: MouseEvent): number => {
    const left = (event.currentTarget as Element).getBoundingClientRect().left;
    return Math.min(until, Math.max(from, Math.round(x.invert(event.clientX - left) / MINUTE) * MINUTE));
  };
  return (
    <svg class="over-time" width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}
      onPointerMove={(event) => { hovered.value = timeAt(event); }} onPointerLeave={() => { hovered.value = null; }} onClick={(event) => goTo(timeAt(event))}>
      <rect class="hit" width={width} height={height} />
      {rehearsed.scenario.shift.breaks.filter((pause) => pause.at < until && pause.at + pause.for > from).map((pause) => (
        <g key={pause.at}>
          <rect x={x(Math.max(from, pause.at))} width={x(Math.min(until, pause.at + pause.for)) - x(Math.max(from, pause.at))} y={MARGINS.top} height={height - MARGINS.top - MARGINS.bottom} fill="url(#pause)" />
          <text class="label label-quiet middle" x={x(pause.at + pause.for / 2)} y={MARGINS.top - 5}>{words.breakHere}</text>
        </g>
      ))}
      {rows.map(({ at, name, bare }) => (
        <g key={name + at}>
          {!bare && <path class="hairline" d={`M${MARGINS.left},${at} H${width - MARGINS.right}`} />}
          <text class="label label-quiet" x={MARGINS.left - 6} y={at + 4} text-anchor="end">{name}</text>
        </g>
      ))}
      <text class="label label-quiet" x={MARGINS.left - 6} y={12} text-anchor="end">{unit}</text>
      {hours.map((hour) => (
        <g key={hour}>
          <path class="tick" d={`M${x(hour)},${height - MARGINS.bottom} v5`} />
          {x(hour) > MARGINS.left + 4 && x(hour) < width - 12 && <text class="label label-quiet middle" x={x(hour)} y={height - 4}>{clock(hour)}</text>}
        </g>
      ))}
      {children}
      <Cursors x={x} width={width} height={height} />
    </svg>
  );
}

/** The time that is drawn, and thin and dashed the one that is pointed at, with its clock on the axis. */
function Cursors({ x, width, height }: { readonly x: ScaleLinear<number, number>; readonly width: number; readonly height: number }) {
  const at = hovered.value;
  return (
    <>
      <path class="cursor" d={`M${x(time.value).toFixed(1)},${MARGINS.top - 4} V${height - MARGINS.bottom}`} />
      {at !== null && (
        <g class="cursor-second">
          <path d={`M${x(at).toFixed(1)},${MARGINS.top - 4} V${height - MARGINS.bottom + 5}`} />
          <text class="label label-over middle" x={Math.min(width - HALF_CLOCK, Math.max(HALF_CLOCK, x(at)))} y={height - 4}>{clock(at)}</text>
        </g>
      )}
    </>
  );
}
