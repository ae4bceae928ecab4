/** The one or two drawings of a lesson, all plans side by side. */
import { momentAt } from "../../sim/harvest/moment.ts";
import { solidDensity, waterDensity } from "../../sim/forage/porespace.ts";
import { ClampSection, clampScale } from "../drawings/ClampSection.tsx";
import { DensityBand } from "../drawings/DensityBand.tsx";
import { DensityLegend } from "../drawings/DensityLegend.tsx";
import { LedgerChart } from "../drawings/LedgerChart.tsx";
import { Strip } from "../drawings/Strip.tsx";
import { clock, quantity, unitName } from "../quantity.ts";
import { units } from "../state.ts";
import { useWidth } from "../useWidth.ts";
import { words } from "../words.ts";
import { lessonSheet } from "../words/lessons.ts";
import { meanOf, type DrawingName } from "./lesson.ts";
import type { Run } from "./room.ts";

interface DrawnProps { readonly told: readonly Run[]; readonly plans: readonly string[] }

export function Drawings({ names, told, plans }: DrawnProps & { readonly names: readonly DrawingName[] }) {
  return <>{names.map((name) => <Drawing key={name} name={name} told={told} plans={plans} />)}</>;
}

function Drawing({ name, ...drawn }: DrawnProps & { readonly name: DrawingName }) {
  switch (name) {
    case "strips": return <Strips {...drawn} />;
    case "clamps": return <Clamps {...drawn} />;
    case "bands": return <Bands {...drawn} />;
    case "ledgers": return <Ledgers {...drawn} />;
    case "holds": return <Holds {...drawn} />;
  }
}

/** Every plan at the moment that tells most of the first. */
function Strips({ told, plans }: DrawnProps) {
  const time = told[0]!.story.telling;
  return (
    <>
      {told.map(({ story }, i) => (
        <figure class="lesson-figure" key={i}>
          <figcaption><h3>{lessonSheet.see.at(plans[i]!, clock(time))}</h3></figcaption>
          <Strip rehearsed={story} moment={momentAt(story.replay, Math.min(time, story.replay.day.until))} units={units.value} />
        </figure>
      ))}
    </>
  );
}

/** px over a clamp, and below its ground. */
const OVER = 8;
const BELOW = 26;

function Clamps({ told, plans }: DrawnProps) {
  const { targets } = told[0]!.scenario;
  return (
    <>
      <div class="clamps">{told.map((run, i) => <Clamp key={i} run={run} plan={plans[i]!} />)}</div>
      <p class="quiet">{words.strip.whichDay(told[0]!.findings.rehearsals)}</p>
      <DensityLegend target={targets.dryDensity} unit={unitName("density", units.value)} units={units.value} />
    </>
  );
}

function Clamp({ run: { story, findings }, plan }: { readonly run: Run; readonly plan: string }) {
  const [ref, width] = useWidth<HTMLElement>();
  const system = units.value;
  const { day } = story.replay;
  const moment = momentAt(story.replay, day.until);
  const laid = quantity(moment.storages[0]!.laid, "mass", system);
  const { clampOf, clampSummary } = lessonSheet.see;
  const storage = story.scenario.storages[0]!;
  const { body } = story.clamps[0]!.layout;
  // The section's own scale, said here: under it there is no strip to go with.
  const length = Math.max(storage.length, body.toe);
  const highest = Math.max(storage.height, body.top);
  const { perMetre, times } = clampScale({ x: 0, width }, length, highest);
  const ground = OVER + Math.ceil(highest * perMetre * times);
  return (
    <figure class="lesson-figure clamp-figure" ref={ref}>
      <figcaption><h3>{clampOf(plan, laid)}</h3>{width > 0 && <p class="quiet">{words.strip.scale(quantity(storage.length, "length", system), times)}</p>}</figcaption>
      {width > 0 && (
        <svg width={width} height={ground + BELOW} viewBox={`0 0 ${width} ${ground + BELOW}`} role="img"
          aria-label={clampSummary(plan, laid, quantity(meanOf({ findings, scenario: story.scenario }, "dryDensity"), "density", system), `${Math.round(100 * findings.storages[0]!.shareUnderTarget)} %`)}>
          <ClampSection zone={{ x: 0, width }} y={ground} scenario={story.scenario} story={story.clamps[0]!} moment={moment.storages[0]!} tractors={[]} machines={day.machines} units={system} />
        </svg>
      )}
    </figure>
  );
}

function Bands({ told, plans }: DrawnProps) {
  const [ref, width] = useWidth<HTMLElement>();
  const storages = told.map(({ findings }, i) => ({ ...findings.storages[0]!, name: plans[i]! }));
  return (
    <figure class="lesson-figure sure" ref={ref}>
      <figcaption><h3>{words.density.title}</h3><p><span class="key key-luck" aria-hidden="true" /> {words.density.luck}<br /><span class="key key-band" aria-hidden="true" /> {words.density.scatter}</p></figcaption>
      {width > 0 && <DensityBand storages={storages} target={told[0]!.scenario.targets.dryDensity} units={units.value} width={width} />}
    </figure>
  );
}

function Ledgers({ told, plans }: DrawnProps) {
  return <div class="clamps">{told.map((run, i) => <OneLedger key={i} run={run} plan={plans[i]!} />)}</div>;
}

function OneLedger({ run: { findings }, plan }: { readonly run: Run; readonly plan: string }) {
  const [ref, width] = useWidth<HTMLElement>();
  return (
    <figure class="lesson-figure" ref={ref}>
      <figcaption><h3>{plan}: {words.ledger.title.toLowerCase()}</h3></figcaption>
      {width > 0 && <LedgerChart ledger={findings.ledger} losses={findings.losses} units={units.value} width={width} />}
    </figure>
  );
}

/** What a cubic metre of each clamp holds: dry matter, water, and what is left to air and gas. */
function Holds({ told, plans }: DrawnProps) {
  const { holds, parts, holdsSummary } = lessonSheet.see;
  const percent = (share: number) => `${(100 * share).toFixed(0)} %`;
  return (
    <figure class="lesson-figure">
      <figcaption><h3>{holds}</h3></figcaption>
      {told.map((run, i) => {
        const dry = meanOf(run, "dryDensity");
        const shares = { solids: dry / solidDensity.value, water: (meanOf(run, "wetDensity") - dry) / waterDensity.value, gas: 0 };
        shares.gas = 1 - shares.solids - shares.water;
        const [solids, water] = [100 * shares.solids, 100 * shares.water];
        return (
          <div key={i} class="holds">
            <p>{plans[i]}</p>
            <svg width="100%" height="44" role="img" aria-label={holdsSummary(plans[i]!, percent(shares.solids), percent(shares.water), percent(shares.gas))}>
              <rect class="hold-solids" x="0" y="1" width={`${solids}%`} height="42" />
              <rect class="hold-water" x={`${solids}%`} y="1" width={`${water}%`} height="42" />
              <rect class="hold-gas" x={`${solids + water}%`} y="1" width={`${100 - solids - water}%`} height="42" />
            </svg>
            <p class="holds-key">{(["solids", "water", "gas"] as const).map((part) => <span key={part}><span class={`key-hold hold-${part}`} aria-hidden="true" /> {parts[part]} {percent(shares[part])}</span>)}</p>
          </div>
        );
      })}
    </figure>
  );
}
