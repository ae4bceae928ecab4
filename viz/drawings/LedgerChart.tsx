/** From cut to fed as a falling ledger: what is stored, what each cause takes off it, with its range, and what is left to feed. */
import { scaleLinear } from "d3";
import type { LedgerEnds, LossLine, Span } from "../../sim/findings/types.ts";
import { LOSS_WORDS } from "../../sim/findings/words.ts";
import { fallingLedger, massIn } from "../ledger.ts";
import { unitName, type UnitSystem } from "../quantity.ts";
import { words } from "../words.ts";

/** px: a row, its text's baseline, between a name and its figure, and the bar in the row. */
const ROW = 44;
const TEXT = 14;
const GAP = 8;
const BAR = { top: 22, height: 12 } as const;

interface LedgerProps { readonly ledger: LedgerEnds; readonly losses: readonly LossLine[]; readonly units: UnitSystem; readonly width: number }

export function LedgerChart({ ledger, losses, units, width }: LedgerProps) {
  const steps = fallingLedger(ledger, losses);
  const x = scaleLinear([0, Math.max(ledger.cutT, ledger.storedT, 1e-9)], [1, width - 1]);
  const mass = (tonnes: number) => massIn(tonnes, units);
  const unit = unitName("mass", units);
  const ranged = ({ low, central, high }: Span) => words.ledger.ranged(mass(central), unit, mass(low), mass(high));
  const ends = [
    ...(ledger.cutT - ledger.storedT > 0.005 * ledger.cutT ? [{ name: words.ledger.cut, tonnes: ledger.cutT }] : []),
    { name: words.ledger.stored, tonnes: ledger.storedT },
  ];
  const height = (ends.length + steps.length + 1) * ROW;
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={words.ledger.summary(`${mass(ledger.storedT)} ${unit}`, ranged(ledger.fedT))}>
      {ends.map(({ name, tonnes }, i) => <End key={name} y={i * ROW} name={name} said={`${mass(tonnes)} ${unit}`} until={x(tonnes)} range={null} />)}
      {steps.map(({ line: { cause, dryT, on }, from, until }, i) => {
        const y = (ends.length + i) * ROW;
        const said = dryT === null ? words.ledger.noFigure : on ? ranged(dryT) : `${ranged(dryT)}, ${words.ledger.notCounted}`;
        return (
          <g key={cause}>
            <path class="limit" d={`M${x(from)},${y - ROW + BAR.top + BAR.height} V${y + BAR.top + BAR.height}`} />
            {dryT !== null && (
              <>
                <rect class={on ? "lost" : "lost lost-off"} x={x(until)} y={y + BAR.top} width={x(from) - x(until)} height={BAR.height} />
                <Range y={y} low={x(Math.max(0, from - dryT.high))} high={x(from - dryT.low)} />
              </>
            )}
            <text class="label label-quiet" x={0} y={y + TEXT}><tspan class={on ? "row-name" : ""}>{LOSS_WORDS[cause]}</tspan><tspan dx={GAP}>{said}</tspan></text>
          </g>
        );
      })}
      <End y={height - ROW} name={words.ledger.fed} said={ranged(ledger.fedT)} until={x(ledger.fedT.central)} range={[x(ledger.fedT.low), x(ledger.fedT.high)]} />
    </svg>
  );
}

interface EndProps { readonly y: number; readonly name: string; readonly said: string; readonly until: number; readonly range: readonly [number, number] | null }

function End({ y, name, said, until, range }: EndProps) {
  return (
    <g>
      <text class="label" x={0} y={y + TEXT}><tspan class="head">{name}</tspan><tspan dx={GAP}>{said}</tspan></text>
      <rect class="kept" x={1} y={y + BAR.top} width={Math.max(0, until - 1)} height={BAR.height} />
      {range && <Range y={y} low={range[0]} high={range[1]} />}
    </g>
  );
}

/** Under the bar, so that neither hides the other. */
function Range({ y, low, high }: { readonly y: number; readonly low: number; readonly high: number }) {
  const at = y + BAR.top + BAR.height + 4;
  return <path class="band" d={`M${low},${at - 3} v6 m0,-3 H${high} m0,-3 v6`} />;
}
