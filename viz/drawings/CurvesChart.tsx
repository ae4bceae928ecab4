/** Tonnes tipped and tonnes laid over the day; what lies between the two lines lies on the apron. */
import { area, line, max, scaleLinear } from "d3";
import { useMemo } from "preact/hooks";
import { heightAt, type CurvePoint } from "../curves.ts";
import { clock, quantity, shownIn, unitName, type UnitSystem } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";
import { words } from "../words.ts";
import { MARGINS, TimeCursor, TimeFrame, timeScale } from "./TimeFrame.tsx";

const HEIGHT = 232;

interface CurvesProps { readonly rehearsed: Rehearsed; readonly time: number; readonly units: UnitSystem; readonly width: number }

export function CurvesChart({ rehearsed, time, units, width }: CurvesProps) {
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
    const half = tipped.find((point) => point.mass >= tipped.at(-1)!.mass * 0.62) ?? tipped.at(-1)!;
    const low = packed.find((point) => point.mass >= packed.at(-1)!.mass * 0.4) ?? packed.at(-1)!;
    return (
      <g>
        <path class="between" d={between} fill="url(#between)" />
        <path class="curve curve-tipped" d={drawn(tipped) ?? ""} />
        <path class="curve curve-packed" d={drawn(packed) ?? ""} />
        <text class="label label-tipped" x={px(half) - 8} y={py(half)} text-anchor="end">{words.curves.tipped}</text>
        <text class="label label-packed" x={px(low) + 10} y={py(low) + 12}>{words.curves.packed}</text>
      </g>
    );
  }, [rehearsed, units, width]);

  const widest = useMemo(() => max(tipped, (point) => point.mass - heightAt(packed, point.time)) ?? 0, [rehearsed]);
  const when = tipped.find((point) => point.mass - heightAt(packed, point.time) >= widest)!.time;
  return (
    <TimeFrame rehearsed={rehearsed} width={width} height={HEIGHT} y={y} unit={unitName("mass", units)}
      label={words.curves.summary(quantity(tipped.at(-1)!.mass, "mass", units), quantity(widest, "mass", units), clock(when))}>
      {still}
      <TimeCursor x={x(time)} height={HEIGHT} />
      <circle class="dot dot-tipped" cx={x(time)} cy={y(shown(heightAt(tipped, time)))} r={4} />
      <circle class="dot dot-packed" cx={x(time)} cy={y(shown(heightAt(packed, time)))} r={4} />
    </TimeFrame>
  );
}
