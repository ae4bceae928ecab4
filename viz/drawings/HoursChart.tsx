/** Hours by state for each machine: a bar a machine, work, driving, waiting and rest told apart by texture, each state by a cut and its name. */
import { max, scaleLinear } from "d3";
import type { MachineFinding } from "../../sim/findings/types.ts";
import type { MachineState } from "../../sim/harvest/daylog.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { machinePointed } from "../pointing.ts";
import { STATE_WORDS, words } from "../words.ts";
import { pictures } from "../words/pictures.ts";

export type HourKind = "work" | "move" | "wait" | "off";
const KINDS: readonly HourKind[] = ["work", "move", "wait", "off"];
const KIND_OF: Readonly<Record<MachineState, HourKind>> = {
  cutting: "work", filling: "work", tipping: "work", weighing: "work", pushing: "work", rolling: "work",
  turning: "move", changeover: "move", moving: "move", "loaded-road": "move", "empty-road": "move",
  waiting: "wait", "in-line": "wait", lane: "wait", "scale-line": "wait", "place-line": "wait", "room-wait": "wait", standing: "wait",
  broken: "off", break: "off",
};

/** States under this many hours are not drawn. */
const LEAST = 0.005;

/** More machines than this get low bars without words in them. */
const MANY = 16;

/** px */
const AXIS = 24;
const LETTER = 6.9;

export interface Part { readonly state: MachineState; readonly hours: number; readonly kind: HourKind; readonly from: number }

/** What a machine did, in the order of the textures, longest first in each. */
export function partsOf({ hours }: MachineFinding): Part[] {
  const states = (Object.entries(hours) as [MachineState, number][]).filter(([, spent]) => spent >= LEAST);
  let from = 0;
  return states.map(([state, spent]) => ({ state, hours: spent, kind: KIND_OF[state] }))
    .sort((a, b) => KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind) || b.hours - a.hours)
    .map((part) => {
      const placed = { ...part, from };
      from += part.hours;
      return placed;
    });
}

export const wholeOf = (machine: MachineFinding): number => partsOf(machine).reduce((sum, { hours }) => sum + hours, 0);

interface HoursProps { readonly machines: readonly MachineFinding[]; readonly width: number }

export function HoursChart({ machines, width }: HoursProps) {
  const many = machines.length > MANY;
  const longestName = Math.max(...machines.map(({ name }) => name.length)) * LETTER + 16;
  const above = longestName > width * 0.3;
  const bar = many ? 12 : 20;
  const row = above ? bar + 24 : bar + (many ? 6 : 8);
  const left = above ? 0 : longestName;
  const longest = max(machines, wholeOf) ?? 1;
  const x = scaleLinear([0, longest], [left, width - 8]);
  const height = machines.length * row + AXIS + 4;
  const pointed = machinePointed();
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={pictures.hours.summary(machines.length, words.machines.hours(formatNumber(longest, 1)))}>
      {machines.map((machine, i) => {
        const y = i * row + (above ? 20 : 2);
        return (
          <g key={i} data-machine={i} class={`row-${machine.kind}`}>
            <rect class="hit" x={0} y={i * row} width={width} height={row} />
            <text class={i === pointed ? "label label-strong" : "label"} x={0} y={above ? y - 5 : y + bar / 2 + 5}>{machine.name}</text>
            {partsOf(machine).map(({ state, hours, kind, from }) => {
              const [at, wide] = [x(from), x(from + hours) - x(from)];
              const spent = formatNumber(hours, 1);
              const said = [`${STATE_WORDS[state]} ${spent}`, spent].find((text) => text.length * LETTER + 8 < wide);
              return (
                <g key={state}>
                  <rect class={`part part-${kind}`} x={at} y={y} width={Math.max(0.5, wide)} height={bar} />
                  {!many && said !== undefined && <text class={`label in-part in-${kind}`} x={at + 5} y={y + bar / 2 + 5}>{said}</text>}
                </g>
              );
            })}
            {i === pointed && <rect class="outline" x={left + 1} y={y - 1.5} width={x(wholeOf(machine)) - left - 1} height={bar + 3} />}
          </g>
        );
      })}
      {x.ticks(width < 480 ? 4 : 8).map((tick) => (
        <g key={tick}>
          <path class="tick" d={`M${x(tick)},${height - AXIS} v5`} />
          <text class="label label-quiet middle" x={Math.min(width - 14, Math.max(8, x(tick)))} y={height - 4}>{tick === 0 ? `0 ${pictures.hours.h}` : tick}</text>
        </g>
      ))}
    </svg>
  );
}
