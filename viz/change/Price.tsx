/** A price that covers the work on so many days. */
import type { PaidUnit, Quote } from "../../sim/study/quote.ts";
import { formatNumber, toSI } from "../../sim/scenario/units.ts";
import { textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { words } from "../words/change.ts";
import { asking } from "./asked.ts";
import { Under } from "./Under.tsx";

const study = asking<Quote>("quote");

const PAID: readonly PaidUnit[] = ["perTonne", "perHour", "perHectare"];

export function Price() {
  const document = plan.value;
  const ask = () => { if (document) study.ask(document); };
  const result = (document && study.of(document)?.result) ?? null;
  const { title, lead, ask: askIt, head, acre, ton, on } = words.quote;
  const isUs = units.value === "us";
  const heads = isUs ? [head[0], ton, head[2], acre] : head;
  return (
    <section aria-labelledby="price">
      <h2 id="price">{title}</h2>
      <p>{lead}</p>
      {!result && !study.now.value?.progress && <button type="button" onClick={ask}>{askIt}</button>}
      <Under study={study} again={ask} />
      {result && (
        <>
          <p class="found">{textIn(units.value, result.inWords)}</p>
          <div class="scroll" tabIndex={0} role="group" aria-label={title}>
            <table>
              <thead><tr>{heads.map((text, i) => <th key={i} scope="col" class={i === 0 ? "left" : ""}>{text}{i > 0 ? `, ${result.currency}` : ""}</th>)}</tr></thead>
              <tbody>
                {result.prices.perTonne.map(({ covers }, i) => (
                  <tr key={covers}>
                    <th scope="row" class="left">{on(String(Math.round(100 * covers)))}</th>
                    {PAID.map((unit) => {
                      const { price, low, high } = result.prices[unit][i]!;
                      const say = (value: number) => formatNumber(value * share(unit, isUs), unit === "perTonne" ? 2 : 0);
                      return <td key={unit}>{say(price)}{low !== null && high !== null && low !== high && <span class="quiet block">{say(low)} to {say(high)}</span>}</td>;
                    })}
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </>
      )}
    </section>
  );
}

/** What part of a tonne, an hour or a hectare the reader's own unit is. */
function share(unit: PaidUnit, isUs: boolean): number {
  if (!isUs || unit === "perHour") return 1;
  return unit === "perTonne" ? toSI(1, "ton", "mass") / 1000 : toSI(1, "acre", "area") / 10_000;
}
