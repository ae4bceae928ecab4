/** Every storage of every plan, across and lengthwise, drawn with one and the same metre, with the lifts of the day in it: a bunker beside a pile as they would stand in the yard. */
import { line } from "d3";
import { formatNumber } from "../../sim/scenario/units.ts";
import type { StorageFinding } from "../../sim/findings/types.ts";
import type { Storage } from "../../sim/scenario/types.ts";
import type { Point } from "../clamp.ts";
import { DensityLegend } from "../drawings/DensityLegend.tsx";
import { Downloads } from "../drawings/Downloads.tsx";
import { Lifts } from "../drawings/Lifts.tsx";
import { classOf, type ClampStory } from "../lifts.ts";
import { CAUTIONS_OF_STORAGE } from "../derived.ts";
import { CautionsHere } from "../page/Reasons.tsx";
import { number, printed, quantity, unitName, type UnitSystem } from "../quantity.ts";
import { units } from "../state.ts";
import { ON_PAPER, useWidth } from "../useWidth.ts";
import { words as common } from "../words.ts";
import { words } from "../words/beside.ts";
import type { Ready } from "./shown.ts";
import { layScale, type Placed } from "./layscale.ts";

interface Stood { readonly plan: Ready; readonly storage: Storage; readonly story: ClampStory; readonly found: StorageFinding }

export function Scale({ plans }: { readonly plans: readonly Ready[] }) {
  const [ref, width] = useWidth<HTMLElement>(ON_PAPER.whole);
  const system = units.value;
  const stood = plans.flatMap((plan): Stood[] => plan.run.story.scenario.storages.map((storage, s) => ({ plan, storage, story: plan.run.story.clamps[s]!, found: plan.run.findings.storages[s]! })));
  const { title, lead } = words.scale;
  const head = [...words.scale.head, ...stood.map((each) => nameOf(each, stood))];
  const rows = () => tableOf(stood, system);
  return (
    <section aria-labelledby="scale">
      <h2 id="scale">{title}</h2>
      <p>{lead}</p>
      <figure ref={ref} data-picture>
        {width > 0 && <Drawn stood={stood} width={width} system={system} />}
        <DensityLegend target={plans[0]!.run.story.scenario.targets.dryDensity} unit={unitName("density", system)} units={system} />
        <div class="scroll" tabIndex={0} role="group" aria-label={title}>
          <table>
            <thead><tr>{head.map((text, i) => <th key={i} scope="col" class={i < 2 ? "left" : ""}>{text}</th>)}</tr></thead>
            <tbody>{rows().map(([what, ...cells]) => <tr key={what}><th scope="row" class="left">{what}</th>{cells.map((text, i) => <td key={i} class={i === 0 ? "left" : ""}>{text}</td>)}</tr>)}</tbody>
          </table>
        </div>
        <Downloads name={title} head={head} rows={rows} />
        {plans.map(({ letter, run }) => <div class="its-cautions" key={letter}><strong class="letter">{letter}</strong> <CautionsHere ids={CAUTIONS_OF_STORAGE} of={run.findings} /></div>)}
      </figure>
    </section>
  );
}

/** The plan's letter and name; the storage's own as well where a plan has several. */
function nameOf({ plan, storage }: Stood, all: readonly Stood[]): string {
  return `${plan.letter} ${all.filter((other) => other.plan === plan).length > 1 ? `${plan.name}, ${storage.name}` : plan.name}`;
}

function Drawn({ stood, width, system }: { readonly stood: readonly Stood[]; readonly width: number; readonly system: UnitSystem }) {
  const { places, height, times } = layScale(width, stood.map(({ storage, story }) => ({ width: storage.width, length: Math.max(storage.length, story.layout.body.toe), height: Math.max(storage.height, story.layout.body.top) })));
  const metres = (value: number, digits = 0) => quantity(value, "length", system, digits);
  const { picture, forms, across, along, times: said } = words.scale;
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img"
      aria-label={stood.map(({ plan, storage }) => picture(`${plan.letter} ${plan.name}, ${storage.name}`, forms[storage.form], metres(storage.width), metres(storage.length), metres(storage.height, 1))).join(" ")}>
      {stood.map((each, i) => {
        const { storage, story } = each;
        const place = places[i]!;
        return (
          <g key={i}>
            <text class="head" x={0} y={place.title}>{nameOf(each, stood)}</text>
            <Across storage={storage} story={story} place={place} />
            <Measured from={0} until={storage.width * place.m} y={place.across.ground} said={`${metres(storage.width)} ${across}`} />
            <Along storage={storage} story={story} place={place} />
            <Measured from={place.along.x} until={place.along.x + storage.length * place.m} y={place.along.ground} said={`${metres(storage.length)} ${along}, ${metres(storage.height, 1)} ${words.scale.high}`} />
          </g>
        );
      })}
      <text class="label label-quiet" x={0} y={height - 6}>{said(times)}</text>
    </svg>
  );
}

/** A length with its ends, and what it is. */
function Measured({ from, until, y, said }: { readonly from: number; readonly until: number; readonly y: number; readonly said: string }) {
  return <><path class="tick" d={`M${from + 0.5},${y + 6} V${y + 14} M${from + 0.5},${y + 10} H${until} M${until - 0.5},${y + 6} V${y + 14}`} /><text class="label" x={from} y={y + 30}>{said}</text></>;
}

/** From side to side where it is highest: what lies, and the walls or the planned outline. */
function Across({ storage: { form, width, height, sideSlope }, story: { layout: { body }, stored }, place: { m, up, across: { ground } } }: { readonly storage: Storage; readonly story: ClampStory; readonly place: Placed }) {
  const outline = (top: number) => {
    const run = Math.min(width / 2, top * sideSlope);
    return `M0,${ground} L${run * m},${ground - top * up} H${(width - run) * m} L${width * m},${ground}`;
  };
  const mean = stored.volume > 0 ? stored.dryMass / stored.volume : 0;
  return (
    <>
      <path class={`swatch class-${classOf(mean)}`} d={`${outline(body.top)}Z`} />
      {form === "bunker" ? <path class="wall" d={`M2,${ground} V${ground - height * up} M${width * m - 2},${ground} V${ground - height * up}`} /> : <path class="limit" d={outline(height)} />}
      <path class="ground" d={`M0,${ground} H${width * m}`} />
    </>
  );
}

/** Lengthwise, the front on the left and the back on the right, lift by lift. */
function Along({ storage: { form, length, height, sideSlope }, story, place: { m, up, along: { x, ground } } }: { readonly storage: Storage; readonly story: ClampStory; readonly place: Placed }) {
  const back = x + length * m;
  const path = line<Point>().x(([at]) => Math.round((back - at * m) * 10) / 10).y(([, high]) => Math.round((ground - high * up) * 10) / 10);
  return (
    <>
      <Lifts story={story} count={story.stored.lifts.length} m={m} up={up} outline={path} />
      <path class="limit" d={`M${x},${ground - height * up} H${back - sideSlope * height * m}`} />
      {form === "bunker" && <path class="wall" d={`M${back + 2},${ground} V${ground - height * up}`} />}
      <path class="ground" d={`M${x},${ground} H${back}`} />
    </>
  );
}

/** What there is to build, to cover and to lose, one column a storage. */
function tableOf(stood: readonly Stood[], system: UnitSystem): string[][] {
  const { rows, forms, full } = words.scale;
  const tonnes = (t: number) => number(t * 1000, "mass", system);
  const range = (low: number, high: number, say: (value: number) => string) => (say(low) === say(high) ? say(low) : `${say(low)} to ${say(high)}`);
  const money = [...new Set(stood.map(({ plan }) => plan.run.findings.money.currency))].join(", ");
  const row = (what: string, unit: string, of: (each: Stood) => string) => [what, printed(unit), ...stood.map(of)];
  const [metre, mass] = [unitName("length", system), unitName("mass", system)];
  const all = [
    row(rows.form, "", ({ storage }) => forms[storage.form]),
    row(rows.width, metre, ({ storage }) => number(storage.width, "length", system)),
    row(rows.length, metre, ({ storage }) => number(storage.length, "length", system)),
    row(rows.height, metre, ({ storage }) => number(storage.height, "length", system, 1)),
    row(rows.depth, metre, ({ found }) => number(found.meanDepth, "length", system, 1)),
    row(rows.filled, mass, ({ found }) => `${tonnes(found.filledT)}${found.full ? `, ${full}` : ""}`),
    row(rows.cover, unitName("surface", system), ({ found }) => number(found.coverArea, "surface", system)),
    row(rows.stored, `${mass} DM`, ({ found }) => tonnes(found.dryT)),
    row(rows.lost, `${mass} DM`, ({ found: { dryT, fedT } }) => `${tonnes(dryT - fedT.central)} (${range(dryT - fedT.high, dryT - fedT.low, tonnes)})`),
    row(rows.fed, `${mass} DM`, ({ found: { fedT } }) => `${tonnes(fedT.central)} (${range(fedT.low, fedT.high, tonnes)})`),
    row(rows.days, words.scale.daysUnit, ({ found: { feedOut } }) => (feedOut ? formatNumber(feedOut.daysOfFeed.central, 0) : "")),
    row(rows.advance, unitName("thickness", system), ({ found: { feedOut } }) => (feedOut ? `${number(feedOut.advance, "thickness", system)}${feedOut.advance < feedOut.minimum ? `, ${common.feedOut.slow}` : ""}` : "")),
    row(rows.least, unitName("thickness", system), ({ found: { feedOut } }) => (feedOut ? number(feedOut.minimum, "thickness", system) : "")),
    row(rows.capital, money, ({ storage }) => (storage.capitalCost > 0 ? formatNumber(storage.capitalCost, 0) : words.cost.none)),
  ];
  // Without a herd nothing is said of feeding it.
  return all.filter(([, , ...cells]) => cells.some((text) => text !== ""));
}
