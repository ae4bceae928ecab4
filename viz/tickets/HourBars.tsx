/** Bars by the hour of the clock, on the day's own time line: stretches without a load hatched, what rehearsed days show as uprights. */
import { max, scaleLinear } from "d3";
import { UnderPicture } from "../page/TableTwin.tsx";
import { formatNumber } from "../../sim/scenario/units.ts";
import { clock } from "../quantity.ts";
import { ON_PAPER, useWidth } from "../useWidth.ts";

export interface HourBar {
  /** s after midnight */ readonly from: number;
  /** in the unit that is shown */ readonly value: number;
  /** what 8 of 10 rehearsed days show, and their mean */ readonly band?: readonly [low: number, mean: number, high: number];
}

interface HourBarsProps {
  readonly name: string;
  readonly what: string;
  /** of the values, in words */ readonly unit: string;
  readonly bars: readonly HourBar[];
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
  readonly summary: string;
  readonly head: readonly string[];
  readonly rows: () => readonly (readonly string[])[];
}

/** px */
const HEIGHT = 200;
const TOP = 24;
const FOOT = 26;
const LEFT = 36;
const BETWEEN = 3;
const HOUR = 3600;

export function HourBars({ name, what, unit, bars, gaps, summary, head, rows }: HourBarsProps) {
  const [ref, width] = useWidth<HTMLDivElement>(ON_PAPER.whole);
  const first = bars[0]?.from ?? 0;
  const last = (bars.at(-1)?.from ?? 0) + HOUR;
  const x = scaleLinear([first, last], [LEFT, Math.max(LEFT + 1, width - 1)]);
  const y = scaleLinear([0, max(bars, ({ value, band }) => Math.max(value, band?.[2] ?? 0)) || 1], [HEIGHT - FOOT, TOP]).nice(4);
  const wide = x(first + HOUR) - x(first);
  const every = Math.max(1, Math.ceil(48 / Math.max(1, wide)));
  return (
    <figure class="hour-bars" data-picture>
      <figcaption><h3>{name}</h3><p class="quiet">{what}</p></figcaption>
      <div ref={ref}>
        {width > 0 && (
          <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} role="img" aria-label={summary}>
            {y.ticks(4).map((tick, i, all) => (
              <g key={tick}>
                <line class="hairline" x1={LEFT} x2={width} y1={y(tick)} y2={y(tick)} />
                <text class="label label-quiet" x={LEFT - 6} y={y(tick) + 5} text-anchor="end">{formatNumber(tick, Number.isInteger(tick) ? 0 : 1)}</text>
                {i === all.length - 1 && <text class="label label-quiet" x={0} y={12}>{unit}</text>}
              </g>
            ))}
            {bars.map(({ from, value, band }, i) => {
              const middle = x(from) + wide / 2;
              return (
                <g key={from}>
                  <rect class="hour-bar" x={x(from) + BETWEEN / 2} y={y(value)} width={Math.max(1, wide - BETWEEN)} height={y(0) - y(value)} />
                  {band && <path class="hour-band" d={`M${middle},${y(band[0])}V${y(band[2])}M${middle - 5},${y(band[1])}h10`} />}
                  {i % every === 0 && <text class="label label-quiet middle" x={Math.min(Math.max(x(from), 20), width - 20)} y={HEIGHT - 6}>{clock(from)}</text>}
                </g>
              );
            })}
            {gaps.map(({ from, to }) => <rect key={from} class="hour-gap" x={x(from)} y={TOP} width={Math.max(1, x(to) - x(from))} height={y(0) - TOP} />)}
            <path class="ground ground-low" d={`M${LEFT},${y(0)}H${width}`} />
          </svg>
        )}
      </div>
      <UnderPicture name={name} head={head} rows={rows} />
    </figure>
  );
}
