/** The plans that no other beats: cost across, density up; the chosen one is filled. */
import { extent, scaleLinear } from "d3";
import { figureValue } from "../../sim/study/figuretext.ts";
import type { CrewPlan } from "../../sim/study/planrecord.ts";
import { unitName } from "../quantity.ts";
import { units } from "../state.ts";
import { useWidth } from "../useWidth.ts";
import { words } from "../words/change.ts";
import { reader } from "./Fixes.tsx";

/** px */
const HEIGHT = 220;
const MARGIN = { left: 52, right: 20, top: 24, bottom: 40 } as const;

export function Front({ plans, chosen }: { readonly plans: readonly CrewPlan[]; readonly chosen: number | null }) {
  const [ref, width] = useWidth<HTMLElement>();
  const points = plans.flatMap(({ index, cost, density }) => (cost && density ? [{ index, cost: cost.mean, density: density.mean }] : []));
  const [left = 0, right = 1] = extent(points, ({ cost }) => cost);
  const [low = 0, high = 1] = extent(points, ({ density }) => density);
  const x = scaleLinear([left, right === left ? left + 1 : right], [MARGIN.left, Math.max(MARGIN.left + 1, width - MARGIN.right)]).nice(4);
  const y = scaleLinear([low, high === low ? low + 1 : high], [HEIGHT - MARGIN.bottom, MARGIN.top]).nice(4);
  return (
    <figure ref={ref} data-picture>
      {width > 0 && (
        <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} role="img" aria-label={words.crew.picture}>
          {y.ticks(4).map((tick) => (
            <g key={tick}><path class="hairline" d={`M${MARGIN.left},${y(tick)} H${width - MARGIN.right}`} /><text class="label label-quiet" x={MARGIN.left - 6} y={y(tick) + 4} text-anchor="end">{figureValue("dryDensity", tick, reader())}</text></g>
          ))}
          {x.ticks(4).map((tick) => <text key={tick} class="label label-quiet middle" x={x(tick)} y={HEIGHT - 22}>{figureValue("costPerTonneFed", tick, reader())}</text>)}
          <text class="label label-quiet" x={0} y={12}>{words.crew.head.density}, {unitName("density", units.value)}</text>
          <text class="label label-quiet" x={width - MARGIN.right} y={HEIGHT - 4} text-anchor="end">{words.crew.head.cost}, {reader().currency}</text>
          {points.map(({ index, cost, density }) => <circle key={index} class={index === chosen ? "plan-point plan-chosen" : "plan-point"} cx={x(cost)} cy={y(density)} r={index === chosen ? 7 : 5} />)}
        </svg>
      )}
      <figcaption><p class="quiet">{words.crew.picture}</p></figcaption>
    </figure>
  );
}
