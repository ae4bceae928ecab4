/** The six printed classes of density, loose to dense, with the target as a line between them. */
import { CLASS_BOUNDS } from "../lifts.ts";
import { number, type UnitSystem } from "../quantity.ts";
import { words } from "../words.ts";

/** Ends of the legend, kg DM/m3: one class's width beyond the outer bounds. */
const LOW = 128;
const HIGH = 320;
const STEP = 36;

export function DensityLegend({ target, unit, units }: { readonly target: number; readonly unit: string; readonly units: UnitSystem }) {
  const x = (density: number) => 8 + ((Math.min(HIGH, Math.max(LOW, density)) - LOW) / (HIGH - LOW)) * 6 * STEP;
  return (
    <figure class="legend">
      <figcaption>{words.legend.title(unit)}</figcaption>
      <svg width={6 * STEP + 16} height="58" viewBox={`0 0 ${6 * STEP + 16} 58`} aria-hidden="true" focusable="false">
        {[0, 1, 2, 3, 4, 5].map((k) => <rect key={k} class={`swatch class-${k}`} x={8 + k * STEP} y={20} width={STEP} height={16} />)}
        {CLASS_BOUNDS.map((bound) => <text key={bound} class="label label-quiet middle" x={x(bound)} y={52}>{number(bound, "density", units, 0)}</text>)}
        <path class="target" d={`M${x(target)},15 V40`} />
        <text class="label middle" x={Math.min(6 * STEP - 26, Math.max(40, x(target)))} y={11}>{words.legend.target(number(target, "density", units))}</text>
      </svg>
    </figure>
  );
}
