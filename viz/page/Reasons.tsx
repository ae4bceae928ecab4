/** What stands behind the answer besides the figures: the hand check, cautions, notes and the defaults that applied. */
import { Fragment } from "preact";
import type { Findings } from "../../sim/findings/types.ts";
import { STATION_WORDS } from "../../sim/findings/words.ts";
import { number, unitName } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { findings, units } from "../state.ts";
import { capital, words } from "../words.ts";
import { pictures } from "../words/pictures.ts";

export function HandChecks() {
  const answer = findings.value;
  if (!answer?.handCheck.length) return null;
  const rate = (tonnesPerHour: number) => number(tonnesPerHour / 3.6, "flow", units.value);
  const { head, title, what } = words.handCheck;
  const unit = unitName("flow", units.value);
  return (
    <section aria-labelledby="hand-check">
      <h2 id="hand-check">{title}</h2>
      <p>{what}</p>
      <div class="scroll" tabIndex={0} role="group" aria-label={title}>
        <table>
          <thead><tr><th scope="col" class="left">{head.station}</th><th scope="col">{head.bound}, {unit}</th><th scope="col">{head.simulated}, {unit}</th><th scope="col" class="left">{head.gap}</th></tr></thead>
          <tbody>
            {answer.handCheck.map((row) => (
              <tr key={row.station}>
                <th scope="row" class="left">{capital(STATION_WORDS[row.station])}</th><td>{rate(row.boundTPerH)}</td><td>{rate(row.simulatedTPerH)}</td><td class="left">{textIn(units.value, row.gapInWords)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

export function Cautions() {
  const answer = findings.value;
  if (!answer?.cautions.length) return null;
  return (
    <section aria-labelledby="cautions">
      <h2 id="cautions">{words.cautions.title}</h2>
      <ul class="cautions">
        {answer.cautions.map((caution) => <li key={caution.id + caution.where}>{textIn(units.value, caution.text)} <Whereabouts {...caution} /></li>)}
      </ul>
    </section>
  );
}

/** Where a caution holds, and who says it. On paper a place is named where it is one, and the words are left to the caution. */
function Whereabouts({ where, source }: Findings["cautions"][number]) {
  return where === "everywhere" ? <span class="quiet screen-only">{where}; {source}</span> : <span class="quiet">{where}<span class="screen-only">; {source}</span></span>;
}

interface HereProps { readonly ids: readonly string[]; /** whose they are; left out: those of the plan itself */ readonly of?: Findings | null }

/** The cautions that concern a picture or a figure, at that picture or figure: their names, and the whole text on request. */
export function CautionsHere({ ids, of = findings.value }: HereProps) {
  const here = of?.cautions.filter(({ id }) => ids.includes(id)) ?? [];
  return here.length === 0 ? null : (
    <div class="cautions-here">
      {here.map(({ id, where: place, text, source }) => {
        const name = `${pictures.from.cautions}: ${pictures.caution[id] ?? id}${of!.storages.length > 1 ? `, ${place}` : ""}`;
        return (
          <Fragment key={id + place}>
            <details class="caution-here">
              <summary>{name}</summary>
              <p>{textIn(units.value, text)} <span class="quiet">{source}</span></p>
            </details>
            <p class="on-paper"><strong>{name}.</strong> {textIn(units.value, text)}</p>
          </Fragment>
        );
      })}
    </div>
  );
}

export function Notes() {
  const answer = findings.value;
  if (!answer?.notes.length) return null;
  return (
    <section aria-labelledby="notes">
      <h2 id="notes">{words.notes.title}</h2>
      <ul>{answer.notes.map((note) => <li key={note}>{textIn(units.value, note)}</li>)}</ul>
    </section>
  );
}

/** On paper nothing opens: what it was worked out from, so that it can be again. */
export function Colophon() {
  const answer = findings.value;
  if (!answer) return null;
  const { rehearsals, engine, seed, scenario: { hash } } = answer;
  return <p class="quiet on-paper">{words.figures.onPaper(rehearsals, engine, seed, hash.slice(0, 12))}</p>;
}

export function Defaults() {
  const answer = findings.value;
  if (!answer?.defaults.length) return null;
  const { head, title, what } = words.defaults;
  return (
    <section class="defaults" aria-labelledby="defaults">
      <h2 id="defaults">{title}</h2>
      <p>{what}</p>
      <details class="twin">
        <summary>{words.defaults.all(answer.defaults.length)}</summary>
        <div class="scroll" tabIndex={0} role="group" aria-label={title}>
          <table>
            <thead><tr><th scope="col" class="left">{head.path}</th><th scope="col" class="left">{head.value}</th><th scope="col" class="left">{head.mark}</th></tr></thead>
            <tbody>{answer.defaults.map((row) => <tr key={row.path}><th scope="row" class="left"><code>{row.path}</code></th><td class="left">{textIn(units.value, row.value)}</td><td class="left">{row.mark}</td></tr>)}</tbody>
          </table>
        </div>
      </details>
    </section>
  );
}
