/** Hours of each machine by what it did: a bar of its day, and the figures. */
import type { MachineState } from "../../sim/harvest/daylog.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { quantity } from "../quantity.ts";
import { findings, units } from "../state.ts";
import { STATE_WORDS, words } from "../words.ts";

/** What is work, what is the road, what is standing: three textures that do without colour. */
const WORK: ReadonlySet<string> = new Set(["cutting", "filling", "tipping", "weighing", "pushing", "rolling"]);
const MOVE: ReadonlySet<string> = new Set(["turning", "changeover", "moving", "loaded-road", "empty-road", "lane"]);

export function Machines() {
  const answer = findings.value;
  if (!answer) return null;
  return (
    <section aria-labelledby="machines">
      <h2 id="machines">{words.machines.title}</h2>
      <div class="scroll" tabIndex={0} role="group" aria-label={words.machines.title}>
        <table class="machines">
          <thead><tr><th scope="col" class="left">{words.machines.head.machine}</th><th scope="col">{words.machines.head.loads}</th><th scope="col" class="left">{words.machines.head.share}</th><th scope="col" class="left">{words.machines.head.hours}</th></tr></thead>
          <tbody>
            {answer.machines.map((machine, i) => {
              const states = Object.entries(machine.hours).filter(([, hours]) => hours >= 0.005).sort(([, a], [, b]) => b - a);
              const whole = states.reduce((sum, [, hours]) => sum + hours, 0);
              return (
                <tr key={i} class={i > 0 && answer.machines[i - 1]!.kind !== machine.kind ? "new-group" : ""}>
                  <th scope="row" class="left">{machine.name}</th>
                  <td>{machine.loads >= 0.5 ? formatNumber(machine.loads, 0) : ""}</td>
                  <td class="left bar-cell" aria-hidden="true"><Bar states={states} whole={whole} /></td>
                  <td class="left">{states.map(([state, hours]) => <span class="input" key={state}>{STATE_WORDS[state as MachineState] ?? state} <span class="nowrap">{words.machines.hours(formatNumber(hours, 1))}</span></span>)}{machine.tonnes > 0.5 && <span class="input">{quantity(machine.tonnes * 1000, "mass", units.value)}</span>}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function Bar({ states, whole }: { readonly states: readonly (readonly [string, number])[]; readonly whole: number }) {
  const kindOf = (state: string) => (WORK.has(state) ? "work" : MOVE.has(state) ? "move" : "stand");
  let x = 0;
  const sums = (["work", "move", "stand"] as const).map((kind) => [kind, states.filter(([state]) => kindOf(state) === kind).reduce((sum, [, hours]) => sum + hours, 0)] as const);
  return (
    <svg width="120" height="14" focusable="false" aria-hidden="true">
      {sums.map(([kind, hours]) => {
        const width = whole > 0 ? (hours / whole) * 120 : 0;
        const rect = <rect key={kind} class={`part-${kind}`} x={x} y={1} width={width} height={12} />;
        x += width;
        return rect;
      })}
    </svg>
  );
}
