/** Was the plan right? The recorded day beside rehearsed ones, where it is off, and what input would explain it. */
import { clockOf } from "../../sim/findings/clock.ts";
import type { Judged as Figure } from "../../sim/study/tickets/judge.ts";
import type { JudgedName } from "../../sim/study/tickets/judged.ts";
import type { WeighedDay } from "../../sim/study/tickets/study.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { asking } from "../change/asked.ts";
import { Under } from "../change/Under.tsx";
import { clock, withMinus } from "../quantity.ts";
import { measureIn, textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { capital } from "../words.ts";
import { ticketWords } from "../words/tickets.ts";
import { HourBars } from "./HourBars.tsx";
import { answers, file } from "./taken.ts";

const study = asking<WeighedDay>("tickets");

/** Digits after the point that deserve to be shown, where they are not one. */
const DIGITS: Readonly<Partial<Record<JudgedName, number>>> = { loads: 0, atStorage: 2, load: 2 };

export function Judged() {
  const words = ticketWords.judged;
  const document = plan.value;
  const taken = file.value;
  if (!document || !taken) return null;
  const options = { csv: taken.text, ...answers.value };
  const ask = () => study.ask(document, options);
  const now = study.now.value;
  const isHere = now?.key === study.keyOf(document, options);
  return (
    <section aria-labelledby="judged">
      <h2 id="judged">{words.title}</h2>
      <p class="quiet screen-only">{words.lead}</p>
      {!now?.progress && !(isHere && now?.result) && <p class="asks screen-only"><button type="button" onClick={ask}>{words.ask}</button></p>}
      <Under study={study} again={ask} />
      {now?.result && !isHere && <p class="trouble">{words.again}</p>}
      {now?.result && <Answer result={now.result} />}
    </section>
  );
}

function Answer({ result: { judgement, judgedDay, days } }: { readonly result: WeighedDay }) {
  const words = ticketWords.judged;
  const { figures, hours, explained, falseAlarms, inWords, rehearsals } = judgement;
  const { unit, factor } = measureIn(units.value, "t");
  // What the table under it says of each figure is not said twice.
  const told = inWords.filter((sentence) => !Object.values(figures).some((figure) => figure.inWords === sentence));
  const mass = (t: number) => formatNumber(t * factor, 1);
  return (
    <>
      <p class="quiet">{days.length > 1 && `${words.onDay(judgedDay + 1, days.length)} `}{words.days(rehearsals)}</p>
      <div class="judged-words" role="status">{told.map((sentence) => <p key={sentence}>{textIn(units.value, sentence)}</p>)}</div>
      {falseAlarms !== null && <p class="quiet">{words.falseAlarms(Math.round(100 * falseAlarms))}</p>}
      <div class="scroll" tabIndex={0} role="group" aria-label={words.title}>
        <table class="wraps judged">
          <thead><tr>{words.head.map((text, i) => (text === "" ? <td key={i} /> : <th key={i} scope="col" class={i === 0 ? "left" : ""}>{text}</th>))}</tr></thead>
          <tbody>
            {(Object.entries(figures) as [JudgedName, Figure][]).map(([name, figure]) => (
              <tr key={name} class={figure.inside === false ? "off" : ""}>
                <th scope="row" class="left">{called(name, figure)}</th>
                <td>{shown(name, figure, figure.recorded)}</td><td>{shown(name, figure, figure.predicted)}</td>
                <td>{figure.inside === null ? "" : words.range(shown(name, figure, figure.low), shown(name, figure, figure.high))}</td>
                <td class="left">{place(name, figure)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <HourBars name={words.hours} what={words.hoursWhat} unit={unit} gaps={[]}
        bars={hours.map(({ from, recorded, low, predicted, high }) => ({ from, value: recorded * factor, band: [low * factor, predicted * factor, high * factor] }))}
        summary={words.hoursSummary(hours.map(({ from, recorded, low, high }) => words.hour(clock(from), mass(recorded), mass(low), mass(high))))}
        head={words.hoursHead} rows={() => hours.map(({ from, recorded, predicted, low, high }) => [clock(from), mass(recorded), mass(predicted), mass(low), mass(high)])} />
      {explained.length > 0 && (
        <>
          <h3>{words.explained}</h3>
          <p class="quiet">{words.explainedWhat}</p>
          <div class="scroll" tabIndex={0} role="group" aria-label={words.explained}>
            <table>
              <thead><tr>{words.explainedHead.map((text, i) => <th key={text} scope="col" class={i === 0 ? "left" : ""}>{text}</th>)}</tr></thead>
              <tbody>{explained.map(({ input, what, closes }) => <tr key={input}><th scope="row" class="left">{textIn(units.value, capital(what))}</th><td>{withMinus(String(Math.round(100 * closes)))}</td></tr>)}</tbody>
            </table>
          </div>
        </>
      )}
    </>
  );
}

/** The unit stands once, behind the name; a time of day has none. */
function called(name: JudgedName, { unit }: Figure): string {
  const { unit: shown } = measureIn(units.value, unit);
  return [ticketWords.judged.figures[name], ...(name === "finish" || shown === "" ? [] : [shown])].join(", ");
}

function shown(name: JudgedName, { unit }: Figure, value: number): string {
  return name === "finish" ? clockOf(value * 3600) : formatNumber(value * measureIn(units.value, unit).factor, DIGITS[name] ?? 1);
}

function place(name: JudgedName, { inside, recorded, low }: Figure): string {
  const words = ticketWords.judged;
  if (inside !== false) return inside === null ? words.noBand : words.inside;
  return recorded < low ? (name === "finish" ? words.early : words.less) : name === "finish" ? words.late : words.more;
}
