/** The back of the sheet: the stick at true size, what really happened, cautions, and the plan behind it all. */
import { encode } from "uqr";
import type { Findings } from "../../sim/findings/types.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { quantity, unitName, type UnitSystem } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { addressOf } from "../state/memory.ts";
import { crewWords } from "../words/crew.ts";
import { Blank } from "./Blank.tsx";

interface BackProps { readonly findings: Findings; readonly scenario: Scenario; readonly units: UnitSystem; /** the front page runs over to this one */ readonly crowded: boolean }

/** m: the longest bar that the sheet is wide enough for. */
const LONGEST_BAR = 0.17;
/** Lines of the record: as many as the cautions leave room for. */
const linesFor = (cautions: number, crowded: boolean): number => (crowded ? 4 : Math.max(7, 26 - cautions));

export function BackPage({ findings: { cautions, rehearsals, engine, seed, scenario: { hash } }, scenario, units, crowded }: BackProps) {
  const { log, cautions: caution, address } = crewWords;
  const head = log.head(unitName("mass", units));
  const { layer } = scenario.packing;
  const printed = addressOf({ sheet: "crew", lesson: null, whole: false, order: null, paper: null, at: null });
  return (
    <div class="back">
      <section aria-labelledby="crew-log">
        <h2 id="crew-log">{log.title}</h2>
        <p class="quiet">{log.note}</p>
        <div class="scroll" tabIndex={0} role="group" aria-label={log.title}>
          <table class="wide record">
            <thead><tr>{head.map((text) => <th key={text} scope="col" class="left">{text}</th>)}</tr></thead>
            <tbody aria-hidden="true">{Array.from({ length: linesFor(cautions.length, crowded) }, (_, i) => <tr key={i}>{head.map((text) => <td key={text} class="fill" />)}</tr>)}</tbody>
          </table>
        </div>
        <p class="blanks">{log.finish.map((label) => <Blank key={label} label={label} />)}</p>
      </section>
      {layer <= LONGEST_BAR && (
        <figure class="stick">
          <svg width={`${layer * 100}cm`} height="8" role="img" aria-label={crewWords.stick(quantity(layer, "thickness", units))}><rect class="stick-bar" width="100%" height="8" /></svg>
          <figcaption class="quiet">{crewWords.stick(quantity(layer, "thickness", units))}</figcaption>
        </figure>
      )}
      <section aria-labelledby="crew-cautions">
        <h2 id="crew-cautions">{caution.title}</h2>
        <p><strong>{caution.local}</strong></p>
        <ul class="crew-cautions">
          {cautions.map(({ id, text, where }) => <li key={id + where}>{textIn(units, text)}{where !== "everywhere" && <span class="quiet"> {where}</span>}</li>)}
        </ul>
      </section>
      <section class="plan-behind" aria-labelledby="crew-plan">
        <Square text={printed} />
        <div>
          <h2 id="crew-plan">{address.title}</h2>
          <p class="quiet">{address.made(rehearsals, engine, seed, hash.slice(0, 12))}</p>
          <Address text={printed} />
          {HERE.test(location.hostname) && <p class="quiet screen-only">{address.here}</p>}
        </div>
      </section>
    </div>
  );
}

/** Names under which a machine knows itself alone. */
const HERE = /^(?:localhost|127(?:\.\d+){3}|\[::1\])$/;

/** Letters that may stand on paper, and that a phone still reads out of a square of this size. */
const LONGEST_TEXT = 420;
const LONGEST_SQUARE = 1200;

function Address({ text }: { readonly text: string }) {
  const { address } = crewWords;
  return text.length > LONGEST_TEXT ? <p class="quiet">{address.long(formatNumber(text.length, 0))}</p> : <p class="quiet address">{text}</p>;
}

/** The address as a square to photograph; nothing where it would be too fine to read. */
function Square({ text }: { readonly text: string }) {
  if (text.length > LONGEST_SQUARE) return null;
  const { data, size } = encode(text, { ecc: "L", border: 4 });
  const d = data.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x},${y}h1v1h-1z` : ""))).join("");
  return <svg class="square" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={crewWords.address.square} shape-rendering="crispEdges"><rect class="square-paper" width={size} height={size} /><path class="square-ink" d={d} /></svg>;
}
