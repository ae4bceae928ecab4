/** The day drawn: the strip under the wall clock, the replay, and the pictures for deciding, all at one time. */
import { extent } from "d3";
import { CurvesChart } from "../drawings/CurvesChart.tsx";
import { DebtChart, debtAt } from "../drawings/DebtChart.tsx";
import { DensityLegend } from "../drawings/DensityLegend.tsx";
import { Downloads } from "../drawings/Downloads.tsx";
import { Strip } from "../drawings/Strip.tsx";
import { TruckLines } from "../drawings/TruckLines.tsx";
import { gapAt, heightAt } from "../curves.ts";
import type { Trip } from "../../sim/harvest/daylog.ts";
import type { Moment, TruckMoment } from "../../sim/harvest/moment.ts";
import { byKey } from "../keys.ts";
import { machinePointed, pointing } from "../pointing.ts";
import { clock, number, quantity, span, unitName, type UnitSystem } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";
import { findings, moment, momentSeen, rehearsed, seen, units } from "../state.ts";
import { waitedIn } from "../trucklines.ts";
import { ON_PAPER, useWidth } from "../useWidth.ts";
import { STATE_WORDS, STEP_WORDS, listed, words } from "../words.ts";
import { pictures } from "../words/pictures.ts";
import { WhereFrom } from "./Figures.tsx";
import { CautionsHere } from "./Reasons.tsx";
import { ReplayButtons, Scrubber } from "./Replay.tsx";
import { TableTwin, UnderPicture } from "./TableTwin.tsx";

/** The strip with its clock above and its legend below. */
export function StripFigure() {
  const story = rehearsed.value;
  const now = moment.value;
  if (!story || !now) return <section class="day" aria-busy="true"><div class="strip strip-empty" /></section>;
  const system = units.value;
  return (
    <section class="day" aria-labelledby="clock" data-picture>
      <div class="clock-row">
        <h2 id="clock" class="clock"><span class="unseen">{words.strip.title}, </span>{clock(now.time)}</h2>
        {findings.value && <p class="quiet">{words.strip.whichDay(findings.value.rehearsals)}</p>}
      </div>
      <div tabIndex={0} role="group" aria-label={words.strip.title} aria-describedby="keys" onKeyDown={byKey} {...pointing}>
        <Strip rehearsed={story} moment={now} units={system} pointed={machinePointed()} />
      </div>
      <div class="under-strip">
        <div class="twins">
          <ReplayButtons />
          <TableTwin summary={words.table.now} name={words.strip.title} head={words.nowHead} inWords={[0, 1]} rows={() => nowRows(story, now, system)} machines={nowMachines(now)} />
          <TableTwin summary={words.table.lifts} name={words.strip.heads.clamp} head={words.liftHead} inWords={[0, 6]} rows={() => liftRows(story, system)} />
          <Downloads name={words.strip.title} head={words.nowHead} rows={() => nowRows(story, now, system)} />
        </div>
        <div class="clamp-notes">
          <p class="tractor-states">{now.tractors.map(({ machine, state }) => (state === null ? null : <span class="input" key={machine}>{nameAndMass(story, machine, system)} {STATE_WORDS[state]}</span>))}</p>
          <DensityLegend target={story.scenario.targets.dryDensity} unit={unitName("density", system)} units={system} />
          <p class="quiet">{underTarget(story, now)}</p>
        </div>
      </div>
    </section>
  );
}

/** The scrubber and, on the same time axis, the curves, the debt and the trucks. */
export function Deciding() {
  const [ref, width] = useWidth<HTMLDivElement>(ON_PAPER.half);
  const story = rehearsed.value;
  const system = units.value;
  return (
    <div class="deciding" ref={ref}>
      <Scrubber />
      {story && width > 0 && (
        <>
          <figure class="screen-only" data-picture>
            <figcaption><h2>{pictures.curves.title}</h2><p class="now"><CurvesNow story={story} system={system} /></p></figcaption>
            <CurvesChart rehearsed={story} units={system} width={width} />
            <UnderPicture name={pictures.curves.title} head={curvesHead(system)} rows={() => eachHalfHour(story).map((t) => curvesRow(story, t, system))} />
            <WhereFrom names={["delivered", "deliveryRate", "apronPeak", "apronMean"]} />
          </figure>
          <figure data-picture>
            <figcaption><h2>{words.debt.title}</h2><p>{words.debt.what} <DebtNow story={story} /></p></figcaption>
            <DebtChart rehearsed={story} width={width} />
            <UnderPicture name={words.debt.title} head={debtHead(story)} rows={() => eachHalfHour(story).map((t) => [clock(t), ...story.debts.map(({ points }) => (debtAt(points, t) / 60).toFixed(0))])} />
            <WhereFrom names={["debtPeak", "packingRateAtTarget", "packingIdle"]} />
          </figure>
          <figure class="screen-only" data-picture>
            <figcaption><h2>{pictures.trucks.title}</h2><p>{pictures.trucks.what}</p><p class="now"><TrucksNow story={story} /></p></figcaption>
            <TruckLines rehearsed={story} width={width} />
            <UnderPicture name={pictures.trucks.title} head={pictures.trucks.head} machines={roundsOf(story).map(({ truck }) => truck)} rows={() => roundsOf(story).map((trip) => roundRow(story, trip))} />
            <WhereFrom names={["truckCycle", "truckWaiting", "chopperWaiting", "loadsPerHour"]} />
            <CautionsHere ids={["road-weights"]} />
          </figure>
        </>
      )}
    </div>
  );
}

/** The figures of the minute that one looks at. */
function CurvesNow({ story, system }: { readonly story: Rehearsed; readonly system: UnitSystem }) {
  const at = seen.value;
  const { tipped, packed } = story.curves;
  const { mass, ago } = gapAt(story.curves, at);
  const said = (kg: number) => quantity(kg, "mass", system);
  return <>{pictures.curves.now(clock(at), said(heightAt(tipped, at)), said(heightAt(packed, at)))} {pictures.curves.gap(said(mass), mass > 0 ? span(ago) : null)}</>;
}

function DebtNow({ story }: { readonly story: Rehearsed }) {
  const owed = story.debts.map(({ points }) => debtAt(points, seen.value)).filter(Number.isFinite);
  return owed.length === 0 ? null : <span class="nowrap">{pictures.debt.now(clock(seen.value), listed(owed.map(span)))}</span>;
}

function TrucksNow({ story }: { readonly story: Rehearsed }) {
  const { time: at, trucks } = momentSeen.value!;
  const { count, now, one } = pictures.trucks;
  const going = trucks.filter(({ stopped }) => stopped === null);
  const on = (...steps: TruckMoment["step"][]) => going.filter(({ step }) => steps.includes(step)).length;
  const counts = [
    [count.field, on("in-line")], [count.filling, on("changeover", "filling")], [count.loaded, on("loaded-road", "lane-line", "lane")], [count.storage, on("scale-line", "weighing", "place-line", "room-wait")],
    [count.tipping, on("tipping")], [count.empty, on("empty-road")], [count.stopped, trucks.length - going.length],
  ] as const;
  const pointed = trucks.find(({ machine }) => machine === machinePointed());
  return (
    <>
      {now(clock(at), counts.flatMap(([said, n]) => (n > 0 ? [said(n)] : [])))}
      {pointed && <strong> {one(story.replay.day.machines[pointed.machine]!.name, pointed.stopped ? STATE_WORDS[pointed.stopped] : STEP_WORDS[pointed.step], clock(pointed.since))}.</strong>}
    </>
  );
}

function nameAndMass({ scenario, replay: { day } }: Rehearsed, machine: number, system: UnitSystem): string {
  const { name, storage, index } = day.machines[machine]!;
  return `${name} ${quantity(scenario.storages[storage!]!.tractors[index]!.mass, "machineMass", system)}`;
}

function underTarget({ clamps }: Rehearsed, now: Moment): string {
  let under = 0;
  let all = 0;
  now.storages.forEach((storage, s) => {
    const { stored } = clamps[s]!;
    const closed = storage.lifts - (storage.open >= 0 ? 1 : 0);
    for (let i = 0; i < closed; i++) {
      all += stored.lifts[i]!.mass;
      if (stored.under[i]) under += stored.lifts[i]!.mass;
    }
  });
  return under === 0 ? words.strip.noneUnder : words.strip.under(`${Math.round((100 * under) / all)} %`);
}

/** Who does what at a moment, and what lies where. */
export function nowRows({ scenario, replay: { day } }: Rehearsed, now: Moment, system: UnitSystem): string[][] {
  const name = (machine: number) => day.machines[machine]!.name;
  return [
    ...now.choppers.map(({ machine, state, since }) => [name(machine), state === null ? "" : STATE_WORDS[state], clock(since), ""]),
    ...now.trucks.map(({ machine, step, stopped, since, mass }) => [name(machine), stopped ? STATE_WORDS[stopped] : STEP_WORDS[step], clock(since), mass > 0 ? quantity(mass, "mass", system, 1) : ""]),
    ...now.tractors.map(({ machine, state, since }) => [name(machine), state === null ? "" : STATE_WORDS[state], clock(since), ""]),
    ...now.storages.map(({ apron, laid }, s) => [scenario.storages[s]!.name, words.strip.apron(quantity(apron, "mass", system)), "", quantity(laid, "mass", system)]),
  ];
}

/** The machine of each of these rows; those of storages are about none. */
function nowMachines(now: Moment): (number | null)[] {
  return [...[...now.choppers, ...now.trucks, ...now.tractors].map(({ machine }) => machine), ...now.storages.map(() => null)];
}

function liftRows({ clamps }: Rehearsed, system: UnitSystem): string[][] {
  return clamps.flatMap(({ stored }) => stored.lifts.map((lift, i) => [
    String(i + 1), clock(lift.opened), quantity(lift.mass, "mass", system, 1), quantity(lift.layer, "thickness", system),
    span(lift.rolled.reduce((sum, seconds) => sum + seconds, 0)), quantity(stored.densities[i]!, "density", system),
    stored.under[i] ? words.underTarget : words.atTarget,
  ]));
}

function eachHalfHour({ replay: { day } }: Rehearsed): number[] {
  const [from = 0, until = 0] = extent([day.from, day.until]);
  const times = [from];
  for (let t = Math.ceil((from + 1) / 1800) * 1800; t < until; t += 1800) times.push(t);
  return [...times, until];
}

function curvesRow({ curves }: Rehearsed, time: number, system: UnitSystem): string[] {
  const { mass, ago } = gapAt(curves, time);
  return [clock(time), ...[heightAt(curves.tipped, time), heightAt(curves.packed, time), mass].map((kg) => number(kg, "mass", system)), (ago / 60).toFixed(0)];
}

const curvesHead = (system: UnitSystem): string[] => pictures.curves.head.map((text, i) => (i === 0 || i === 4 ? text : `${text}, ${unitName("mass", system)}`));
const debtHead = ({ scenario: { storages } }: Rehearsed): string[] =>
  (storages.length === 1 ? [...words.debt.head] : [words.debt.head[0], ...storages.map(({ name }) => `${words.debt.head[1]}: ${name}`)]);

/** The rounds of all trucks, truck by truck. */
const roundsOf = ({ replay: { day, trucks } }: Rehearsed): Trip[] => trucks.flatMap(({ trips }) => trips.map((trip) => day.trips[trip]!));

function roundRow({ replay: { day, breaks, trucks } }: Rehearsed, trip: Trip): string[] {
  const at = (time: number) => (Number.isNaN(time) ? "" : clock(time));
  const load = trucks.find(({ machine }) => machine === trip.truck)!.trips.indexOf(day.trips.indexOf(trip)) + 1;
  return [
    day.machines[trip.truck]!.name, String(load), at(trip.arrived), at(trip.fillFrom), at(trip.filled), at(trip.atStorage), at(trip.tipFrom), at(trip.tipped), (waitedIn(trip, breaks) / 60).toFixed(0),
  ];
}
