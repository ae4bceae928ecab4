/** The plan shown beside another one, both on the same luck: the main measures and what the difference is worth. Closed until asked for. */
import { displayUnit, formatNumber, inDisplayUnit, type UnitSystem } from "../../sim/scenario/units.ts";
import { MEASURE_WORDS, measureNumber, measureUnit } from "../../sim/findings/words.ts";
import { chosenOther, firstChoice, otherTrouble } from "./other.ts";
import { number, printed } from "../quantity.ts";
import { sideBySide, type SideFigure, type SideMeasure, type SideRow } from "./side.ts";
import { AS_OPENED, beside, exampleId, examples, findings, units } from "../state.ts";
import { words } from "../words.ts";

export function Beside() {
  if (!findings.value) return null;
  if (beside.value.length === 0) beside.value = [firstChoice()];
  return (
    <section class="side" aria-labelledby="side">
      <h1 id="side">{words.side.title}</h1>
      <Opened />
    </section>
  );
}

function Opened() {
  const now = findings.value!;
  const other = chosenOther();
  const { head, title } = words.side;
  const chosen = beside.value[0];
  const name = chosen === AS_OPENED ? words.side.asOpened : examples.value.find(({ id }) => id === chosen)?.name ?? "";
  return (
    <>
      <label class="example side-choice">
        <span>{words.side.choose}</span>
        <select value={chosen ?? ""} onChange={(event) => { beside.value = [event.currentTarget.value]; }}>
          <option value={AS_OPENED}>{words.side.asOpened}</option>
          {examples.value.filter(({ id }) => id !== exampleId.value || id === chosen).map(({ id, name: called }) => <option key={id} value={id}>{called}</option>)}
        </select>
      </label>
      <p class="quiet" role="status">{otherTrouble.value ?? (other ? words.side.luck(now.rehearsals, other.rehearsals) : words.asking)}</p>
      {other && (
        <div class="scroll" tabIndex={0} role="group" aria-label={title}>
          <table>
            <thead><tr><th scope="col" class="left">{head.measure}</th><th scope="col" class="left">{head.unit}</th><th scope="col">{head.now}</th><th scope="col">{name}</th><th scope="col">{head.difference}</th><th scope="col" class="left">{head.said}</th></tr></thead>
            <tbody>{sideBySide(now, other).map((row) => <Row key={row.measure} row={row} system={units.value} money={now.money.currency === other.money.currency ? [now.money.currency] : [now.money.currency, other.money.currency]} />)}</tbody>
          </table>
        </div>
      )}
    </>
  );
}

interface RowProps { readonly row: SideRow; readonly system: UnitSystem; /** one currency, or both where they differ */ readonly money: readonly string[] }

function Row({ row: { measure, now, other, difference, within }, system, money }: RowProps) {
  const cost = measure === "costPerTonneFed";
  const unit = `${cost ? `${money.join(", ")} ` : ""}${unitOf(measure, system)}`;
  const figure = (told: SideFigure | null) => (told === null ? "" : (
    <>{say(measure, told.value, system)}{told.range && <span class="quiet block">{words.figures.range(say(measure, told.range[0], system), say(measure, told.range[1], system))}</span>}</>
  ));
  return (
    <tr>
      <th scope="row" class="left">{measure === "coverArea" ? words.side.cover : MEASURE_WORDS[measure].label}</th>
      <td class="left">{printed(unit)}</td><td>{figure(now)}</td><td>{figure(other)}</td>
      <td>{difference === null ? "" : signed(say(measure, difference, system))}</td>
      <td class="left">{difference === null ? (cost && money.length > 1 ? words.side.otherMoney : "") : difference === 0 ? words.side.same : within === null ? "" : words.side.within[within]}</td>
    </tr>
  );
}

const unitOf = (measure: SideMeasure, system: UnitSystem): string => (measure === "coverArea" ? displayUnit("surface", system) : measureUnit(measure, system));

function say(measure: SideMeasure, value: number, system: UnitSystem): string {
  if (measure === "coverArea") return formatNumber(inDisplayUnit(value, "surface", system), 0);
  return measure === "dryDensity" ? number(value, "density", system) : measureNumber(measure, value, system);
}

/** With its sign; what rounds to nothing has none. */
function signed(figure: string): string {
  if (!/[1-9]/.test(figure)) return figure.replace("-", "");
  return figure.startsWith("-") ? `\u2212${figure.slice(1)}` : `+${figure}`;
}
