/** Money: what the farm spends line by line, what stands beside the total, and what a tonne comes to. */
import type { MoneyLine, Span } from "../../sim/findings/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { Downloads } from "../drawings/Downloads.tsx";
import { MoneyChart } from "../drawings/MoneyChart.tsx";
import { measureIn, textIn } from "../sentences.ts";
import { findings, units } from "../state.ts";
import { useWidth } from "../useWidth.ts";
import { words } from "../words.ts";
import { WhereFrom } from "./Figures.tsx";

export function Money() {
  const [ref, width] = useWidth<HTMLElement>();
  const answer = findings.value;
  if (!answer?.money.lines.length) return null;
  const { currency, lines, total, oneMoreTractor } = answer.money;
  const { head, title, payers, beside } = words.money;
  const apart = lines.filter(({ inTotal }) => !inTotal);
  const payerOf = (line: MoneyLine) => (line.stage === "lost" ? payers.nobody : payers[line.paidBy]);
  return (
    <section aria-labelledby="money" ref={ref} data-picture>
      <h2 id="money">{title}</h2>
      {width > 0 && <MoneyChart lines={lines} total={total} currency={currency} width={width} />}
      <Downloads name={title} head={[head.what, `${head.amount}, ${currency}`, head.paidBy]}
        rows={() => [...lines, { what: `${words.money.total}, ${payers.farm}`, amount: total }].map((line) => [line.what, formatNumber(line.amount, 0), "stage" in line ? payerOf(line) : ""])} />
      <div class="scroll" tabIndex={0} role="group" aria-label={title}>
        <table>
          <Columns />
          <thead><tr><th scope="col" class="left">{head.what}</th><th scope="col">{head.amount}, {currency}</th><th scope="col" class="left">{head.paidBy}</th></tr></thead>
          <tbody>
            {lines.filter(({ inTotal }) => inTotal).map((line) => <Line key={line.what} line={line} payer={payerOf(line)} />)}
            <tr class="total"><th scope="row" class="left">{words.money.total}, {payers.farm}</th><td>{formatNumber(total, 0)}</td><td /></tr>
          </tbody>
        </table>
      </div>
      {apart.length > 0 && (
        <div class="scroll" tabIndex={0} role="group" aria-label={beside}>
          <table class="beside-total">
            <caption>{beside}</caption>
            <Columns />
            <thead class="unseen"><tr><th scope="col">{head.what}</th><th scope="col">{head.amount}, {currency}</th><th scope="col">{head.paidBy}</th></tr></thead>
            <tbody>{apart.map((line) => <Line key={line.what} line={line} payer={payerOf(line)} />)}</tbody>
          </table>
        </div>
      )}
      <PerTonne />
      <WhereFrom names={["costPerTonne", "costPerTonneFed", "fuel"]} />
      {oneMoreTractor?.map(({ storage, inWords }) => <p class="quiet screen-only" key={storage}>{textIn(units.value, inWords)}</p>)}
    </section>
  );
}

/** The same for both tables: what stands beside the total stands under its columns. */
const Columns = () => <colgroup><col /><col class="col-amount" /><col class="col-payer" /></colgroup>;

function Line({ line: { what, amount, note }, payer }: { readonly line: MoneyLine; readonly payer: string }) {
  return <tr><th scope="row" class="left">{what}{note && <span class="quiet block">{textIn(units.value, note)}</span>}</th><td>{formatNumber(amount, 0)}</td><td class="left">{payer}</td></tr>;
}

function PerTonne() {
  const { currency, perTonne: { delivered, stored, fed } } = findings.value!.money;
  const { unit, factor } = measureIn(units.value, "per t");
  const { head, delivered: perDelivered, stored: perStored, fed: perFed, title } = words.perTonne;
  const say = (amount: number) => formatNumber(amount * factor, 2);
  const row = (name: string, amount: number | null, range: Span | null = null) => amount !== null && (
    <tr key={name}><th scope="row" class="left">{name}</th><td>{say(amount)}</td><td>{range ? words.figures.range(say(range.low), say(range.high)) : ""}</td></tr>
  );
  return (
    <div class="scroll" tabIndex={0} role="group" aria-label={title}>
      <table class="per-tonne">
        <thead><tr><th scope="col" class="left">{title}</th><th scope="col">{currency} {unit}</th><th scope="col">{head.range}</th></tr></thead>
        <tbody>{row(perDelivered, delivered)}{row(perStored, stored)}{row(perFed, fed?.central ?? null, fed)}</tbody>
      </table>
    </div>
  );
}
