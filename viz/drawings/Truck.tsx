/** A truck: a plate with its number, an open top that fills, a cab on the side it drives to. */
import { useMemo } from "preact/hooks";

interface TruckProps {
  /** index in the day's machines */ readonly machine: number;
  readonly pointed: boolean;
  readonly number: number;
  readonly x: number;
  /** wheels, px */ readonly y: number;
  readonly width: number;
  readonly faces: "left" | "right";
  readonly filled: number;
  readonly stopped: boolean;
}

const PLATE = 15;
const TOP = 8;

export function Truck({ machine, pointed, number, x, y, width, faces, filled, stopped }: TruckProps) {
  const half = width / 2;
  const way = faces === "right" ? 1 : -1;
  const top = -PLATE - TOP;
  // While the day plays most trucks of a large fleet stand: one that has not changed is not looked at again.
  return useMemo(() => (
    <g class={stopped ? "truck truck-stopped" : "truck"} data-machine={machine} transform={`translate(${x.toFixed(2)},${y})`}>
      {pointed && <rect class="outline" x={-half - 5} y={top - 3} width={width + 10} height={-top + 5} />}
      {filled > 0 && <rect class="truck-load" x={-half + 1.5} width={width - 3} y={-PLATE - TOP * filled} height={TOP * filled} />}
      <path class="truck-plate" d={`M${-half},${top} V-1 H${half} V${top} M${-half},${-PLATE} H${half}`} />
      <rect class="truck-face" x={-half} y={-PLATE} width={width} height={PLATE - 1} />
      <path class="truck-cab" d={`M${way * half},${-PLATE} l${way * 4},5 V-1 H${way * half} Z`} />
      <text class="truck-number" y={-4}>{number}</text>
    </g>
  ), [machine, pointed, number, x, y, width, faces, filled, stopped]);
}
