/** The day drawn: the strip under the wall clock, the replay, and the pictures for deciding, all at one time. */
import { extent } from "d3";
import { CurvesChart } from "../drawings/CurvesChart.tsx";
import { DebtChart, debtAt } from "../drawings/DebtChart.tsx";
import { DensityBand } from "../drawings/DensityBand.tsx";
import { DensityLegend } from "../drawings/DensityLegend.tsx";
import { Strip } from "../drawings/Strip.tsx";
import { heightAt } from "../curves.ts";
import { gradientShortfall } from "../../sim/forage/geometry/index.ts";
import type { Moment } from "../../sim/harvest/moment.ts";
import { clock, number, quantity, span, unitName, type UnitSystem } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";
import { findings, moment, rehearsed, time, units } from "../state.ts";
import { useWidth } from "../useWidth.ts";
import { STATE_WORDS, STEP_WORDS, words } from "../words.ts";
import { ReplayButtons, Scrubber } from "./Replay.tsx";
import { TableTwin } from "./TableTwin.tsx";

/** The strip with its clock above and its legend below. */
export function StripFigure() {
  const story = rehearsed.value;
  const now = moment.value;
  if (!story || !now) return <section class="day" aria-busy="true"><div class="strip strip-empty" /></section>;
  const system = units.value;
  return (
    <section class="day" aria-labelledby="clock">
      <div class="clock-row">
        <h2 id="clock" class="clock"><span class="unseen">{words.strip.title}, </span>{clock(now.time)}</h2>
        {findings.value && <p class="quiet">{words.strip.whichDay(findings.value.rehearsals)}</p>}
      </div>
      <Strip rehearsed={story} moment={now} units={system} />
      <div class="under-strip">
        <div class="twins">
          <ReplayButtons />
          <TableTwin summary={words.table.now} name={words.strip.title} head={words.nowHead} inWords={[0, 1]} rows={() => nowRows(story, now, system)} />
          <TableTwin summary={words.table.lifts} name={words.strip.heads.clamp} head={words.liftHead} inWords={[0, 6]} rows={() => liftRows(story, system)} />
        </div>
        <div class="clamp-notes">
          <p class="tractor-states">{now.tractors.map(({ machine, state }) => (state === null ? null : <span class="input" key={machine}>{nameAndMass(story, machine, system)} {STATE_WORDS[state]}</span>))}</p>
          <DensityLegend target={story.scenario.targets.dryDensity} unit={unitName("density", system)} units={system} />
          <p class="quiet">{underTarget(story, now)}</p>
          {story.clamps.map((clamp) => {
            const gradient = gradientShortfall(clamp.layout.shape, clamp.stored.volume);
            const percent = (ratio: number) => `${Math.round((ratio - 1) * 100)} %`;
            return gradient && <p class="quiet" key={clamp.storage}>{words.gradient(story.clamps.length > 1 ? story.scenario.storages[clamp.storage]!.name : null, percent(gradient.shown), percent(gradient.measured))}</p>;
          })}
        </div>
      </div>
    </section>
  );
}

/** The scrubber and, on the same time axis, the curves and the debt. */
export function Deciding() {
  const [ref, width] = useWidth<HTMLDivElement>();
  const story = rehearsed.value;
  const system = units.value;
  const at = time.value;
  return (
    <div class="deciding" ref={ref}>
      <Scrubber />
      {story && width > 0 && (
        <>
          <figure>
            <figcaption><h2>{words.curves.title}</h2><p>{curvesNow(story, at, system)}</p></figcaption>
            <CurvesChart rehearsed={story} time={at} units={system} width={width} />
            <TableTwin name={words.curves.title} head={curvesHead(system)} rows={() => eachHalfHour(story).map((t) => [clock(t), ...curvesRow(story, t, system)])} />
          </figure>
          <figure>
            <figcaption><h2>{words.debt.title}</h2><p>{words.debt.what}</p></figcaption>
            <DebtChart rehearsed={story} time={at} width={width} />
            <TableTwin name={words.debt.title} head={debtHead(story)} rows={() => eachHalfHour(story).map((t) => [clock(t), ...story.debts.map(({ points }) => (debtAt(points, t) / 60).toFixed(0))])} />
          </figure>
        </>
      )}
    </div>
  );
}

/** How sure the density is, with its table. */
export function DensityFigure() {
  const [ref, width] = useWidth<HTMLElement>();
  const answer = findings.value;
  const target = rehearsed.value?.scenario.targets.dryDensity;
  const system = units.value;
  if (!answer || target === undefined || answer.storages.length === 0) return null;
  const density = (value: number) => number(value, "density", system);
  return (
    <figure class="sure" ref={ref}>
      <figcaption>
        <h2>{words.density.title}</h2>
        <p><span class="key key-luck" aria-hidden="true" /> {words.density.luck}<br /><span class="key key-band" aria-hidden="true" /> {words.density.scatter}</p>
        {answer.storages.map(({ name, dryDensity }) => <p key={name}>{answer.storages.length > 1 ? `${name}: ` : ""}{words.density.chance(`${Math.round(dryDensity.chanceOfTarget * 100)} %`)}</p>)}
      </figcaption>
      {width > 0 && <DensityBand storages={answer.storages} target={target} units={system} width={width} />}
      <TableTwin name={words.density.title} head={words.density.head.map((text, i) => (i > 0 && i < 5 ? `${text}, ${unitName("density", system)}` : text))}
        rows={() => answer.storages.map(({ name, dryDensity: d }) => [name, density(d.mean), d.ci.map(density).join(" to "), d.band.map(density).join(" to "), density(target), `${Math.round(d.chanceOfTarget * 100)} %`])} />
    </figure>
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

function nowRows({ scenario, replay: { day } }: Rehearsed, now: Moment, system: UnitSystem): string[][] {
  const name = (machine: number) => day.machines[machine]!.name;
  return [
    ...now.choppers.map(({ machine, state, since }) => [name(machine), state === null ? "" : STATE_WORDS[state], clock(since), ""]),
    ...now.trucks.map(({ machine, step, stopped, since, mass }) => [name(machine), stopped ? STATE_WORDS[stopped] : STEP_WORDS[step], clock(since), mass > 0 ? quantity(mass, "mass", system, 1) : ""]),
    ...now.tractors.map(({ machine, state, since }) => [name(machine), state === null ? "" : STATE_WORDS[state], clock(since), ""]),
    ...now.storages.map(({ apron, laid }, s) => [scenario.storages[s]!.name, words.strip.apron(quantity(apron, "mass", system)), "", quantity(laid, "mass", system)]),
  ];
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

function curvesRow({ curves: { tipped, packed } }: Rehearsed, time: number, system: UnitSystem): [string, string, string] {
  const a = heightAt(tipped, time);
  const b = heightAt(packed, time);
  return [number(a, "mass", system), number(b, "mass", system), number(a - b, "mass", system)];
}

const curvesNow = (story: Rehearsed, time: number, system: UnitSystem): string => {
  const [tipped, packed, between] = curvesRow(story, time, system).map((figure) => `${figure} ${unitName("mass", system)}`) as [string, string, string];
  return words.curves.now(clock(time), tipped, packed, between);
};
const curvesHead = (system: UnitSystem): string[] => words.curves.head.map((text, i) => (i === 0 ? text : `${text}, ${unitName("mass", system)}`));
const debtHead = ({ scenario: { storages } }: Rehearsed): string[] =>
  (storages.length === 1 ? [...words.debt.head] : [words.debt.head[0], ...storages.map(({ name }) => `${words.debt.head[1]}: ${name}`)]);
