/** The plans that no other beats: cost across, density up, over each who it is and how often it does; the chosen one is filled. */
import { extent, scaleLinear } from "d3";
import { figureLabel } from "../../sim/study/figuretext.ts";
import type { CrewPlan } from "../../sim/study/planrecord.ts";
import { UnderPicture } from "../page/TableTwin.tsx";
import { shownIn } from "../quantity.ts";
import { measureIn, textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { ON_PAPER, useWidth } from "../useWidth.ts";
import { words } from "../words/change.ts";
import { reader } from "./reader.ts";

/** px */
const HEIGHT = 280;
const MARGIN = { left: 52, right: 20, top: 60, bottom: 72 } as const;
/** Half of what is written over a point. */
const LABEL = 36;

interface FrontProps {
  readonly plans: readonly CrewPlan[];
  /** index of the plan that is filled */ readonly chosen: number | null;
  readonly head: readonly string[];
  readonly rows: () => readonly (readonly string[])[];
}

export function Front({ plans, chosen, head, rows }: FrontProps) {
  const [ref, width] = useWidth<HTMLElement>(ON_PAPER.half);
  // In the reader's units, so that the scales have round figures in them.
  const perTonne = measureIn(units.value, "per t").factor;
  const points = plans.flatMap((plan) => (plan.cost && plan.density ? [{ index: plan.index, cost: plan.cost.mean * perTonne, density: shownIn(plan.density.mean, "density", units.value), ...labelOf(plan) }] : [])).sort((a, b) => a.cost - b.cost);
  const [left = 0, right = 1] = extent(points, ({ cost }) => cost);
  const [low = 0, high = 1] = extent(points, ({ density }) => density);
  const x = scaleLinear([left, right === left ? left + 1 : right], [MARGIN.left, Math.max(MARGIN.left + 1, width - MARGIN.right)]).nice(4);
  const y = scaleLinear([low, high === low ? low + 1 : high], [HEIGHT - MARGIN.bottom, MARGIN.top]).nice(4);
  return (
    <figure ref={ref} data-picture>
      {width > 0 && (
        <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} role="img" aria-label={words.crew.picture}>
          {y.ticks(4).map((tick) => (
            <g key={tick}><path class="hairline" d={`M${MARGIN.left},${y(tick)} H${width - MARGIN.right}`} /><text class="label label-quiet" x={MARGIN.left - 6} y={y(tick) + 4} text-anchor="end">{y.tickFormat(4)(tick)}</text></g>
          ))}
          {x.ticks(4).map((tick) => <text key={tick} class="label label-quiet middle" x={x(tick)} y={HEIGHT - 26}>{x.tickFormat(4)(tick)}</text>)}
          <text class="label label-quiet" x={0} y={12}>{textIn(units.value, figureLabel("dryDensity", reader()))}</text>
          <text class="label label-quiet" x={width - MARGIN.right} y={HEIGHT - 4} text-anchor="end">{figureLabel("costPerTonneFed", reader())}</text>
          {points.map(({ index, cost, density, who, often }, i) => {
            // By turns over and under, so that neighbours keep clear of each other; inwards at the edges.
            const up = i % 2 === 0;
            const at = x(cost);
            const anchor = at < MARGIN.left + LABEL ? "start" : at > width - MARGIN.right - LABEL ? "end" : "middle";
            return (
              <g key={index}>
                <circle class={index === chosen ? "plan-point plan-chosen" : "plan-point"} cx={at} cy={y(density)} r={index === chosen ? 7 : 5} />
                <text class="label" x={at} y={y(density) + (up ? -28 : 22)} text-anchor={anchor}>{who}</text>
                <text class="label label-quiet" x={at} y={y(density) + (up ? -12 : 38)} text-anchor={anchor}>{often}</text>
              </g>
            );
          })}
        </svg>
      )}
      <figcaption><p class="quiet">{words.crew.picture} {words.crew.key}</p></figcaption>
      <UnderPicture name={words.crew.front} head={head} rows={rows} />
    </figure>
  );
}

/** Who it takes, and on how many of 100 days it does. */
function labelOf({ trucks, tractors, chance }: CrewPlan): { readonly who: string; readonly often: string } {
  const counts = [...(trucks === null ? [] : [trucks]), ...(tractors === null ? [] : [tractors.reduce((sum, { count }) => sum + count, 0)])];
  return { who: counts.join(" + "), often: `${Math.round(100 * chance.share)}/100` };
}
