/** The lifts of the day shown by density, and under them the two kinds of doubt on two lines, never mixed in one; the target across all. */
import { max, scaleLinear } from "d3";
import type { StorageFinding } from "../../sim/findings/types.ts";
import { binsOf, classOf, loosestTenth, type ClampStory } from "../lifts.ts";
import { number, quantity, shownIn, type UnitSystem } from "../quantity.ts";
import { words } from "../words.ts";
import { pictures } from "../words/pictures.ts";
import { Doubts } from "./DensityBand.tsx";

/** px: two lines of text above the bars, the bars, the scale under them, the two lines of doubt. */
const ABOVE = 42;
const BARS = 96;
const SCALE = 34;
const DOUBTS = 40;

interface LiftDensitiesProps { readonly clamp: ClampStory; readonly finding: StorageFinding; readonly target: number; readonly units: UnitSystem; readonly width: number }

export function LiftDensities({ clamp, finding, target, units, width }: LiftDensitiesProps) {
  const { name, dryDensity: { mean, ci, band } } = finding;
  const bins = binsOf(clamp);
  const loosest = loosestTenth(clamp);
  const ends = [...bins.flatMap(({ from, to }) => [from, to]), ...band, ...ci, target].map((density) => shownIn(density, "density", units));
  const x = scaleLinear([Math.min(...ends), Math.max(...ends)], [16, width - 16]).nice(5);
  const sx = (density: number) => x(shownIn(density, "density", units));
  const most = max(bins, ({ mass }) => mass) ?? 1;
  const ground = ABOVE + BARS;
  const height = ground + SCALE + DOUBTS;
  const tall = (mass: number) => (BARS * mass) / most;
  const all = clamp.stored.mass;
  const anchor = (at: number) => (at > width / 2 ? "end" : "start");
  const aside = (at: number) => at + (at > width / 2 ? -6 : 6);
  const density = (value: number) => number(value, "density", units);
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img"
      aria-label={[
        pictures.lifts.summary(name, quantity(bins[0]?.from ?? 0, "density", units), quantity(bins.at(-1)?.to ?? 0, "density", units), `${Math.round((100 * clamp.stored.massUnder) / all)} %`, quantity(loosest, "density", units)),
        words.density.summary(name, quantity(mean, "density", units), words.figures.range(density(ci[0]), density(ci[1])), words.figures.range(density(band[0]), density(band[1])), quantity(target, "density", units)),
      ].join(" ")}>
      {bins.filter(({ mass }) => mass > 0).map(({ from, to, mass, under }) => {
        const k = classOf((from + to) / 2);
        const [left, wide] = [sx(from) + 0.5, Math.max(1, sx(to) - sx(from) - 1)];
        return (
          <g key={from}>
            <rect class={`swatch class-${k}`} x={left} width={wide} y={ground - tall(mass)} height={tall(mass)} />
            {under > 0 && <rect x={left} width={wide} y={ground - tall(under)} height={tall(under)} fill={k < 4 ? "url(#under-light)" : "url(#under-dark)"} />}
          </g>
        );
      })}
      <path class="ground" d={`M8,${ground} H${width - 8}`} />
      <path class="limit" d={`M${sx(loosest)},${ABOVE - 10} V${ground}`} />
      <text class="label" x={aside(sx(loosest))} y={ABOVE - 8} text-anchor={anchor(sx(loosest))}>{pictures.lifts.loosest(density(loosest))}</text>
      <path class="target" d={`M${sx(target)},${ABOVE - 26} V${height - 4}`} />
      <text class="label" x={aside(sx(target))} y={14} text-anchor={anchor(sx(target))}>{words.density.target(density(target))}</text>
      {x.ticks(width < 480 ? 4 : 7).map((tick) => (
        <g key={tick}>
          <path class="tick" d={`M${x(tick)},${ground} v5`} />
          <text class="label label-quiet middle" x={x(tick)} y={ground + 19}>{tick}</text>
        </g>
      ))}
      <Doubts y={ground + SCALE + 8} sx={sx} mean={mean} ci={ci} band={band} />
      <text class="label label-packed" x={Math.max(sx(mean), sx(ci[1])) + 8} y={ground + SCALE + 13}>{density(mean)}</text>
    </svg>
  );
}
