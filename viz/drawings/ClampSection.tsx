/** The clamp in long section, lift by lift, coloured by density; the tractors stand on the lift that is still rolled. */
import { line } from "d3";
import { useMemo } from "preact/hooks";
import type { StorageMoment, TractorMoment } from "../../sim/harvest/moment.ts";
import type { MachineDay } from "../../sim/harvest/daylog.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { frontOf, outlineOf, type Point } from "../clamp.ts";
import { quantity, type UnitSystem } from "../quantity.ts";
import { classOf, densityAfter, type ClampStory } from "../lifts.ts";
import type { Zone } from "../ground.ts";
import { words } from "../words.ts";
import { LETTER } from "./letter.ts";
import { Lifts } from "./Lifts.tsx";
import { Tractor } from "./Tractor.tsx";

interface ClampProps {
  readonly zone: Zone;
  readonly y: number;
  readonly scenario: Scenario;
  readonly story: ClampStory;
  readonly moment: StorageMoment;
  readonly tractors: readonly TractorMoment[];
  readonly machines: readonly MachineDay[];
  readonly units: UnitSystem;
  /** machine of the day that is marked */ readonly pointed?: number | null;
}

/** Room that the section may take above ground, px, and between it and the edge of its zone. */
const HIGHEST = 104;
const MARGIN = 10;
/** px from one tractor to the next, and more where what is written over them is longer. */
const TRACTOR_PITCH = 32;
/** px a metre lengthwise, and how many times that upwards. */
export function clampScale(zone: Zone, length: number, highest: number): { readonly perMetre: number; readonly times: number } {
  const perMetre = (zone.width - 2 * MARGIN) / length;
  return { perMetre, times: Math.max(1, Math.min(4, Math.floor(HIGHEST / (highest * perMetre)))) };
}

export function ClampSection({ zone, y, scenario, story, moment, tractors, machines, units, pointed = null }: ClampProps) {
  const storage = scenario.storages[story.storage]!;
  const { layout } = story;
  // More than the storage holds runs on past its end.
  const length = Math.max(storage.length, layout.body.toe);
  const { perMetre, times } = clampScale(zone, length, Math.max(storage.height, layout.body.top));
  const back = zone.x + zone.width - MARGIN;
  const sx = (x: number) => back - x * perMetre;
  const sz = (z: number) => y - z * perMetre * times;
  const outline = line<Point>().x(([x]) => Math.round(sx(x) * 10) / 10).y(([, z]) => Math.round(sz(z) * 10) / 10);

  const closed = moment.lifts - (moment.open >= 0 ? 1 : 0);
  const laid = useMemo(() => <Lifts story={story} count={closed} m={perMetre} up={perMetre * times} outline={outline} />, [story, closed, zone.x, zone.width, y]);

  const open = moment.open >= 0 ? moment.lifts - 1 : -1;
  const wallX = sx(0);
  const front = frontOf(layout, moment.lifts, moment.share);
  const massOf = (machine: number) => storage.tractors[machines[machine]!.index]!.mass;
  const massLabel = (machine: number) => (units === "metric" ? quantity(massOf(machine), "machineMass", units) : "");
  const pitch = Math.max(TRACTOR_PITCH, ...tractors.map(({ machine }) => massLabel(machine).length * LETTER + 4));
  return (
    <g>
      <path class="ground" d={`M${zone.x},${y} H${back}`} />
      {storage.form === "bunker"
        ? <path class="wall" d={`M${wallX + 2},${y} V${sz(storage.height)}`} />
        : null}
      <path class="limit" d={`M${sx(storage.length)},${sz(storage.height)} H${sx(storage.sideSlope * storage.height)}`} />
      <text class="label label-quiet" x={back} y={y + 18} text-anchor="end">
        {(storage.form === "bunker" ? words.strip.wall : words.strip.planned)(quantity(storage.height, "length", units, 1))}
      </text>
      {laid}
      {open >= 0 && <path class={`lift lift-open class-${classOf(densityAfter(story, scenario, open, moment.openShare))}`} d={`${outline(outlineOf(layout, open)) ?? ""}Z`} />}
      {moment.share > 0 && <path class={`lift lift-open class-${classOf(densityAfter(story, scenario, moment.lifts, 0))}`} d={`${outline(outlineOf(layout, moment.lifts, moment.share)) ?? ""}Z`} />}
      {front && tractors.map((tractor, i) => {
        const machine = machines[tractor.machine]!;
        if (tractor.state === null) return null;
        const [upper, toe] = front;
        const [x, z] = alongFront([sx(upper[0]), sz(upper[1])], [sx(toe[0]), sz(toe[1])], sx(0), i, tractors.length, pitch);
        return <Tractor key={tractor.machine} machine={tractor.machine} pointed={tractor.machine === pointed} x={x} y={z} mass={massOf(tractor.machine)} blade={machine.kind === "blade"} works={tractor.state === "rolling" || tractor.state === "pushing"} label={massLabel(tractor.machine)} />;
      })}
      <text class="label label-quiet" x={zone.x} y={y + 82}>{words.strip.scale(quantity(storage.length, "length", units), times)}</text>
    </g>
  );
}

/**
 * Places for tractors from the middle of the front slope upwards and on over the level top, or in front of its foot while there is no room yet;
 * where they stand along it the log does not say.
 */
function alongFront(upper: readonly [number, number], toe: readonly [number, number], back: number, i: number, count: number, pitch: number): readonly [number, number] {
  const run = upper[0] - toe[0];
  const whole = (count - 1) * pitch;
  const first = Math.min(toe[0] + Math.max(0, (run - whole) / 2) + 6, back - 14 - whole);
  const x = first + i * pitch;
  return [x, x <= toe[0] ? toe[1] : x >= upper[0] || run <= 0 ? upper[1] : toe[1] + ((upper[1] - toe[1]) * (x - toe[0])) / run];
}
