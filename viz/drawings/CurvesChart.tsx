/** Tonnes tipped and tonnes laid over the day; upright between the two lines stands what waits, level between them for how long. */
import { area, line, max, scaleLinear, type ScaleLinear } from "d3";
import { useMemo } from "preact/hooks";
import { gapAt, heightAt, type CurvePoint, type Curves } from "../curves.ts";
import { clock, quantity, shownIn, span, unitName, type UnitSystem } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";
import { seen } from "../state.ts";
import { words } from "../words.ts";
import { pictures } from "../words/pictures.ts";
import { LETTER } from "./letter.ts";
import { MARGINS, TimeFrame, rowsOf, timeScale } from "./TimeFrame.tsx";

const HEIGHT = 264;

interface CurvesProps { readonly rehearsed: Rehearsed; readonly units: UnitSystem; readonly width: number }

export function CurvesChart({ rehearsed, units, width }: CurvesProps) {
  const { tipped, packed } = rehearsed.curves;
  const x = timeScale(rehearsed, width);
  const shown = (kg: number) => shownIn(kg, "mass", units);
  const y = scaleLinear([0, shown(tipped.at(-1)!.mass) || 1], [HEIGHT - MARGINS.bottom, MARGINS.top]).nice(4);
  const px = ({ time: t }: CurvePoint) => x(t);
  const py = ({ mass }: CurvePoint) => y(shown(mass));

  const still = useMemo(() => {
    const bends = [...new Set([...tipped, ...packed].map((point) => point.time))].sort((a, b) => a - b);
    const between = area<number>().x((t) => x(t)).y0((t) => y(shown(heightAt(packed, t)))).y1((t) => y(shown(heightAt(tipped, t))))(bends) ?? "";
    const drawn = line<CurvePoint>().x(px).y(py);
    return (
      <g>
        <path class="between" d={between} fill="url(#between)" />
        <path class="curve curve-tipped" d={drawn(tipped) ?? ""} />
        <path class="curve curve-packed" d={drawn(packed) ?? ""} />
      </g>
    );
  }, [rehearsed, units, width]);

  const widest = useMemo(() => max(tipped, (point) => point.mass - heightAt(packed, point.time)) ?? 0, [rehearsed]);
  const when = tipped.find((point) => point.mass - heightAt(packed, point.time) >= widest)!.time;
  return (
    <TimeFrame rehearsed={rehearsed} width={width} height={HEIGHT} rows={rowsOf(y)} unit={unitName("mass", units)}
      label={words.curves.summary(quantity(tipped.at(-1)!.mass, "mass", units), quantity(widest, "mass", units), clock(when))}>
      {still}
      <Gap curves={rehearsed.curves} x={x} y={(kg) => y(shown(kg))} units={units} width={width} />
    </TimeFrame>
  );
}

interface GapProps { readonly curves: Curves; readonly x: ScaleLinear<number, number>; readonly y: (kg: number) => number; readonly units: UnitSystem; readonly width: number }

/** The gap at the time one looks at, named both ways, and the names of the curves where it leaves room for them. */
function Gap({ curves, x, y, units, width }: GapProps) {
  const { tipped, packed } = curves;
  const at = seen.value;
  const { mass, ago } = gapAt(curves, at);
  const laid = heightAt(packed, at);
  const [cx, low, high] = [x(at), y(laid), y(laid + mass)];
  const then = x(at - ago);
  // The curves rise: above them to the left and below them to the right there is always room. Their names keep away from the time one looks at.
  const early = laid < packed.at(-1)!.mass * 0.45;
  const named = (points: readonly CurvePoint[], share: number) => points.find((point) => point.mass >= points.at(-1)!.mass * share) ?? points.at(-1)!;
  const [up, down] = [named(tipped, early ? 0.88 : 0.22), named(packed, early ? 0.72 : 0.12)];
  const waits = pictures.curves.waiting(quantity(mass, "mass", units));
  const behind = pictures.curves.ago(span(ago));
  const room = cx - MARGINS.left > waits.length * LETTER;
  return (
    <g>
      <text class="label label-tipped" x={x(up.time) - 8} y={y(up.mass) - 2} text-anchor="end">{words.curves.tipped}</text>
      <text class="label label-packed" x={x(down.time) + 10} y={y(down.mass) + 14}>{words.curves.packed}</text>
      {mass > 0 && low - high > 1 && (
        <>
          <path class="gap" d={`M${cx.toFixed(1)},${high.toFixed(1)} V${low.toFixed(1)}`} />
          <text class="label label-strong" x={room ? cx - 8 : cx + 8} y={Math.max(MARGINS.top - 6, high - 8)} text-anchor={room ? "end" : "start"}>{waits}</text>
        </>
      )}
      {mass > 0 && cx - then > 4 && (
        <>
          <path class="gap" d={`M${then.toFixed(1)},${low.toFixed(1)} H${cx.toFixed(1)} M${then.toFixed(1)},${(low - 4).toFixed(1)} v8`} />
          <text class="label label-strong" x={cx + 8 + behind.length * LETTER < width ? cx + 8 : cx - 8} y={low + 18} text-anchor={cx + 8 + behind.length * LETTER < width ? "start" : "end"}>{behind}</text>
        </>
      )}
      <circle class="dot dot-tipped" cx={cx} cy={high} r={4} />
      <circle class="dot dot-packed" cx={cx} cy={low} r={4} />
    </g>
  );
}
