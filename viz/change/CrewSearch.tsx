/** A search for the cheapest crew: ranges asked for here or given in the file, the ranking as it comes, and the plans that no other beats. */
import { batch, signal, useSignal } from "@preact/signals";
import type { CrewSearch as Result, CrewSoFar } from "../../sim/study/crew.ts";
import { figureLabel, figureValue } from "../../sim/study/figuretext.ts";
import type { CrewPlan } from "../../sim/study/planrecord.ts";
import { plansOf } from "../../sim/study/plans.ts";
import { RULES, listed } from "../words.ts";
import { quantity, unitName } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { findings, plan, rewrite, units } from "../state.ts";
import { words } from "../words/change.ts";
import { asking } from "./asked.ts";
import { reader } from "./reader.ts";
import { CautionTexts } from "./CautionTexts.tsx";
import { Front } from "./Front.tsx";
import { MOST_TRUCKS, type AskedCrew } from "./nearest.ts";
import { NoneDoes } from "./NoneDoes.tsx";
import { asksMass, mostTractorsOf, MOST_TRACTORS, rangesOf, searchOf, type Ranges } from "./ranges.ts";
import { checkedPlan, tryOut } from "./tried.ts";
import { Under } from "./Under.tsx";

const study = asking<Result, CrewSoFar>("crewup");
/** What the answer shown was asked with; the sheet's boxes may say something else by now. */
const asked = signal<AskedCrew | null>(null);

export function CrewSearch() {
  const chosen = useSignal<Partial<Ranges>>({});
  const sure = useSignal(90);
  const document = plan.value;
  const scenario = checkedPlan();
  if (!document || !scenario) return null;
  const rangesNow = (): Ranges => ({ ...rangesOf(scenario, document, units.value), ...chosen.value });
  const ranges = rangesNow();
  const set = (part: Partial<Ranges>) => { chosen.value = { ...chosen.value, ...part }; };
  const ask = (other: Partial<Pick<AskedCrew, "ranges" | "sure">> = {}) => {
    batch(() => {
      if (other.ranges) chosen.value = other.ranges;
      if (other.sure) sure.value = other.sure;
    });
    // The search becomes part of the plan, so that what was asked can be saved, sent and asked again.
    // A figure that was entered with the key that asks stands in no picture of the sheet yet.
    const searched = { ...document, search: searchOf(scenario, document, rangesNow(), units.value) };
    if (JSON.stringify(searched) !== JSON.stringify(document)) rewrite(searched);
    asked.value = { ranges: rangesNow(), sure: sure.value, mostTractors: mostTractorsOf(scenario, document) };
    study.ask(searched, { sure: sure.value / 100 });
  };
  const now = study.now.value;
  const result = now?.result ?? null;
  const w = words.crew;
  const whole = (label: string, value: number, change: (value: number) => void, least: number, most: number) => (
    <input type="number" inputMode="numeric" min={least} max={most} value={value} aria-label={label}
      onChange={(event) => { const n = Math.round(Number(event.currentTarget.value)); if (n >= least && n <= most) change(n); }} />
  );
  return (
    <section aria-labelledby="crew">
      <h2 id="crew">{w.title}</h2>
      <p>{w.lead}</p>
      <form class="ranges" onSubmit={(event) => { event.preventDefault(); ask(); }}>
        <span>{w.trucks}</span><span class="range">{whole(w.trucks, ranges.trucksFrom, (trucksFrom) => set({ trucksFrom }), 1, MOST_TRUCKS)}{whole(w.trucks, ranges.trucksTo, (trucksTo) => set({ trucksTo }), 1, MOST_TRUCKS)}</span>
        <span>{w.tractors}</span><span class="range">{whole(w.tractors, ranges.tractorsFrom, (tractorsFrom) => set({ tractorsFrom }), 0, MOST_TRACTORS)}{whole(w.tractors, ranges.tractorsTo, (tractorsTo) => set({ tractorsTo }), 0, MOST_TRACTORS)}</span>
        {asksMass(scenario, document) && (
          <><span>{w.heavy}</span><span class="range">{whole(w.heavy, ranges.mass, (mass) => set({ mass }), 1, 120_000)}<span class="unit">{unitName("machineMass", units.value)}</span></span></>
        )}
        <label for="any-rule">{w.anyRule}</label><input id="any-rule" type="checkbox" checked={ranges.anyRule} onChange={(event) => set({ anyRule: event.currentTarget.checked })} />
        <span>{w.sure}</span><span class="range">{whole(w.sure, sure.value, (value) => { sure.value = value; }, 1, 99)}</span>
        {!now?.progress && <button type="submit">{w.ask}</button>}
      </form>
      <Under study={study} again={ask} />
      {!result && now?.soFar && <><p class="quiet">{w.soFar(now.soFar.rehearsed)}</p><Plans plans={now.soFar.best} name={w.title} /></>}
      {result && <Found result={result} ask={ask} />}
    </section>
  );
}

function Found({ result, ask }: { readonly result: Result; readonly ask: Parameters<typeof NoneDoes>[0]["ask"] }) {
  const w = words.crew;
  const best = result.chosen ?? result.nearest?.plan ?? null;
  return (
    <>
      <p class="quiet">{w.plans(result.plans, result.hopeless, result.days)}</p>
      {best === null && <p>{w.endless}</p>}
      {best && (
        <div class="card">
          <div class="card-head">
            <h3>{result.chosen ? w.chosen : w.nearest}: {said(best)}</h3>
            <button type="button" onClick={() => take(best)}>{w.take}</button>
          </div>
          <Plans plans={[best]} name={result.chosen ? w.chosen : w.nearest} />
          {result.nearest && asked.value && <NoneDoes result={result} nearest={result.nearest} asked={asked.value} ask={ask} toRemedies={() => { take(best); goToRemedies(); }} />}
          <CautionTexts cautions={result.cautions} told={findings.value?.cautions ?? []} />
        </div>
      )}
      {result.runnersUp.length > 0 && <><h3>{w.runnersUp}</h3><Plans plans={result.runnersUp} name={w.runnersUp} /></>}
      {result.front.length > 1 && <><h3>{w.front}</h3><Front plans={result.front} chosen={best?.index ?? null} head={heads()} rows={() => result.front.map((each) => [said(each), ...cells(each)])} /></>}
      <p class="quiet">{result.chosen && textIn(units.value, result.guarantee)} {result.method}</p>
    </>
  );
}

const heads = (): string[] => {
  const { head } = words.crew;
  return [head.plan, head.chance, ...(["costPerTonneFed", "dryDensity", "closedAt"] as const).map((name) => textIn(units.value, figureLabel(name, reader())))];
};

function cells({ chance, cost, density, closedAt }: CrewPlan): string[] {
  return [
    words.crew.of100(String(Math.round(100 * chance.share))),
    cost ? figureValue("costPerTonneFed", cost.mean, reader()) : "", density ? figureValue("dryDensity", density.mean, reader()) : "", closedAt ? figureValue("closedAt", closedAt.mean, reader()) : "",
  ];
}

function Plans({ plans, name }: { readonly plans: readonly CrewPlan[]; readonly name: string }) {
  return (
    <div class="scroll" tabIndex={0} role="group" aria-label={name}>
      <table>
        <thead><tr>{heads().map((text, i) => <th key={i} scope="col" class={i === 0 ? "left" : ""}>{text}</th>)}</tr></thead>
        <tbody>{plans.map((each) => <tr key={each.index}><th scope="row" class="left">{said(each)}</th>{cells(each).map((text, i) => <td key={i}>{text}</td>)}</tr>)}</tbody>
      </table>
    </div>
  );
}

/** The plan in words, by what the search chose. */
function said({ trucks, tractors, layer, rule, pace }: CrewPlan): string {
  const w = words.crew.plan;
  return [
    ...(trucks === null ? [] : [w.trucks(trucks)]),
    ...(tractors === null ? [] : [tractors.length === 0 ? w.none : listed(tractors.map(({ name, count }) => w.tractor(name, count)))]),
    ...(layer === null ? [] : [w.layer(quantity(layer, "thickness", units.value))]),
    ...(rule === null ? [] : [RULES[rule].toLowerCase()]),
    ...(pace === null ? [] : [w.pace(`${Math.round(100 * pace)} %`)]),
  ].join("; ");
}

function take(chosen: CrewPlan): void {
  tryOut(said(chosen), (scenario) => (scenario.search ? plansOf(scenario)[chosen.index]?.scenario ?? scenario : scenario));
}

/** Takes the reader to the remedies, which are worked out for the plan that was just taken. */
function goToRemedies(): void {
  const place = document.getElementById("remedies")!;
  place.scrollIntoView();
  place.focus({ preventScroll: true });
}
