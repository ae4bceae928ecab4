/** Every storage of every plan, across and lengthwise, drawn with one and the same metre: a bunker beside a pile as they would stand in the yard. */
import type { Storage } from "../../sim/scenario/types.ts";
import { TableTwin } from "../page/TableTwin.tsx";
import { number, quantity, unitName, type UnitSystem } from "../quantity.ts";
import { useWidth } from "../useWidth.ts";
import { words } from "../words/beside.ts";
import type { Shown } from "./shown.ts";

/** px */
const LABELS = 44;
const GAP = 48;
const OVER = 26;

export function Scale({ plans, units }: { readonly plans: readonly Shown[]; readonly units: UnitSystem }) {
  const [ref, width] = useWidth<HTMLElement>();
  const storages = plans.flatMap(({ name, story, findings }) => story.scenario.storages.map((storage, s) => ({ plan: name, storage, stored: findings.storages[s] })));
  const widest = Math.max(...storages.map(({ storage }) => storage.width));
  const longest = Math.max(...storages.map(({ storage }) => storage.length));
  const perMetre = Math.max(0.5, (width - GAP - 2) / (widest + longest));
  const { title, lead, across, along, picture, forms, head, cover, filled, longAndHigh } = words.scale;
  return (
    <section aria-labelledby="scale">
      <h2 id="scale">{title}</h2>
      <p>{lead}</p>
      <figure ref={ref} data-picture>
        {width > 0 && storages.map(({ plan, storage, stored }, i) => {
          const rise = storage.height * perMetre;
          const ground = OVER + rise;
          const from = widest * perMetre + GAP;
          const length = (metres: number) => quantity(metres, "length", units);
          return (
            <div key={i} class="to-scale">
              <h3>{plan}{plan === storage.name ? "" : `, ${storage.name}`}</h3>
              <svg width={width} height={ground + LABELS} viewBox={`0 0 ${width} ${ground + LABELS}`} role="img"
                aria-label={picture(storage.name, forms[storage.form], length(storage.width), length(storage.length), quantity(storage.height, "length", units, 1))}>
                <path class={`place-${storage.form}`} d={acrossOf(storage, perMetre, ground)} />
                <path class={`place-${storage.form}`} d={alongOf(storage, perMetre, ground, from)} />
                <path class="stroke-ink" d={`M0,${ground} H${storage.width * perMetre} M${from},${ground} H${from + storage.length * perMetre}`} />
                <text class="label" x={0} y={ground + 18}>{length(storage.width)}</text>
                <text class="label label-quiet" x={0} y={ground + 36}>{across}</text>
                <text class="label" x={from} y={ground + 18}>{longAndHigh(length(storage.length), quantity(storage.height, "length", units, 1))}</text>
                <text class="label label-quiet" x={from} y={ground + 36}>{along}</text>
              </svg>
              {stored && <p class="quiet">{quantity(stored.coverArea, "surface", units)} {cover}; {quantity(stored.dryT * 1000, "mass", units)} {filled}</p>}
            </div>
          );
        })}
        <TableTwin name={title} inWords={[0, 1, 2]} head={head.map((text, i) => (i >= 3 && i <= 5 ? `${text}, ${unitName("length", units)}` : i === 6 ? `${text}, ${unitName("surface", units)}` : i === 7 ? `${text}, ${unitName("mass", units)}` : text))}
          rows={() => storages.map(({ plan, storage, stored }) => [
            plan, storage.name, forms[storage.form], number(storage.width, "length", units), number(storage.length, "length", units), number(storage.height, "length", units, 1),
            stored ? number(stored.coverArea, "surface", units) : "", stored ? number(stored.dryT * 1000, "mass", units) : "",
          ])} />
      </figure>
    </section>
  );
}

/** A box with walls, or a body that slopes on both sides. */
function acrossOf({ form, width, height, topWidth, sideSlope }: Storage, m: number, ground: number): string {
  const top = ground - height * m;
  if (form === "bunker") return `M0,${ground} V${top} H${width * m} V${ground}`;
  const run = topWidth === null ? Math.min(width / 2, height * sideSlope) : (width - topWidth) / 2;
  return `M0,${ground} L${run * m},${top} H${(width - run) * m} L${width * m},${ground}`;
}

/** From the front, where the wedge slopes, to the back: a wall, or the pile's own slope. */
function alongOf({ form, length, height, wedge, sideSlope }: Storage, m: number, ground: number, x: number): string {
  const top = ground - height * m;
  const front = Math.min(length / 2, height * wedge);
  const back = form === "bunker" ? 0 : Math.min(length / 2, height * sideSlope);
  return `M${x},${ground} L${x + front * m},${top} H${x + (length - back) * m} L${x + length * m},${ground}`;
}
