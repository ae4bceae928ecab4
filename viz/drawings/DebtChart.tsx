/** The packing debt over the day, and the line of one load above which packing is behind. */
import { line, scaleLinear, type ScaleLinear } from "d3";
import { useMemo } from "preact/hooks";
import { clockOf } from "../../sim/findings/clock.ts";
import type { DebtPoint } from "../../sim/findings/debt.ts";
import { clock, span } from "../quantity.ts";
import type { Debt, Rehearsed } from "../rehearsed.ts";
import { seen } from "../state.ts";
import { words } from "../words.ts";
import { MARGINS, TimeFrame, rowsOf, timeScale } from "./TimeFrame.tsx";

const HEIGHT = 152;

/** s owed at a time: the last point at or before it, and down the slope from there. */
export function debtAt(points: readonly DebtPoint[], time: number): number {
  let low = 0;
  let high = points.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (points[middle]!.time <= time) low = middle + 1;
    else high = middle;
  }
  const a = points[low - 1];
  const b = points[low];
  if (!a) return 0;
  return b && b.time > a.time ? a.debt + ((b.debt - a.debt) * (time - a.time)) / (b.time - a.time) : a.debt;
}

/** px that the words beside the dotted line take. */
const BEHIND = 206;

interface DebtProps { readonly rehearsed: Rehearsed; readonly width: number }

export function DebtChart({ rehearsed, width }: DebtProps) {
  const { debts } = rehearsed;
  const x = timeScale(rehearsed, width);
  const finite = debts.filter(({ story, oneLoad }) => Number.isFinite(story.peak) && Number.isFinite(oneLoad));
  const most = Math.max(1, ...finite.map(({ story, oneLoad }) => Math.max(story.peak, oneLoad * 1.5)));
  const y = scaleLinear([0, most / 60], [HEIGHT - MARGINS.bottom, MARGINS.top]).nice(3);

  const still = useMemo(() => finite.map(({ points, oneLoad, story }, i) => {
    const d = line<DebtPoint>().x((p) => x(p.time)).y((p) => y(p.debt / 60))(points) ?? "";
    return (
      <g key={i}>
        <path class="owed" d={`${d}L${x(points.at(-1)!.time)},${y(0)}L${x(points[0]!.time)},${y(0)}Z`} />
        <path class="curve curve-packed" d={d} />
        <path class="limit" d={`M${MARGINS.left},${y(oneLoad / 60)} H${width - MARGINS.right}`} />
        {i === 0 && <text class="label" x={width - MARGINS.right} y={y(oneLoad / 60) - 5} text-anchor="end">{words.debt.oneLoad(span(oneLoad))}</text>}
        {story.behindFrom !== null && (
          <g>
            <path class="behind" d={`M${x(story.behindFrom)},${MARGINS.top - 4} V${HEIGHT - MARGINS.bottom}`} />
            {i === 0 && <text class="label label-warn" x={Math.min(x(story.behindFrom) + 5, width - BEHIND)} y={12}>{words.debt.behind(clockOf(story.behindFrom))}</text>}
          </g>
        )}
      </g>
    );
  }), [rehearsed, width]);

  return (
    <TimeFrame rehearsed={rehearsed} width={width} height={HEIGHT} rows={rowsOf(y, 3)} unit="min" label={debtSummary(debts)}>
      {still}
      <Dots debts={finite} x={x} y={y} />
    </TimeFrame>
  );
}

/** What is owed at the time one looks at. */
function Dots({ debts, x, y }: { readonly debts: readonly Debt[]; readonly x: ScaleLinear<number, number>; readonly y: ScaleLinear<number, number> }) {
  const at = seen.value;
  return <>{debts.map(({ points }, i) => <circle key={i} class="dot dot-packed" cx={x(at)} cy={y(debtAt(points, at) / 60)} r={4} />)}</>;
}

function debtSummary(debts: readonly Debt[]): string {
  const worst = debts.reduce((a, b) => (b.story.peak > a.story.peak ? b : a));
  const when = worst.points.find((point) => point.debt === worst.story.peak)?.time ?? 0;
  return words.debt.summary(span(worst.story.peak), clock(when), worst.story.behindFrom === null ? null : clockOf(worst.story.behindFrom));
}
