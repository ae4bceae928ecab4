/** A chopper at the edge of the standing crop, and the field it cuts: standing crop to the left of it, stubble to the right. */
import type { FieldPlace } from "../places.ts";

interface ChopperProps {
  /** index in the day's machines */ readonly machine: number;
  readonly pointed: boolean;
  readonly place: FieldPlace;
  readonly y: number;
  /** left edge of what is written under the field, px */ readonly labelX: number;
  readonly name: string;
  readonly cut: string;
  readonly doing: string;
  readonly fills: boolean;
  readonly home: boolean;
}

const CROP = 26;
const STUBBLE = 4;

export function Chopper({ machine, pointed, place: { from, edge, until, gate }, y, labelX, name, cut, doing, fills, home }: ChopperProps) {
  const x = edge + 17;
  return (
    <g>
      <rect class="crop" x={from} y={y - CROP} width={Math.max(0, edge - from)} height={CROP} fill="url(#standing)" />
      <rect x={edge} y={y - STUBBLE} width={Math.max(0, until - edge)} height={STUBBLE} fill="url(#stubble)" />
      <path class="ground" d={`M${from},${y} H${gate}`} />
      {!home && (
        <g class="chopper" data-machine={machine} transform={`translate(${x.toFixed(2)},${y})`}>
          {pointed && <rect class="outline" x={-22} y={-40} width={50} height={42} />}
          <path class="chopper-body" d="M-12,-4 H12 V-20 H2 L-4,-14 H-12 Z" />
          <path class="chopper-head" d="M-12,-4 L-19,-9 V-2 H-12 Z" />
          <circle class="chopper-wheel" cx={-6} cy={-4} r={4} />
          <circle class="chopper-wheel" cx={7} cy={-3} r={3} />
          <path class="chopper-spout" d="M4,-20 Q10,-40 24,-34" />
          {fills && <path class="chopper-stream" d="M24,-34 Q30,-31 32,-25" />}
          <text class="label chopper-label" x={-14} y={-48}>{doing}</text>
        </g>
      )}
      <text class="label" x={labelX} y={y + 64}>{name}</text>
      <text class="label label-quiet" x={labelX} y={y + 82}>{cut}</text>
    </g>
  );
}
