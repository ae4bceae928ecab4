/** Which of the planner's guesses matter, and what to measure before harvest. */
import type { EffectName } from "../../sim/study/effectnames.ts";
import { MEASURE_WORDS } from "../../sim/findings/words.ts";
import type { FigureName } from "../../sim/study/figures.ts";
import { figureLabel } from "../../sim/study/figuretext.ts";
import type { Sensitivity, SensitivityRow } from "../../sim/study/sensitivity.ts";
import { TableTwin } from "../page/TableTwin.tsx";
import { inEnglish } from "../english.ts";
import { withMinus } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { words } from "../words/change.ts";
import { asking } from "./asked.ts";
import { reader, signed } from "./reader.ts";
import { Under } from "./Under.tsx";

const study = asking<Sensitivity>("sensitivity");

const TOLD: readonly EffectName[] = ["cost", "density", "waiting", "finish"];

export function Guesses() {
  const document = plan.value;
  const ask = () => { if (document) study.ask(document); };
  const result = (document && study.of(document)?.result) ?? null;
  const { title, lead, ask: askIt, measure } = words.guesses;
  return (
    <section aria-labelledby="guesses">
      <h2 id="guesses">{title}</h2>
      <p>{lead}</p>
      {!result && !study.now.value?.progress && <button type="button" onClick={ask}>{askIt}</button>}
      <Under study={study} again={ask} />
      {result && (
        <>
          <p class="found">{textIn(units.value, result.inWords)}</p>
          <Bars rows={result.rows} />
          <TableTwin name={title} head={headOf(result)} rows={() => result.rows.map((row) => [textIn(units.value, row.what), end(row, row.low), end(row, row.high), ...TOLD.map((name) => moved(row, name))])} />
          {result.measure.length > 0 && <><h3>{measure}</h3><ul>{result.measure.map(({ id, what, how }) => <li key={id}><strong>{textIn(units.value, what)}.</strong> {textIn(units.value, how)}</li>)}</ul></>}
        </>
      )}
    </section>
  );
}

/** What each column tells, with its unit. */
function headOf({ rows }: Sensitivity): string[] {
  const swing = rows.find((row) => row.swing)?.swing;
  return [...words.guesses.head, ...TOLD.map((name) => (swing ? textIn(units.value, figureLabel(swing.by[name].figure, reader())) : ""))];
}

/** By how much the guess is off at one end. */
function end({ as }: SensitivityRow, by: number): string {
  const percent = Math.round(100 * (as === "factor" ? by - 1 : by));
  const said = withMinus(`${percent >= 0 ? "+" : ""}${percent}`);
  return as === "factor" ? `${said} %` : words.guesses.points(said);
}


const moved = ({ swing }: SensitivityRow, name: EffectName): string => (swing ? signed(swing.by[name].figure, swing.by[name].mean) : "");

/** A figure without its unit: how many times is told, not how much. */
const named = (name: FigureName): string => inEnglish(name === "closedAt" ? figureLabel(name, reader()) : MEASURE_WORDS[name].label);

/** One bar a guess: how many times what one would notice it moves the figure that it moves most. */
function Bars({ rows }: { readonly rows: readonly SensitivityRow[] }) {
  const shown = rows.filter(({ importance }) => importance === null || importance >= 1);
  const most = Math.max(1, ...shown.map(({ importance }) => importance ?? 0));
  return (
    <ul class="bars">
      {shown.map(({ id, what, importance, most: figure, hangsTogether, swing }) => (
        <li key={id}>
          <span>{textIn(units.value, what)}</span>
          <span class="bar-track"><span class="bar" style={{ width: `${(100 * (importance ?? most)) / most}%` }} /></span>
          <span class="quiet">{importance === null || figure === null || !swing ? words.fixes.does.endless : words.guesses.importance(named(swing.by[figure].figure), importance.toFixed(importance < 9.95 ? 1 : 0))}{hangsTogether ? `; ${words.guesses.together}` : ""}</span>
        </li>
      ))}
    </ul>
  );
}
