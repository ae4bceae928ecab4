/** Every figure with its unit and spread; each opens to show where it comes from. */
import { MEASURE_GROUPS, MEASURE_WORDS } from "../../sim/findings/words.ts";
import type { Derivation, Measure, MeasureName } from "../../sim/findings/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import type { UnitSystem } from "../quantity.ts";
import { measureIn, textIn } from "../sentences.ts";
import { findings, units } from "../state.ts";
import { words } from "../words.ts";

export function Figures() {
  const answer = findings.value;
  if (!answer) return null;
  const one = answer.rehearsals === 1;
  return (
    <section class="figures" aria-labelledby="figures">
      <h2 id="figures">{words.figures.title}</h2>
      <p class="quiet">{one ? words.figures.noteOne : words.figures.note}</p>
      <div class="figure-head" aria-hidden="true">
        <span>{words.figures.head.figure}</span><span class="amount">{words.figures.head.mean}</span><span>{words.figures.head.unit}</span>{!one && <span class="most">{words.figures.head.most}</span>}
      </div>
      {MEASURE_GROUPS.map(([group, names]) => (
        <div class="figure-group" key={group}>
          <h3>{group}</h3>
          {names.map((name) => answer.measures[name] && <FigureRow key={name} name={name} measure={answer.measures[name]} source={answer.sources[name]} one={one} units={units.value} currency={answer.money.currency} />)}
        </div>
      ))}
    </section>
  );
}

/** Measures that are shares of one, printed in per cent. */
const SHARES: ReadonlySet<MeasureName> = new Set<MeasureName>(["poreSpace", "shareUnderTarget", "chopperWaiting", "chopperCutting", "chopperWaitingOnStorage", "packingIdle"]);

interface RowProps { readonly name: MeasureName; readonly measure: Measure; readonly source: Derivation | undefined; readonly one: boolean; readonly units: UnitSystem; readonly currency: string }

function FigureRow({ name, measure, source, one, units: system, currency }: RowProps) {
  const share = SHARES.has(name);
  const { unit, factor } = share ? { unit: "%", factor: 100 } : measureIn(system, measure.unit);
  const digits = name === "loads" ? 0 : digitsFor(Math.abs(measure.mean * factor), share);
  const say = (value: number) => formatNumber(value * factor, digits);
  return (
    <details class="figure-row">
      <summary>
        <span>{MEASURE_WORDS[name].label}{source?.outside && <em class="outside"> {words.figures.outsideShort}</em>}</span>
        <span class="amount">{say(measure.mean)}</span>
        <span class="unit">{unit.startsWith("per ") ? `${currency} ${unit}` : unit}</span>
        {!one && <span class="most">{words.figures.range(say(measure.p10), say(measure.p90))}</span>}
      </summary>
      <div class="derivation">
        {!one && <p>{words.figures.sureOf(say(measure.low), say(measure.high))}</p>}
        {source ? <DerivationList source={source} system={system} /> : <p>{words.figures.noDerivation}</p>}
      </div>
    </details>
  );
}

function DerivationList({ source, system }: { readonly source: Derivation; readonly system: UnitSystem }) {
  return (
    <dl>
      <dt>{words.figures.formula}</dt><dd>{textIn("metric", source.formula)}</dd>
      {Object.keys(source.inputs).length > 0 && <>
        <dt>{words.figures.inputs}</dt>
        <dd>{Object.entries(source.inputs).map(([input, value]) => <span class="input" key={input}>{input}: {textIn(system, value)}</span>)}</dd>
      </>}
      <dt>{words.figures.source}</dt><dd>{source.source}</dd>
      <dt>{words.figures.mark}</dt><dd>{source.mark}</dd>
      {source.range !== null && <><dt>{words.figures.measured}</dt><dd>{textIn(system, source.range)}{source.outside && <strong class="outside"> {words.figures.outside}</strong>}</dd></>}
    </dl>
  );
}

/** Three figures that count, no more than two decimals. */
function digitsFor(size: number, share: boolean): number {
  if (share) return size < 9.95 && size > 0 ? 1 : 0;
  return size >= 99.5 ? 0 : size >= 9.95 ? 1 : 2;
}
