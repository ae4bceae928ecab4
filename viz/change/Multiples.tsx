/** The same day with so many trucks, or packing tractors: one small picture each, all to one scale. */
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Scenario } from "../../sim/scenario/types.ts";
import { withPackers, withTrucks } from "../../sim/study/change.ts";
import { figureLabel, figureValue } from "../../sim/study/figuretext.ts";
import type { Multiple, Multiples as Result } from "../../sim/study/multiples.ts";
import { OVERS, type Over } from "../../sim/study/overs.ts";
import { UnderPicture } from "../page/TableTwin.tsx";
import { unitName } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { ON_PAPER, useWidth } from "../useWidth.ts";
import { words } from "../words/change.ts";
import { asking } from "./asked.ts";
import { reader } from "./reader.ts";
import { Columns, type Column } from "./Columns.tsx";
import { tryOut } from "./tried.ts";
import { Under } from "./Under.tsx";

const study = asking<Result>("multiples");

export function Multiples() {
  const over = useSignal<Over>("trucks");
  const document = plan.value;
  const ask = () => { if (document) study.ask(document, { over: over.value }); };
  // Once drawn, another choice or another plan is drawn at once; the picture before it stays until then.
  useEffect(() => { if (study.now.peek() !== null) ask(); }, [document, over.value]);
  const now = study.now.value;
  const drawn = useRef<Result | null>(null);
  if (now?.result) drawn.current = now.result;
  const result = now?.result ?? (now?.progress ? drawn.current : null);
  const w = words.multiples;
  return (
    <section aria-labelledby="multiples">
      <h2 id="multiples">{w.title}</h2>
      <p>{w.lead}</p>
      <div class="asks">
        <label class="choice-small">
          <span>{w.over}</span>
          <select value={over.value} onChange={(event) => { over.value = OVERS.find((name) => name === event.currentTarget.value) ?? "trucks"; }}>
            {OVERS.map((name) => <option key={name} value={name}>{w.overs[name]}</option>)}
          </select>
        </label>
        {now === null && <button type="button" onClick={ask}>{w.ask}</button>}
      </div>
      <Under study={study} again={ask} />
      {result && <Drawn result={result} />}
    </section>
  );
}

function Drawn({ result }: { readonly result: Result }) {
  const [ref, width] = useWidth<HTMLElement>(ON_PAPER.half);
  const w = words.multiples;
  return (
    <figure ref={ref} data-picture>
      <figcaption><p class="found">{textIn(units.value, result.inWords)}</p></figcaption>
      {width > 0 && <Columns columns={result.multiples.map((each) => columnOf(each, result))} line={lineOf(result)} width={width} name={w.name[result.over]} />}
      <p class="quiet keys">
        {result.over === "tractors" ? w.tractorsKey : (
          <><span class="swatch part-cutting" /> {w.cutting} <span class="swatch part-trucks" /> {w.waitsTrucks} <span class="swatch part-storage" /> {w.waitsStorage} <span class="swatch part-whole" /> {w.rest}</>
        )}
      </p>
      <UnderPicture name={w.name[result.over]} head={headOf(result)} rows={() => result.multiples.map((each) => row(each, result))} />
      <p class="takes">{result.multiples.filter(({ count, endless }) => count !== result.now && endless === null).map(({ count }) => (
        <button type="button" class="plain" key={count} onClick={() => tryOut(w.so[result.over](count), (scenario) => withSoMany(scenario, result, count))}>{words.fixes.try}: {w.so[result.over](count)}</button>
      ))}</p>
    </figure>
  );
}

function withSoMany(scenario: Scenario, { over, kind }: Result, count: number): Scenario {
  if (over === "trucks") return withTrucks(scenario, count, scenario.trucks.findIndex((each) => each.kind === kind));
  return withPackers(scenario, scenario.storages.findIndex(({ name }) => name === kind), count);
}

const percent = (share: number): string => (100 * share).toFixed(0);

/** Where the chopper's time goes, whole at the top; or how dense it gets, up to a tenth above the densest or the target. */
function columnOf({ count, chopper, density, idle }: Multiple, result: Result): Column {
  const w = words.multiples;
  const isNow = count === result.now;
  const head = { count, isNow, foot: isNow ? [w.now] : [], said: w.so[result.over](count) };
  if (result.over === "trucks") {
    if (!chopper) return { ...head, over: w.never, parts: [], frame: true };
    return { ...head, over: `${percent(chopper.cutting)} %`, frame: true, parts: [["part-cutting", chopper.cutting], ["part-rest", 1 - chopper.cutting - chopper.waitingForTrucks - chopper.waitingForStorage], ["part-storage", chopper.waitingForStorage], ["part-trucks", chopper.waitingForTrucks]] };
  }
  if (!density) return { ...head, over: w.never, parts: [], frame: false };
  return {
    ...head, over: figureValue("dryDensity", density.mean, reader()), frame: false, parts: [["part-density", density.mean / highest(result)]],
    foot: [w.idle(percent(idle ?? 0)), ...head.foot],
  };
}

const highest = ({ multiples, target }: Result): number => 1.1 * Math.max(target, ...multiples.map(({ density }) => density?.mean ?? 0));

function lineOf(result: Result): { readonly at: number; readonly said: string } | null {
  return result.over === "trucks" ? null : { at: result.target / highest(result), said: words.multiples.target(figureValue("dryDensity", result.target, reader())) };
}

function headOf({ over, cost }: Result): string[] {
  const { heads, head } = words.multiples;
  return [heads[over], head.cutting, head.waitsTrucks, head.waitsStorage, head.truckWaits, head.idle, head.pace(unitName("mass", units.value)), `${head.density}, ${unitName("density", units.value)}`, figureLabel(cost, reader())];
}

function row({ count, chopper, truck, idle, pace, density, cost }: Multiple, { cost: by }: Result): string[] {
  const figure = (name: "deliveryRate" | "dryDensity" | typeof by, value: number | undefined) => (value === undefined ? "" : figureValue(name, value, reader()));
  if (!chopper || !truck) return [String(count), words.multiples.never, "", "", "", "", "", "", ""];
  return [
    String(count), percent(chopper.cutting), percent(chopper.waitingForTrucks), percent(chopper.waitingForStorage), truck.waiting.toFixed(1), idle === null ? "" : percent(idle),
    figure("deliveryRate", pace?.mean), figure("dryDensity", density?.mean), figure(by, cost?.mean),
  ];
}
