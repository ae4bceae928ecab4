/** A tractor on the clamp, drawn as big as it is heavy. A blade has its blade in front; one that stands is drawn hollow. */
interface TractorProps {
  /** index in the day's machines */ readonly machine: number;
  readonly pointed: boolean;
  readonly x: number;
  readonly y: number;
  /** kg */ readonly mass: number;
  readonly label: string;
  readonly blade: boolean;
  readonly works: boolean;
}

export function Tractor({ machine, pointed, x, y, mass, label, blade, works }: TractorProps) {
  const size = Math.min(1.3, Math.max(0.75, Math.sqrt(mass / 14_000)));
  return (
    <g class={works ? "tractor" : "tractor tractor-stands"} data-machine={machine} transform={`translate(${x.toFixed(2)},${y.toFixed(2)})`}>
      {pointed && <rect class="outline" x={-16 * size} y={-21 * size} width={30 * size} height={23 * size} />}
      <g transform={`scale(${size})`}>
        <path class="tractor-body" d="M-9,-5 V-11 H-1 V-18 H8 V-5 Z" />
        <circle class="tractor-wheel" cx={5} cy={-5} r={5} />
        <circle class="tractor-wheel" cx={-7} cy={-3.5} r={3.5} />
        {blade && <path class="tractor-blade" d="M-13,-10 V0 M-13,-5 H-9" />}
      </g>
      <text class="label tractor-label" y={-18 * size - 5}>{label}</text>
    </g>
  );
}
