/** Lifts where they lie in the long section, each in the colour of its density, hatched where it is under target. */
import { outlineOf, sectionOf, thicknessOf, type Polygon } from "../clamp.ts";
import { classOf, type ClampStory } from "../lifts.ts";

interface LiftsProps {
  readonly story: ClampStory;
  /** so many of them, the oldest first */ readonly count: number;
  /** px a metre lengthwise, and upwards */ readonly m: number;
  readonly up: number;
  outline(polygon: Polygon): string | null;
}

/** px of ink between two lifts, at the most. */
const LINE = 0.6;
/** Of many thin lifts the lines alone would make a dark heap, and dark stands for dense: they take this share of a lift at the most. */
const SHARE = 0.1;

export function Lifts({ story: { layout, stored }, count, m, up, outline }: LiftsProps) {
  const drawn = Array.from({ length: count }, (_, i) => `${outline(outlineOf(layout, i)) ?? ""}Z`);
  const classes = drawn.map((_, i) => classOf(stored.densities[i]!));
  const hatched = (dark: boolean) => drawn.filter((_, i) => stored.under[i] && classes[i]! >= 4 === dark).join("");
  const [light, dark] = [hatched(false), hatched(true)];
  return (
    <>
      {drawn.map((d, i) => <path key={i} class={`lift class-${classes[i]!}`} d={d} />)}
      {light !== "" && <path class="hatch" d={light} fill="url(#under-light)" />}
      {dark !== "" && <path class="hatch" d={dark} fill="url(#under-dark)" />}
      {count > 0 && <path class="lift-lines" d={drawn.join("")} stroke-width={Math.min(LINE, SHARE * thicknessOf(layout, count, m, up))} />}
      {count > 0 && <path class="lift-edge" d={`${outline(sectionOf(layout, count)) ?? ""}Z`} />}
    </>
  );
}
