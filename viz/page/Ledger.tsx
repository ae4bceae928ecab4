/** From cut to fed: what each cause takes, what is left, and how a herd empties each storage. */
import { ledgerIn } from "../../sim/findings/left.ts";
import type { LossLine, Span } from "../../sim/findings/types.ts";
import { LOSS_WORDS } from "../../sim/findings/words.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { LedgerChart } from "../drawings/LedgerChart.tsx";
import { massIn } from "../ledger.ts";
import { quantity, unitName, type UnitSystem } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { findings, units } from "../state.ts";
import { useWidth } from "../useWidth.ts";
import { words } from "../words.ts";
import { WhereFrom } from "./Figures.tsx";
import { CautionsHere } from "./Reasons.tsx";
import { UnderPicture } from "./TableTwin.tsx";

export function Ledger() {
  const [ref, width] = useWidth<HTMLElement>();
  const answer = findings.value;
  if (!answer || !(answer.ledger.storedT > 0)) return null;
  const { ledger, losses } = answer;
  const system = units.value;
  const unit = unitName("mass", system);
  const { head, title } = words.ledger;
  const range = (low: number, high: number) => words.figures.range(massIn(low, system), massIn(high, system));
  return (
    <figure class="ledger" ref={ref} data-picture>
      <figcaption><h2>{title}</h2><p>{textIn(system, ledgerIn(system, ledger))}</p></figcaption>
      <OnPaper />
      {width > 0 && <LedgerChart ledger={ledger} losses={losses} units={system} width={width} />}
      <UnderPicture name={title} inWords={[0, 4, 5, 6]} head={[head.line, `${head.central}, ${unit}`, `${head.range}, ${unit}`, `${head.share}, %`, head.counted, head.mark, head.measured]}
        rows={() => [
          [words.ledger.cut, massIn(ledger.cutT, system), "", "", "", "", ""],
          [words.ledger.stored, massIn(ledger.storedT, system), "", "", "", "", ""],
          ...losses.map((line) => lossRow(line, system)),
          [words.ledger.fed, massIn(ledger.fedT.central, system), range(ledger.fedT.low, ledger.fedT.high), percent(ledger.fedT.central / ledger.storedT), "", "", ""],
        ]} />
      {losses.filter(({ dryT }) => dryT === null).map(({ cause, note, source }) => (
        <p class="quiet evidence screen-only" key={cause}><strong>{LOSS_WORDS[cause]}.</strong> {textIn(system, note)} {source}</p>
      ))}
      <details class="twin">
        <summary>{words.ledger.sources}</summary>
        <dl>{losses.filter(({ dryT }) => dryT !== null).map(({ cause, note, source, mark }) => <div key={cause}><dt>{LOSS_WORDS[cause]}</dt><dd>{textIn(system, note)} {source}. {words.figures.mark}: {mark}.</dd></div>)}</dl>
      </details>
      <WhereFrom names={["dryMatterStored", "dryMatterFed"]} />
      <CautionsHere ids={["effluent", "silo-gas"]} />
    </figure>
  );
}

/** The same lines as a table, which takes half the paper that the drawing does. */
function OnPaper() {
  const { ledger, losses } = findings.value!;
  const system = units.value;
  const { head, title } = words.ledger;
  const row = (name: string, central: string, range = "", counted = "") => <tr key={name}><th scope="row" class="left">{name}</th><td>{central}</td><td>{range}</td><td class="left">{counted}</td></tr>;
  const range = ({ low, high }: Span) => words.figures.range(massIn(low, system), massIn(high, system));
  return (
    <table class="on-paper" aria-label={title}>
      <thead><tr><th scope="col" class="left">{head.line}</th><th scope="col">{head.central}, {unitName("mass", system)}</th><th scope="col">{head.range}</th><th scope="col" /></tr></thead>
      <tbody>
        {row(words.ledger.stored, massIn(ledger.storedT, system))}
        {losses.map(({ cause, dryT, on }) => row(LOSS_WORDS[cause], dryT === null ? words.ledger.noFigure : massIn(dryT.central, system), dryT === null ? "" : range(dryT), on || dryT === null ? "" : words.ledger.notCounted))}
        {row(words.ledger.fed, massIn(ledger.fedT.central, system), range(ledger.fedT))}
      </tbody>
    </table>
  );
}

const percent = (share: number): string => formatNumber(share * 100, 1);

function lossRow({ cause, dryT, share, on, mark, range, outside }: LossLine, system: UnitSystem): string[] {
  const measured = range === null ? "" : `${textIn(system, range)}${outside ? `; ${words.figures.outsideShort}` : ""}`;
  const counted = dryT === null ? words.ledger.noFigure : on ? words.ledger.counted : words.ledger.notCounted;
  return [
    LOSS_WORDS[cause], dryT === null ? "" : massIn(dryT.central, system), dryT === null ? "" : words.figures.range(massIn(dryT.low, system), massIn(dryT.high, system)),
    share === null ? "" : percent(share), counted, mark, measured,
  ];
}

/** How a herd empties each storage; nothing where the scenario has no herd. */
export function FeedingOut() {
  const fed = findings.value?.storages.flatMap(({ name, feedOut }) => (feedOut ? [{ name, feedOut }] : [])) ?? [];
  if (!fed.length) return null;
  const system = units.value;
  const { head, title, slow, kept } = words.feedOut;
  return (
    <section aria-labelledby="feed-out">
      <h2 id="feed-out">{title}</h2>
      <div class="scroll" tabIndex={0} role="group" aria-label={title}>
        <table>
          <thead><tr><th scope="col" class="left">{head.storage}</th><th scope="col">{head.advance}</th><th scope="col">{head.least}</th><th scope="col" class="left" /><th scope="col">{head.days}</th><th scope="col">{head.open}</th></tr></thead>
          <tbody>
            {fed.map(({ name, feedOut: { advance, minimum, daysOfFeed, openAfter } }) => (
              <tr key={name}>
                <th scope="row" class="left">{name}</th><td>{quantity(advance, "thickness", system)}</td><td>{quantity(minimum, "thickness", system)}</td>
                <td class="left">{advance < minimum ? slow : kept}</td><td>{formatNumber(daysOfFeed.central, 0)} <span class="quiet block">{words.figures.range(formatNumber(daysOfFeed.low, 0), formatNumber(daysOfFeed.high, 0))}</span></td>
                <td>{words.feedOut.openAfter(openAfter[0], openAfter[1])}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {fed.map(({ name, feedOut }) => <p class="quiet" key={name}>{fed.length > 1 ? `${name}: ` : ""}{textIn(system, feedOut.inWords)} <span class="screen-only">{feedOut.source}. {words.figures.mark}: {feedOut.mark}.</span></p>)}
    </section>
  );
}
