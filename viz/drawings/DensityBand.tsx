/** How sure the density is: two kinds of doubt on two lines, never mixed in one, and the target across both. */
import { scaleLinear } from "d3";
import type { StorageFinding } from "../../sim/findings/types.ts";
import { number, quantity, shownIn, type UnitSystem } from "../quantity.ts";
import { words } from "../words.ts";

const ROW = 64;

export function DensityBand({ storages, target, units, width }: { readonly storages: readonly StorageFinding[]; readonly target: number; readonly units: UnitSystem; readonly width: number }) {
  const ends = storages.flatMap(({ dryDensity: { band, ci, mean } }) => [...band, ...ci, mean]).concat(target);
  const x = scaleLinear([Math.min(...ends), Math.max(...ends)].map((v) => shownIn(v, "density", units)), [16, width - 16]).nice(5);
  const sx = (kgPerM3: number) => x(shownIn(kgPerM3, "density", units));
  const height = 24 + storages.length * ROW + 20;
  const range = ([low, high]: readonly [number, number]) => words.figures.range(number(low, "density", units), number(high, "density", units));
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={storages.map(({ name, dryDensity: d }) => words.density.summary(name, quantity(d.mean, "density", units), range(d.ci), range(d.band), quantity(target, "density", units))).join(" ")}>
      <path class="target" d={`M${sx(target)},18 V${height - 20}`} />
      <text class="label" x={sx(target)} y={13} text-anchor={sx(target) > width / 2 ? "end" : "start"}>{words.density.target(number(target, "density", units))}</text>
      {storages.map(({ name, dryDensity: { mean, ci, band } }, i) => {
        const y = 24 + i * ROW;
        return (
          <g key={name}>
            <Doubts y={y + 20} sx={sx} mean={mean} ci={ci} band={band} />
            <text class="label label-packed" x={sx(mean) + (sx(mean) > width / 2 ? -10 : 10)} y={y + 14} text-anchor={sx(mean) > width / 2 ? "end" : "start"}>{storages.length > 1 ? `${name}, ${number(mean, "density", units)}` : number(mean, "density", units)}</text>
          </g>
        );
      })}
      {x.ticks(width < 480 ? 4 : 7).map((tick) => (
        <g key={tick}>
          <path class="tick" d={`M${x(tick)},${height - 20} v-5`} />
          <text class="label label-quiet middle" x={x(tick)} y={height - 5}>{tick}</text>
        </g>
      ))}
    </svg>
  );
}

interface DoubtsProps {
  /** px, of the upper line */ readonly y: number;
  readonly sx: (kgPerM3: number) => number;
  readonly mean: number;
  readonly ci: readonly [number, number];
  readonly band: readonly [number, number];
}

/** The mean with the luck of the day on one line, and on the line below the scatter of the relation. */
export function Doubts({ y, sx, mean, ci, band }: DoubtsProps) {
  return (
    <>
      <path class="band" d={`M${sx(band[0])},${y + 20} H${sx(band[1])}`} />
      <path class="band-ends" d={`M${sx(band[0])},${y + 15} v10 M${sx(band[1])},${y + 15} v10`} />
      <path class="luck" d={`M${sx(ci[0])},${y} H${Math.max(sx(ci[1]), sx(ci[0]) + 1)}`} />
      <circle class="dot dot-packed" cx={sx(mean)} cy={y} r={4} />
    </>
  );
}
