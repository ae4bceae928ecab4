/** The frame that drawings over time share: margins, the hours below, the breaks, and the time cursor. */
import { scaleLinear, type ScaleLinear } from "d3";
import type { ComponentChildren } from "preact";
import { clock } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";
import { words } from "../words.ts";

/** Left for the scale's figures, right for half a slider's thumb; the scrubber keeps the same. px */
export const MARGINS = { left: 44, right: 14, top: 34, bottom: 24 } as const;

/** Room for one `HH:MM` below the axis, px. */
const CLOCK_WIDTH = 52;

export function timeScale(rehearsed: Rehearsed, width: number): ScaleLinear<number, number> {
  const { from, until } = rehearsed.replay.day;
  return scaleLinear([from, until], [MARGINS.left, width - MARGINS.right]);
}

interface FrameProps {
  readonly rehearsed: Rehearsed;
  readonly width: number;
  readonly height: number;
  readonly y: ScaleLinear<number, number>;
  readonly label: string;
  readonly unit: string;
  readonly children: ComponentChildren;
}

export function TimeFrame({ rehearsed, width, height, y, label, unit, children }: FrameProps) {
  const x = timeScale(rehearsed, width);
  const { from, until } = rehearsed.replay.day;
  const perHour = ((width - MARGINS.left - MARGINS.right) * 3600) / (until - from);
  const each = 3600 * ([1, 2, 3, 4, 6, 12].find((count) => count * perHour >= CLOCK_WIDTH) ?? 24);
  const hours: number[] = [];
  for (let hour = Math.ceil(from / each) * each; hour <= until; hour += each) hours.push(hour);
  const ticks = y.ticks(4);
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
      {rehearsed.scenario.shift.breaks.filter((pause) => pause.at < until).map((pause) => (
        <g key={pause.at}>
          <rect x={x(pause.at)} width={x(pause.at + pause.for) - x(pause.at)} y={MARGINS.top} height={height - MARGINS.top - MARGINS.bottom} fill="url(#pause)" />
          <text class="label label-quiet middle" x={x(pause.at + pause.for / 2)} y={MARGINS.top - 5}>{words.breakHere}</text>
        </g>
      ))}
      {ticks.map((tick) => (
        <g key={tick}>
          <path class="hairline" d={`M${MARGINS.left},${y(tick)} H${width - MARGINS.right}`} />
          <text class="label label-quiet" x={MARGINS.left - 6} y={y(tick) + 4} text-anchor="end">{tick}</text>
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
    </svg>
  );
}

export function TimeCursor({ x, height }: { readonly x: number; readonly height: number }) {
  return <path class="cursor" d={`M${x.toFixed(1)},${MARGINS.top - 4} V${height - MARGINS.bottom}`} />;
}
