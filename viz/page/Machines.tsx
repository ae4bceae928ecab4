/** Hours of each machine by what it did: one picture, and its table. */
import type { MachineState } from "../../sim/harvest/daylog.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { HoursChart, partsOf, wholeOf } from "../drawings/HoursChart.tsx";
import { byKey } from "../keys.ts";
import { pointing } from "../pointing.ts";
import { number, unitName } from "../quantity.ts";
import { findings, units } from "../state.ts";
import { useWidth } from "../useWidth.ts";
import { STATE_WORDS, capital } from "../words.ts";
import { pictures } from "../words/pictures.ts";
import { WhereFrom } from "./Figures.tsx";
import { CautionsHere } from "./Reasons.tsx";
import { UnderPicture } from "./TableTwin.tsx";

export function Machines() {
  const [ref, width] = useWidth<HTMLElement>();
  const answer = findings.value;
  if (!answer) return null;
  const { machines } = answer;
  const { title, kinds, head } = pictures.hours;
  const states = [...new Set(machines.flatMap((machine) => partsOf(machine).map(({ state }) => state)))];
  const hours = (value: number | undefined) => (value === undefined || value < 0.005 ? "" : formatNumber(value, 1));
  return (
    <section aria-labelledby="machines" ref={ref} data-picture>
      <h2 id="machines">{title}</h2>
      <p class="quiet hour-kinds">{pictures.hours.mean(answer.rehearsals)} {(["work", "move", "wait", "off"] as const).map((kind) => <span class="kind" key={kind}><span class={`key key-part key-${kind}`} aria-hidden="true" />{kinds[kind]}</span>)}</p>
      {width > 0 && <div tabIndex={0} role="group" aria-label={title} aria-describedby="keys" onKeyDown={byKey} {...pointing}><HoursChart machines={machines} width={width} /></div>}
      <UnderPicture name={title} machines={machines.map((_, i) => i)}
        head={[head.machine, head.loads, `${head.tonnes}, ${unitName("mass", units.value)}`, head.whole, ...states.map((state) => `${capital(STATE_WORDS[state])}, h`)]}
        rows={() => machines.map((machine) => [
          machine.name, machine.loads >= 0.5 ? formatNumber(machine.loads, 0) : "", machine.tonnes > 0.5 ? number(machine.tonnes * 1000, "mass", units.value) : "",
          hours(wholeOf(machine)), ...states.map((state: MachineState) => hours(machine.hours[state])),
        ])} />
      <WhereFrom names={["chopperCutting", "chopperWaiting", "chopperWaitingOnStorage", "packingIdle"]} />
      <CautionsHere ids={["long-shift"]} />
    </section>
  );
}
