/** The main measures of all plans, each with what the model leaves open, and what its difference to the first is worth. */
import { useSignal, type Signal } from "@preact/signals";
import { Fragment } from "preact";
import { displayUnit, formatNumber, inDisplayUnit, type UnitSystem } from "../../sim/scenario/units.ts";
import type { Comparison } from "../../sim/study/compare.ts";
import { MEASURE_WORDS, measureNumber, measureUnit } from "../../sim/findings/words.ts";
import { inEnglish } from "../english.ts";
import { Derivation } from "../page/Derivation.tsx";
import { number, printed, withMinus } from "../quantity.ts";
import { units } from "../state.ts";
import { words as common } from "../words.ts";
import { words } from "../words/beside.ts";
import { SIDE_MEASURES, sideBySide, type SideFigure, type SideMeasure, type SideRow } from "./side.ts";
import type { Ready } from "./shown.ts";

export function SideTable({ plans, comparison }: { readonly plans: readonly Ready[]; readonly comparison: Comparison | null }) {
  const [first, ...others] = plans as readonly [Ready, ...Ready[]];
  const system = units.value;
  const open = useSignal<SideMeasure | null>(null);
  const rows = others.map(({ run }, i) => sideBySide(run.findings, first.run.findings, comparison?.differences[i]?.figures ?? null));
  const money = [...new Set(plans.map(({ run }) => run.findings.money.currency))].join(", ");
  return (
    <section class="side" aria-labelledby="side-table">
      <h2 id="side-table">{words.table}</h2>
      <div class="scroll" tabIndex={0} role="group" aria-label={words.table}>
        <table>
          <thead>
            <tr>
              <th scope="col" class="left">{words.measure}</th>
              {plans.map(({ letter, name, run }) => <th scope="col" key={letter}><span class="letter">{letter}</span> {name}<span class="quiet block">{words.days(run.findings.rehearsals)}</span></th>)}
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row" class="left">{words.keepsPace}<span class="quiet block">{words.of100}</span></th>
              {plans.map(({ letter, run }) => <td key={letter}>{run.findings.rehearsals === 1 ? words.onTheDay(run.findings.verdict.keepsPace) : Math.round(100 * run.findings.verdict.chance)}</td>)}
            </tr>
            {SIDE_MEASURES.map((measure, m) => (
              <Fragment key={measure}>
                <tr>
                  <th scope="row" class="left"><Label measure={measure} open={open} /><span class="quiet block">{unitOf(measure, system, money)}</span></th>
                  <td><Figure measure={measure} told={rows[0]![m]!.other} system={system} /></td>
                  {rows.map((row, i) => <td key={i}><Figure measure={measure} told={row[m]!.now} system={system} /><Worth row={row[m]!} system={system} /></td>)}
                </tr>
                {open.value === measure && <tr class="derived"><td class="left" id={FROM} colSpan={plans.length + 1}><From plans={plans} measure={measure} unit={unitOf(measure, system, money)} system={system} /></td></tr>}
              </Fragment>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

/** Id of what is opened under a row. */
const FROM = "side-from";

/** The measure's name; it opens where the figures come from, one measure at a time. */
function Label({ measure, open }: { readonly measure: SideMeasure; readonly open: Signal<SideMeasure | null> }) {
  if (measure === "coverArea") return <>{labelOf(measure)}</>;
  const isOpen = open.value === measure;
  return <button type="button" class="plain to-derivation" aria-expanded={isOpen} aria-controls={isOpen ? FROM : undefined} onClick={() => { open.value = isOpen ? null : measure; }}>{labelOf(measure)}</button>;
}

export const labelOf = (measure: SideMeasure): string => (measure === "coverArea" ? words.cover : inEnglish(MEASURE_WORDS[measure].label));

/** Where a figure comes from, in each plan. */
function From({ plans, measure, unit, system }: { readonly plans: readonly Ready[]; readonly measure: SideMeasure; readonly unit: string; readonly system: UnitSystem }) {
  if (measure === "coverArea") return null;
  return (
    <div class="froms">
      {plans.map(({ letter, run: { findings: { sources, measures } } }) => {
        const [source, told] = [sources[measure], measures[measure]];
        return <div class="derivation" key={letter}><h3>{letter}</h3>{source && told ? <Derivation name={measure} source={source} said={`${say(measure, told.mean, system)} ${unit}`.trim()} /> : <p>{common.figures.noDerivation}</p>}</div>;
      })}
    </div>
  );
}

function Figure({ measure, told, system }: { readonly measure: SideMeasure; readonly told: SideFigure | null; readonly system: UnitSystem }) {
  if (told === null) return null;
  return <>{say(measure, told.value, system)}{told.range && <span class="quiet block">{common.figures.range(say(measure, told.range[0], system), say(measure, told.range[1], system))}</span>}</>;
}

/** The difference to the first plan with its limits, and why it may say little. */
function Worth({ row: { measure, difference, limits, within, now, other }, system }: { readonly row: SideRow; readonly system: UnitSystem }) {
  if (difference === null) return now && other ? <span class="quiet block">{words.otherMoney}</span> : null;
  const sign = (value: number) => signed(say(measure, value, system));
  const [low, high] = limits === null ? ["", ""] : [sign(limits[0]), sign(limits[1])];
  // By luck alone, and rounded to nothing: no figure is left to show.
  if (!/[1-9]/.test(within === "luck" ? sign(difference) : sign(difference) + low + high)) return <span class="worth quiet block">{words.same}</span>;
  return (
    <span class="worth block">
      <strong>{sign(difference)}</strong>
      {low !== high && <span class="quiet nowrap"> {common.figures.range(low, high)}</span>}
      {within !== null && <span class="quiet block">{words.within[within]}</span>}
    </span>
  );
}

function unitOf(measure: SideMeasure, system: UnitSystem, money: string): string {
  if (measure === "coverArea") return printed(displayUnit("surface", system));
  const unit = measureUnit(measure, system);
  return printed(unit.startsWith("per ") ? `${money} ${unit}` : unit);
}

export function say(measure: SideMeasure, value: number, system: UnitSystem): string {
  if (measure === "coverArea") return formatNumber(inDisplayUnit(value, "surface", system), 0);
  return measure === "dryDensity" ? number(value, "density", system) : measureNumber(measure, value, system);
}

/** With its sign; what rounds to nothing has none. */
function signed(text: string): string {
  if (!/[1-9]/.test(text)) return text.replace("-", "");
  return text.startsWith("-") ? withMinus(text) : `+${text}`;
}
