/** The apron: a heap whose height is tonnes, under a line at the height where it is full. */
interface ApronProps {
  readonly x: number;
  readonly width: number;
  readonly y: number;
  /** kg lying, and being pushed up but not laid yet */ readonly mass: number;
  readonly capacity: number;
  readonly lying: string;
  /** null when no load is being pushed */ readonly pushed: string | null;
  readonly full: string;
  readonly ground: { readonly from: number; readonly until: number };
}

/** Height of a full apron, px. */
const FULL = 76;

/** Between the end of the road with its numbers and what is written under the apron, px. */
const INSET = 8;

export function Apron({ x, width, y, mass, capacity, lying, pushed, full, ground }: ApronProps) {
  const height = (FULL * mass) / capacity;
  const shoulder = width * 0.22;
  return (
    <g>
      <path class="ground" d={`M${ground.from},${y} H${ground.until}`} />
      {height > 0.5 && <path class="heap" d={`M${x},${y} L${x + shoulder},${y - height} H${x + width - shoulder} L${x + width},${y} Z`} />}
      <path class="limit" d={`M${x},${y - FULL} H${x + width}`} />
      <text class="label label-quiet" x={x + width} y={y - FULL - 5} text-anchor="end">{full}</text>
      <text class="label" x={ground.from + INSET} y={y + 64}>{lying}</text>
      {pushed !== null && <text class="label label-quiet" x={ground.from + INSET} y={y + 82}>{pushed}</text>}
    </g>
  );
}
