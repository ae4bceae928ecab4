/** The lifts of the day shown by density, and under them the two kinds of doubt on two lines, never mixed in one; the target across all. */
import { max, scaleLinear } from "d3";
import type { StorageFinding } from "../../sim/findings/types.ts";
import { binsOf, classOf, loosestTenth, type ClampStory } from "../lifts.ts";
import { number, quantity, shownIn, type UnitSystem } from "../quantity.ts";
import { words } from "../words.ts";
import { pictures } from "../words/pictures.ts";
import { Doubts } from "./DensityBand.tsx";
import { LETTER } from "./letter.ts";

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
  const density = (value: number) => number(value, "density", units);
  const saidLoosest = pictures.lifts.loosest(density(loosest));
  const [atLoosest, atTarget, long] = [sx(loosest), sx(target), saidLoosest.length * LETTER];
  // Not through the target's line, as far as there is room on the other side.
  const crosses = atLoosest < atTarget && atLoosest + long > atTarget && atLoosest > long;
  const beside = (at: number, left = at > width / 2) => ({ x: at + (left ? -6 : 6), "text-anchor": left ? "end" : "start" }) as const;
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
      <path class="limit" d={`M${atLoosest},${ABOVE - 10} V${ground}`} />
      <path class="target" d={`M${atTarget},${ABOVE - 26} V${height - 4}`} />
      <text class="label" {...beside(atLoosest, crosses || atLoosest > width / 2)} y={ABOVE - 8}>{saidLoosest}</text>
      <text class="label" {...beside(atTarget)} y={14}>{words.density.target(quantity(target, "density", units))}</text>
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
