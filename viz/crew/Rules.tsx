/** When to stop, and what comes after the last load. */
import type { Scenario } from "../../sim/scenario/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { clock, number, printed, quantity, span, type UnitSystem } from "../quantity.ts";
import { crewWords } from "../words/crew.ts";
import { Blank } from "./Blank.tsx";
import { COVERING, SHEET_WIDTH, type DaySheet } from "./daysheet.ts";

interface RulesProps { readonly sheet: DaySheet; readonly scenario: Scenario; readonly units: UnitSystem }

export function StopRules({ sheet: { clamps, moisture }, scenario, units }: RulesProps) {
  const { rules } = crewWords;
  const percent = (share: number) => `${number(share, "share", units)} %`;
  return (
    <section class="stops" aria-labelledby="crew-stops">
      <h2 id="crew-stops">{rules.title}</h2>
      <ul class="said">
        {clamps.map(({ rules: { holds, apronLoads, apronTonnes, storage } }) => <li key={storage}><strong>{rules.apron[holds](rules.lie(apronLoads, quantity(apronTonnes * 1000, "mass", units), clamps.length > 1 ? storage : null))}</strong></li>)}
        <li>{rules.behind[scenario.packing.whenBehind]}</li>
        <li><strong>{rules.wet(percent(moisture.most))}</strong> {rules.dry(percent(moisture.least))} <span class="quiet from-where">{rules.window} {printed(moisture.source)} ({moisture.mark}).{scenario.storages.some(({ form }) => form === "pile") && ` ${rules.pile}`}</span></li>
        <li class="blanks"><Blank wide label={rules.chop(quantity(scenario.crop.chopLength, "chop", units, units === "us" ? 2 : 0))} /></li>
        <li class="blanks"><Blank wide label={rules.rain} /></li>
        <li class="blanks"><Blank wide label={rules.dark} /></li>
      </ul>
    </section>
  );
}

export function AfterTheLast({ sheet: { clamps }, scenario, units }: RulesProps) {
  const { cover } = crewWords;
  return (
    <section aria-labelledby="crew-cover">
      <h2 id="crew-cover">{cover.title}</h2>
      <ul class="said">
        <li>{cover.roll(span(scenario.packing.finish))}</li>
        {clamps.map(({ storage: { name }, finding: { cover: { film, weights } }, cover: planned }) => (
          <li key={name}>{planned === null ? cover.none(name)
            : cover.cover(name, clock(planned.from), clock(planned.until), quantity(film, "surface", units), planned.sheets, quantity(SHEET_WIDTH, "length", units), formatNumber(weights.tyres, 0), formatNumber(weights.bags, 0), scenario.covering.people)}</li>
        ))}
        {clamps.some(({ cover: planned }) => planned !== null) && (
          <li class="quiet from-where">{cover.reckoned(quantity(COVERING.tyre, "surface", units, 2), quantity(COVERING.bag, "length", units, 1), quantity(COVERING.overlap, "length", units, 1), COVERING.marks.join("; "), COVERING.sheetMark)}</li>
        )}
        <li class="blanks"><Blank wide label={cover.ready} /></li>
      </ul>
    </section>
  );
}
