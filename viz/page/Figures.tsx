/** Every figure with its unit and spread; each opens to show where it comes from. */
import { MEASURE_GROUPS, MEASURE_WORDS } from "../../sim/findings/words.ts";
import type { Derivation as Source, Measure, MeasureName } from "../../sim/findings/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { CAUTIONS_AT, RESTS_ON } from "../derived.ts";
import { inEnglish } from "../english.ts";
import type { UnitSystem } from "../quantity.ts";
import { measureIn } from "../sentences.ts";
import { findings, units } from "../state.ts";
import { words } from "../words.ts";
import { pictures } from "../words/pictures.ts";
import { Derivation } from "./Derivation.tsx";
import { CautionsHere } from "./Reasons.tsx";

export function Figures() {
  const answer = findings.value;
  if (!answer) return null;
  const one = answer.rehearsals === 1;
  return (
    <section class="figures" aria-labelledby="figures">
      <h2 id="figures">{words.figures.title}</h2>
      <p class="quiet">{one ? words.figures.noteOne : words.figures.note} <span class="screen-only">{words.figures.open}</span></p>
      <div class="figure-head" aria-hidden="true">
        <span>{words.figures.head.figure}</span><span class="amount">{words.figures.head.mean}</span><span>{words.figures.head.unit}</span>{!one && <span class="most">{words.figures.head.most}</span>}
      </div>
      {MEASURE_GROUPS.map(([group, names]) => (
        <div class="figure-group" key={group}>
          <h3>{inEnglish(group)}</h3>
          {names.map((name) => answer.measures[name] && <FigureRow key={name} name={name} measure={answer.measures[name]} source={answer.sources[name]} one={one} units={units.value} currency={answer.money.currency} />)}
        </div>
      ))}
    </section>
  );
}

/** Measures that are shares of one, printed in per cent. */
const SHARES: ReadonlySet<MeasureName> = new Set<MeasureName>(["poreSpace", "shareUnderTarget", "chopperWaiting", "chopperCutting", "chopperWaitingOnStorage", "packingIdle"]);

/** How values of a measure are said, with as many digits as its mean deserves, and their unit. */
export function figureText(name: MeasureName, measure: Measure, system: UnitSystem, currency: string): { readonly unit: string; say(value: number): string } {
  const share = SHARES.has(name);
  const { unit, factor } = share ? { unit: "%", factor: 100 } : measureIn(system, measure.unit);
  const digits = name === "loads" ? 0 : digitsFor(Math.abs(measure.mean * factor), share);
  return { unit: unit.startsWith("per ") ? `${currency} ${unit}` : unit, say: (value) => formatNumber(value * factor, digits) };
}

interface RowProps { readonly name: MeasureName; readonly measure: Measure; readonly source: Source | undefined; readonly one: boolean; readonly units: UnitSystem; readonly currency: string }

function FigureRow({ name, measure, source, one, units: system, currency }: RowProps) {
  const { say, unit } = figureText(name, measure, system, currency);
  return (
    <details class="figure-row" id={idOf(name)}>
      <summary>
        <span>{inEnglish(MEASURE_WORDS[name].label)}{source?.outside && <em class="outside"> {words.figures.outsideShort}</em>}</span>
        <span class="amount">{say(measure.mean)}</span>
        <span class="unit">{unit}</span>
        {!one && <span class="most">{words.figures.range(say(measure.p10), say(measure.p90))}</span>}
      </summary>
      <div class="derivation">
        {!one && <p>{words.figures.sureOf(say(measure.low), say(measure.high))}</p>}
        {source ? <Derivation name={name} source={source} said={`${say(measure.mean)} ${unit}`.trim()}><Rests name={name} /></Derivation> : <p>{words.figures.noDerivation}</p>}
        <CautionsHere ids={CAUTIONS_AT[name] ?? []} />
      </div>
    </details>
  );
}

/** The figures that this one rests on, to be opened. */
function Rests({ name }: { readonly name: MeasureName }) {
  const rests = (RESTS_ON[name] ?? []).filter((other) => findings.value?.measures[other]);
  return rests.length === 0 ? null : <><dt>{pictures.from.rests}</dt><dd><FigureLinks names={rests} /></dd></>;
}

const idOf = (name: MeasureName): string => `figure-${name}`;

/** Opens a figure where it stands and goes there. The address behind the `#` is the page's memory, so this is no link. */
export function openFigure(name: MeasureName): void {
  const row = document.getElementById(idOf(name)) as HTMLDetailsElement | null;
  if (!row) return;
  row.open = true;
  row.scrollIntoView({ block: "center" });
  row.querySelector("summary")!.focus();
}

function FigureLinks({ names }: { readonly names: readonly MeasureName[] }) {
  return <>{names.map((name) => <button type="button" class="plain to-figure" key={name} onClick={() => openFigure(name)}>{inEnglish(MEASURE_WORDS[name].label)}</button>)}</>;
}

/** Under a picture: the figures that it shows, to be opened. */
export function WhereFrom({ names }: { readonly names: readonly MeasureName[] }) {
  const there = names.filter((name) => findings.value?.measures[name]);
  return there.length === 0 ? null : <p class="where-from">{pictures.from.title}: <FigureLinks names={there} /></p>;
}

/** Three figures that count, no more than two decimals. */
function digitsFor(size: number, share: boolean): number {
  if (share) return size < 9.95 && size > 0 ? 1 : 0;
  return size >= 99.5 ? 0 : size >= 9.95 ? 1 : 2;
}
