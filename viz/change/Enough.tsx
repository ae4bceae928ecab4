/** How many days were enough: rehearsed on until the means are sure, and what stays unsure however many there are. */
import type { FigureName } from "../../sim/study/figures.ts";
import { figureLabel, figureValue } from "../../sim/study/figuretext.ts";
import type { Precision } from "../../sim/study/precision.ts";
import { textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { words } from "../words/change.ts";
import { asking } from "./asked.ts";
import { reader } from "./reader.ts";
import { Under } from "./Under.tsx";

const study = asking<Precision>("precision");

export function Enough() {
  const document = plan.value;
  const ask = () => { if (document) study.ask(document); };
  const result = (document && study.of(document)?.result) ?? null;
  const { title, lead, ask: askIt } = words.enough;
  return (
    <section aria-labelledby="enough">
      <h2 id="enough">{title}</h2>
      <p>{lead}</p>
      {!result && !study.now.value?.progress && <button type="button" onClick={ask}>{askIt}</button>}
      <Under study={study} again={ask} />
      {result && <Told result={result} />}
    </section>
  );
}

function Told({ result: { rehearsals, reached, asked, sureness, spread } }: { readonly result: Precision }) {
  const w = words.enough;
  const percent = (share: number, digits = 0) => (100 * share).toFixed(digits);
  const [early, , late] = spread.closedAt ?? [0, 0, 0];
  const figure = (name: FigureName, value: number) => figureValue(name, value, reader());
  const rows = Object.entries(sureness) as [FigureName, NonNullable<Precision["sureness"][FigureName]>][];
  return (
    <>
      <p class="found">{rehearsals === 1 ? w.one : reached ? w.reached(rehearsals, percent(asked)) : w.notReached(rehearsals, percent(asked))}</p>
      {rehearsals > 1 && (
        <>
          <div class="scroll" tabIndex={0} role="group" aria-label={w.title}>
            <table>
              <thead><tr>{w.head.map((text, i) => <th key={text} scope="col" class={i === 0 ? "left" : ""}>{text}</th>)}</tr></thead>
              <tbody>
                {rows.map(([name, { mean, low, high, within }]) => (
                  <tr key={name}>
                    <th scope="row" class="left">{textIn(units.value, figureLabel(name, reader()))}</th>
                    <td>{figure(name, mean)}</td><td>{w.range(figure(name, low), figure(name, high))}</td><td>{within === null ? "" : percent(within, 1)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <p>
            {spread.closedAt && `${w.closes(figure("closedAt", early), figure("closedAt", late))} `}
            {w.keepsPace(percent(spread.keepsPace.share), percent(spread.keepsPace.low), percent(spread.keepsPace.high))}
          </p>
        </>
      )}
    </>
  );
}
