/** The shapes that were fitted: which was chosen of each, why, and how well it fits. */
import type { Weighed } from "../../sim/study/tickets/weighed.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { TableTwin } from "../page/TableTwin.tsx";
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { capital } from "../words.ts";
import { ticketWords } from "../words/tickets.ts";
import { measured } from "./Told.tsx";

/** Units that the values were fitted in. */
const UNIT = { load: "t", cycle: "min", stay: "min", between: "min" } as const;

export function Shapes({ weighed: { shapes } }: { readonly weighed: Weighed }) {
  const words = ticketWords.shapes;
  return (
    <section aria-labelledby="shapes">
      <details class="part">
        <summary><h2 id="shapes">{words.title}</h2></summary>
        <p class="quiet">{words.lead}</p>
        <div class="fitted">
          {(Object.keys(words.names) as (keyof Weighed["shapes"])[]).map((key) => {
            const sample = shapes[key];
            const chosen = sample?.fits.find(({ kind }) => kind === sample.chosen);
            return (
              <div key={key}>
                <h3>{words.names[key]}</h3>
                {!sample || !chosen ? <p class="quiet">{words.few}</p> : (
                  <>
                    <p><strong>{capital(words.kinds[sample.chosen])}</strong> <span class="quiet">{words.values(sample.n)}</span></p>
                    <p>{textIn(units.value, capital(sample.why))}</p>
                    <TableTwin name={words.table(words.names[key])} summary={words.all} head={words.head} rows={() => sample.fits.map(({ kind, mean, cv, aicc, distance }) =>
                      [words.kinds[kind], measured(mean, UNIT[key], 2), formatNumber(100 * cv, 1), formatNumber(aicc, 1), formatNumber(distance, 2)])} />
                  </>
                )}
              </div>
            );
          })}
        </div>
      </details>
    </section>
  );
}
