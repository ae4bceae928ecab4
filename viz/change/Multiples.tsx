/** The same day with so many trucks: one small picture each, all to one scale. */
import type { Multiple, Multiples as Result } from "../../sim/study/multiples.ts";
import { figureValue } from "../../sim/study/figuretext.ts";
import { TableTwin } from "../page/TableTwin.tsx";
import { unitName } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { useWidth } from "../useWidth.ts";
import { words } from "../words/change.ts";
import { asking } from "./asked.ts";
import { reader } from "./Fixes.tsx";
import { tryOut } from "./tried.ts";
import { Under } from "./Under.tsx";
import { withTrucks } from "../../sim/study/change.ts";

const study = asking<Result>("multiples");

export function Multiples() {
  const [ref, width] = useWidth<HTMLElement>();
  const document = plan.value;
  const ask = () => { if (document) study.ask(document); };
  const now = study.now.value;
  const result = now?.result ?? null;
  const { title, lead, ask: askIt, head } = words.multiples;
  return (
    <section aria-labelledby="multiples">
      <h2 id="multiples">{title}</h2>
      <p>{lead}</p>
      {!now?.progress && <button type="button" onClick={ask}>{askIt}</button>}
      <Under study={study} again={ask} />
      {result && (
        <figure ref={ref} data-picture>
          <figcaption><p>{textIn(units.value, result.inWords)}</p></figcaption>
          {width > 0 && <Drawn result={result} width={width} />}
          <TableTwin name={title} head={head.map((text, i) => (i === 5 ? `${text.replace("Tonnes", unitName("mass", units.value))}` : i === 6 ? `${text}, ${unitName("density", units.value)}` : i === 7 ? `${text}, ${reader().currency}` : text))}
            rows={() => result.multiples.map((each) => row(each, result))} />
          <p class="takes">{result.multiples.filter(({ trucks, endless }) => trucks !== result.now && endless === null).map(({ trucks }) => (
            <button type="button" class="plain" key={trucks} onClick={() => tryOut(words.multiples.name(trucks), (scenario) => withTrucks(scenario, trucks, Math.max(0, scenario.trucks.findIndex(({ kind }) => kind === result.kind))))}>
              {words.fixes.try}: {words.multiples.name(trucks)}
            </button>
          ))}</p>
        </figure>
      )}
    </section>
  );
}

const percent = (share: number): string => (100 * share).toFixed(0);

function row({ trucks, chopper, truck, pace, density, cost }: Multiple, { cost: by }: Result): string[] {
  const figure = (name: "deliveryRate" | "dryDensity" | typeof by, value: number | undefined) => (value === undefined ? "" : figureValue(name, value, reader()));
  if (!chopper || !truck) return [String(trucks), words.multiples.never, "", "", "", "", "", ""];
  return [String(trucks), percent(chopper.cutting), percent(chopper.waitingForTrucks), percent(chopper.waitingForStorage), truck.waiting.toFixed(1), figure("deliveryRate", pace?.mean), figure("dryDensity", density?.mean), figure(by, cost?.mean)];
}

/** px */
const HEIGHT = 160;
const FOOT = 44;
const LEAST = 52;

/** Columns of the chopper's time, whole at 100 %: cutting, waiting for trucks, waiting on the storage. */
function Drawn({ result, width }: { readonly result: Result; readonly width: number }) {
  const { cutting, waitsTrucks, waitsStorage, now, name, never } = words.multiples;
  const step = Math.min(110, Math.max(LEAST, width / result.multiples.length));
  const bar = Math.min(56, step - 16);
  const height = HEIGHT + FOOT + 24;
  return (
    <div class="scroll" tabIndex={0} role="group" aria-label={words.multiples.title}>
      <svg width={Math.max(width, step * result.multiples.length)} height={height} role="img" aria-label={`${words.multiples.lead} ${result.multiples.map(({ trucks, chopper }) => `${name(trucks)}: ${chopper ? `${cutting} ${percent(chopper.cutting)} %` : never}`).join("; ")}`}>
        {result.multiples.map(({ trucks, chopper }, i) => {
          const x = i * step + 4;
          const parts = chopper ? [["part-cutting", chopper.cutting], ["part-trucks", chopper.waitingForTrucks], ["part-storage", chopper.waitingForStorage]] as const : [];
          let y = 20;
          return (
            <g key={trucks}>
              <rect class="part-whole" x={x} y={20} width={bar} height={HEIGHT} />
              {[...parts].reverse().map(([part, share]) => {
                const from = y;
                y += share * HEIGHT;
                return <rect key={part} class={part} x={x} y={part === "part-cutting" ? 20 + HEIGHT - share * HEIGHT : from} width={bar} height={Math.max(0, share * HEIGHT)} />;
              })}
              {chopper && <text class="label middle" x={x + bar / 2} y={14}>{percent(chopper.cutting)} %</text>}
              <text class="label middle" x={x + bar / 2} y={HEIGHT + 38}>{trucks}</text>
              {trucks === result.now && <text class="label label-quiet middle" x={x + bar / 2} y={HEIGHT + 54}>{now}</text>}
            </g>
          );
        })}
      </svg>
      <p class="quiet keys"><span class="swatch part-cutting" /> {cutting} <span class="swatch part-trucks" /> {waitsTrucks} <span class="swatch part-storage" /> {waitsStorage}</p>
    </div>
  );
}
