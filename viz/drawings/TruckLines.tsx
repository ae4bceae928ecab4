/** One line for each truck through field, road, queue and tip. Slope is speed, flat is standing, and a thick stretch is waiting. */
import { scaleLinear, type ScaleLinear } from "d3";
import { useMemo } from "preact/hooks";
import { byKey } from "../keys.ts";
import { machinePointed, pointing } from "../pointing.ts";
import { span } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";
import { levelsAt, onLine, spellsOf, truckLine, waitedIn, type Stretch } from "../trucklines.ts";
import { seen } from "../state.ts";
import { pictures } from "../words/pictures.ts";
import { MARGINS, TimeFrame, timeScale, type Row } from "./TimeFrame.tsx";

/** px: from one level to the next, the road, a chopper's row, above its marks. */
const LEVEL = 20;
const ROAD = 136;
const CHOPPER_ROW = 12;
const ABOVE_MARKS = 10;

/** px of a level over which the lines of the trucks are spread while they wait, so that each wait is seen. */
const SPREAD = 14;

/** More lines than this are drawn thin. */
const MANY = 12;

interface TruckLinesProps { readonly rehearsed: Rehearsed; readonly width: number }

export function TruckLines({ rehearsed, width }: TruckLinesProps) {
  const { scenario, replay } = rehearsed;
  const x = timeScale(rehearsed, width);
  const longest = Math.max(1, ...scenario.fields.map((field) => field.distance));
  const step = (longest * LEVEL) / ROAD;
  const { fill, wait, gate, storage, scale, queue, tip } = levelsAt(scenario, longest, step);
  const choppers = useMemo(() => replay.day.machines.flatMap(({ kind }, machine) => {
    const spells = kind === "chopper" ? spellsOf(replay, machine, "waiting") : [];
    return spells.length > 0 ? [{ machine, spells }] : [];
  }), [rehearsed]);
  const bottom = MARGINS.top + ROAD + ((tip - storage) / step + 2) * LEVEL;
  const height = bottom + ABOVE_MARKS + choppers.length * CHOPPER_ROW + 6 + MARGINS.bottom;
  const y = scaleLinear([fill, tip], [bottom, MARGINS.top]);

  const lines = useMemo(() => replay.trucks.map(({ machine }, i): Line => ({
    machine, line: truckLine(replay, scenario, i, step), aside: ((i + 0.5) / replay.trucks.length - 0.5) * SPREAD,
  })), [rehearsed, step]);
  const { places } = pictures.trucks;
  const rows: Row[] = [
    { at: y(tip), name: places.tip }, { at: y(queue), name: places.queue }, ...(scenario.weighing ? [{ at: y(scale), name: places.scale }] : []),
    { at: y((storage + gate) / 2), name: places.road, bare: true }, { at: y(wait), name: places.wait }, { at: y(fill), name: places.fill },
  ];
  const still = useMemo(() => (
    <g>
      <path class="hairline road-ends" d={`M${MARGINS.left},${y(storage)} H${width - MARGINS.right} M${MARGINS.left},${y(gate)} H${width - MARGINS.right}`} />
      <g class={lines.length > MANY ? "truck-lines truck-lines-many" : "truck-lines"}>
        {lines.map((line) => (
          <g key={line.machine} data-machine={line.machine}>
            <path class="truck-line" d={pathOf(line, x, y)} />
            <path class="truck-waits" d={waitsOf(line, x, y)} />
            <path class="hit-line" d={pathOf(line, x, y)} />
          </g>
        ))}
      </g>
      {choppers.map(({ machine, spells }, i) => (
        <g key={machine} data-machine={machine}>
          {spells.map(({ from, until }) => <rect key={from} class="chopper-waits" x={x(from)} width={Math.max(1.5, x(until) - x(from))} y={bottom + ABOVE_MARKS + i * CHOPPER_ROW} height={CHOPPER_ROW - 3} />)}
        </g>
      ))}
    </g>
  ), [rehearsed, width, lines]);

  const waited = replay.day.trips.reduce((sum, trip) => sum + waitedIn(trip, replay.breaks), 0);
  return (
    <div class="lines" tabIndex={0} role="group" aria-label={pictures.trucks.title} aria-describedby="keys" onKeyDown={byKey} {...pointing}>
      <TimeFrame rehearsed={rehearsed} width={width} height={height} rows={rows} unit="" label={pictures.trucks.summary(lines.length, replay.day.trips.filter((trip) => !Number.isNaN(trip.tipped)).length, span(waited))}>
        {still}
        <Marked lines={lines} x={x} y={y} name={(machine) => replay.day.machines[machine]!.name} width={width} />
      </TimeFrame>
    </div>
  );
}

interface Line { readonly machine: number; readonly line: readonly Stretch[]; /** px below the level while it waits */ readonly aside: number }

interface MarkedProps {
  readonly lines: readonly Line[];
  readonly x: ScaleLinear<number, number>;
  readonly y: ScaleLinear<number, number>;
  readonly name: (machine: number) => string;
  readonly width: number;
}

/** Where every truck is at the time one looks at, and the whole line of the one that is pointed at. */
function Marked({ lines, x, y, name, width }: MarkedProps) {
  const at = seen.value;
  const pointed = machinePointed();
  const marked = lines.find(({ machine }) => machine === pointed);
  const here = lines.flatMap(({ machine, line, aside }) => {
    const on = onLine(line, at);
    return on ? [{ machine, cy: y(on.y) + (on.does === "wait" ? aside : 0) }] : [];
  });
  const on = here.find(({ machine }) => machine === pointed);
  const label = pointed === null ? "" : name(pointed);
  const left = x(at) + 10 + label.length * 8 > width;
  return (
    <g class="no-hit">
      {marked && <path class="truck-line-pointed" d={pathOf(marked, x, y)} />}
      {marked && <path class="truck-line-pointed truck-line-pointed-waits" d={waitsOf(marked, x, y)} />}
      <g transform={`translate(${x(at).toFixed(1)},0)`}>{here.map(({ machine, cy }) => <circle key={machine} class="dot dot-tipped" cy={round(cy)} r={machine === pointed ? 5.5 : 3} />)}</g>
      {marked && on && <text class="label label-strong" x={x(at) + (left ? -10 : 10)} y={on.cy - 8} text-anchor={left ? "end" : "start"}>{label}</text>}
    </g>
  );
}

const round = (px: number): number => Math.round(px * 10) / 10;

function pathOf({ line, aside }: Line, x: ScaleLinear<number, number>, y: ScaleLinear<number, number>): string {
  let end = NaN;
  return line.map(({ from, until, y0, y1, does }) => {
    // Upright from one level to the next; a gap where nothing is known.
    const off = does === "wait" ? aside : 0;
    const begin = `${from - end < 1 ? "L" : "M"}${round(x(from))},${round(y(y0) + off)}`;
    end = until;
    return `${begin}L${round(x(until))},${round(y(y1) + off)}`;
  }).join("");
}

function waitsOf({ line, aside }: Line, x: ScaleLinear<number, number>, y: ScaleLinear<number, number>): string {
  return line.filter(({ does }) => does === "wait").map(({ from, until, y0 }) => `M${round(x(from))},${round(y(y0) + aside)}H${round(x(until))}`).join("");
}
