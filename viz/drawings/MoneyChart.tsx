/** What the farm pays, a bar a line of the account; what stands beside the total is an outline. */
import { max, scaleLinear } from "d3";
import type { MoneyLine } from "../../sim/findings/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { pictures } from "../words/pictures.ts";

/** px: a row, its text's baseline, the bar in the row. */
const ROW = 36;
const TEXT = 14;
const GAP = 8;
const BAR = { top: 20, height: 10 } as const;

interface MoneyProps { readonly lines: readonly MoneyLine[]; readonly total: number; readonly currency: string; readonly width: number }

export function MoneyChart({ lines, total, currency, width }: MoneyProps) {
  const ordered = [...lines].sort((a, b) => Number(b.inTotal) - Number(a.inTotal) || b.amount - a.amount);
  const x = scaleLinear([0, max(lines, ({ amount }) => amount) || 1], [1, width - 1]);
  const said = ({ what, amount }: MoneyLine) => `${what} ${formatNumber(amount, 0)} ${currency}`;
  const height = ordered.length * ROW;
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={pictures.money.summary(`${formatNumber(total, 0)} ${currency}`, said(ordered[0]!))}>
      {ordered.map((line, i) => (
        <g key={line.what + i}>
          <text class="label label-quiet" x={0} y={i * ROW + TEXT}>
            <tspan class="row-name">{line.what}</tspan><tspan dx={GAP}>{formatNumber(line.amount, 0)} {currency}{line.inTotal ? "" : `, ${pictures.money.beside}`}</tspan>
          </text>
          <rect class={line.inTotal ? "pays" : "pays pays-beside"} x={1} y={i * ROW + BAR.top} width={Math.max(0.5, x(line.amount) - 1)} height={BAR.height} />
        </g>
      ))}
    </svg>
  );
}
