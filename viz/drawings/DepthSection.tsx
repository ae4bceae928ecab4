/** The cross-section where the forage stands highest, coloured by density from the top down, and beside it the density as a line over the same depth. */
import { line, scaleLinear } from "d3";
import { bodyOf, slicesOf } from "../../sim/forage/geometry/index.ts";
import { depthProfile } from "../../sim/forage/profile.ts";
import { classOf, type ClampStory } from "../lifts.ts";
import { number, quantity, shownIn, unitName, type UnitSystem } from "../quantity.ts";
import { words } from "../words.ts";
import { pictures } from "../words/pictures.ts";

/** px: the most the section may be high, above and below it, from it to the line. */
const HIGHEST = 120;
const ABOVE = 26;
const BELOW = 44;
const BETWEEN = 64;
/** What is written under the target. */
const TARGET = 128;

/** Part of the width that the section may take. */
const PART = 0.5;

/** Depth from the top, m, and density, kg DM/m3, of one slice. */
export interface Layer { readonly from: number; readonly to: number; readonly density: number }

/** The forage of a storage in layers, top first; none where nothing lies. */
export function layersOf({ layout: { shape }, stored }: ClampStory): Layer[] {
  if (!(stored.volume > 0)) return [];
  const slices = slicesOf(shape, stored.volume);
  const each = bodyOf(shape, stored.volume).top / slices.length;
  return depthProfile(stored.dryMass / stored.volume, slices).map((density, i) => ({ from: i * each, to: (i + 1) * each, density }));
}

interface SectionProps { readonly clamp: ClampStory; readonly name: string; readonly target: number; readonly units: UnitSystem; readonly width: number }

export function DepthSection({ clamp, name, target, units, width }: SectionProps) {
  const layers = layersOf(clamp);
  if (layers.length === 0) return null;
  const { shape } = clamp.layout;
  const top = layers.at(-1)!.to;
  const perMetre = (width * PART - 8) / shape.width;
  const times = Math.max(1, Math.min(4, Math.floor(HIGHEST / (top * perMetre))));
  const up = Math.min(perMetre * times, HIGHEST / top);
  const ground = ABOVE + top * up;
  const height = ground + BELOW;
  const middle = 4 + (shape.width * perMetre) / 2;
  const slope = shape.form === "pile" ? shape.sideSlope : 0;
  /** What lies deeper than this: the outline shifted down, and cut at the ground. */
  const deeper = (depth: number) => {
    const [base, crest] = [shape.width - 2 * slope * depth, shape.width - 2 * slope * top].map((metres) => (Math.max(0, metres) * perMetre) / 2) as [number, number];
    return `M${middle - base},${ground}L${middle - crest},${ABOVE + depth * up}H${middle + crest}L${middle + base},${ground}Z`;
  };

  const left = 4 + shape.width * perMetre + BETWEEN;
  const densities = layers.map(({ density }) => shownIn(density, "density", units));
  const aim = shownIn(target, "density", units);
  const x = scaleLinear([Math.min(aim, ...densities), Math.max(aim, ...densities)], [left + 16, width - 40]);
  const y = (depth: number) => ABOVE + depth * up;
  const profile = line<number>().x((i) => x(densities[i]!)).y((i) => y((layers[i]!.from + layers[i]!.to) / 2))(layers.map((_, i) => i)) ?? "";
  const [first, last] = [layers[0]!.density, layers.at(-1)!.density].map((density) => number(density, "density", units)) as [string, string];
  const depths = scaleLinear([0, shownIn(top, "length", units)], [ABOVE, ground]);
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={pictures.section.summary(name, quantity(layers[0]!.density, "density", units), quantity(layers.at(-1)!.density, "density", units))}>
      {layers.map(({ from, density }) => <path key={from} class={`layer class-${classOf(density)}`} d={deeper(from)} />)}
      <path class="section-edge" d={deeper(0)} />
      {shape.form === "bunker" && <path class="wall" d={`M${middle - (shape.width * perMetre) / 2 - 2},${ground} V${ground - shape.height * up} M${middle + (shape.width * perMetre) / 2 + 2},${ground} V${ground - shape.height * up}`} />}
      <path class="ground" d={`M0,${ground} H${left - BETWEEN + 4}`} />
      <text class="label label-quiet" x={4} y={ground + 18}>{words.strip.scale(pictures.section.width(quantity(shape.width, "length", units)), times).replace(" long", "")}</text>
      {depths.ticks(3).map((tick) => (
        <g key={tick}>
          <path class="hairline" d={`M${left},${depths(tick)} H${width - 8}`} />
          <text class="label label-quiet" x={left - 6} y={depths(tick) + 4} text-anchor="end">{tick}</text>
        </g>
      ))}
      <text class="label label-quiet" x={left - 6} y={12} text-anchor="end">{pictures.section.depth}, {unitName("length", units)}</text>
      <path class="target" d={`M${x(aim)},${ABOVE - 6} V${ground + 4}`} />
      <text class="label middle" x={Math.min(width - TARGET / 2, x(aim))} y={ground + 18}>{pictures.section.target(quantity(target, "density", units))}</text>
      <path class="curve profile" d={profile} />
      <text class="label label-packed middle" x={x(densities[0]!)} y={ABOVE - 4}>{first}</text>
      <text class="label label-packed middle" x={x(densities.at(-1)!)} y={ground + (Math.abs(x(densities.at(-1)!) - x(aim)) < TARGET ? 36 : 18)}>{last}</text>
    </svg>
  );
}
