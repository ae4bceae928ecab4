/** The main measures of all plans, each with what the model leaves open, and what its difference to the first is worth. */
import { displayUnit, formatNumber, inDisplayUnit, type UnitSystem } from "../../sim/scenario/units.ts";
import { MEASURE_WORDS, measureNumber, measureUnit } from "../../sim/findings/words.ts";
import { inEnglish } from "../english.ts";
import { number, printed } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { words as common } from "../words.ts";
import { words } from "../words/beside.ts";
import { SIDE_MEASURES, sideBySide, type SideFigure, type SideMeasure, type SideRow } from "./side.ts";
import type { Shown } from "./shown.ts";

export function SideTable({ plans }: { readonly plans: readonly Shown[] }) {
  const [first, ...others] = plans as readonly [Shown, ...Shown[]];
  const system = units.value;
  const rows = others.map(({ findings }) => sideBySide(findings, first.findings));
  const money = [...new Set(plans.map(({ findings }) => findings.money.currency))].join(", ");
  return (
    <section class="side" aria-label={words.title}>
      <div class="scroll" tabIndex={0} role="group" aria-label={words.title}>
        <table>
          <thead>
            <tr>
              <th scope="col" class="left">{words.head.measure}</th><th scope="col" class="left">{words.head.unit}</th>
              {plans.map(({ name, findings }) => <th scope="col" key={name}>{name}<span class="quiet block">{words.days(findings.rehearsals)}</span></th>)}
            </tr>
          </thead>
          <tbody>
            {SIDE_MEASURES.map((measure, m) => (
              <tr key={measure}>
                <th scope="row" class="left">{measure === "coverArea" ? common.side.cover : inEnglish(MEASURE_WORDS[measure].label)}</th>
                <td class="left">{printed(`${measure === "costPerTonneFed" ? `${money} ` : ""}${unitOf(measure, system)}`)}</td>
                <td>{figure(measure, rows[0]![m]!.other, system)}</td>
                {rows.map((row, i) => <td key={i}>{figure(measure, row[m]!.now, system)}<Worth row={row[m]!} system={system} /></td>)}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <dl class="verdicts">{plans.map(({ name, findings: { verdict } }) => <div key={name}><dt>{name}</dt><dd>{textIn(system, verdict.headline)}</dd></div>)}</dl>
    </section>
  );
}

function figure(measure: SideMeasure, told: SideFigure | null, system: UnitSystem) {
  if (told === null) return null;
  return <>{say(measure, told.value, system)}{told.range && <span class="quiet block">{common.figures.range(say(measure, told.range[0], system), say(measure, told.range[1], system))}</span>}</>;
}

/** The difference to the first plan, and why it may say little. */
function Worth({ row: { measure, difference, within, now, other }, system }: { readonly row: SideRow; readonly system: UnitSystem }) {
  if (difference === null) return now && other ? <span class="quiet block">{common.side.otherMoney}</span> : null;
  return (
    <span class="worth block">
      {difference === 0 ? common.side.same : <strong>{signed(say(measure, difference, system))}</strong>}
      {within !== null && <span class="quiet block">{common.side.within[within]}</span>}
    </span>
  );
}

const unitOf = (measure: SideMeasure, system: UnitSystem): string => (measure === "coverArea" ? displayUnit("surface", system) : measureUnit(measure, system));

function say(measure: SideMeasure, value: number, system: UnitSystem): string {
  if (measure === "coverArea") return formatNumber(inDisplayUnit(value, "surface", system), 0);
  return measure === "dryDensity" ? number(value, "density", system) : measureNumber(measure, value, system);
}

/** With its sign; what rounds to nothing has none. */
function signed(text: string): string {
  if (!/[1-9]/.test(text)) return text.replace("-", "");
  return text.startsWith("-") ? `\u2212${text.slice(1)}` : `+${text}`;
}
