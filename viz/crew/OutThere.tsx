/** Fields in their order, and the road: what drivers read. */
import type { Scenario } from "../../sim/scenario/types.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { clock, number, quantity, span, unitName, type UnitSystem } from "../quantity.ts";
import { listed } from "../words.ts";
import { crewWords } from "../words/crew.ts";
import { Blank } from "./Blank.tsx";
import type { DaySheet, FieldRow } from "./daysheet.ts";

/** Minutes by the watch: a decimal where it says something. */
export const minutesIn = (minutes: number): string => `${formatNumber(minutes, minutes < 9.95 ? 1 : 0)} min`;

export function Fields({ rows, choppers, units }: { readonly rows: readonly FieldRow[]; readonly choppers: number; readonly units: UnitSystem }) {
  const { head, title, none, note } = crewWords.fields;
  return (
    <section aria-labelledby="crew-fields">
      <h2 id="crew-fields">{title}</h2>
      <div class="scroll" tabIndex={0} role="group" aria-label={title}>
        <table class="wide">
          <thead>
            <tr>
              <th scope="col" class="left">{head.field}</th>{choppers > 1 && <th scope="col" class="left">{head.chopper}</th>}
              <th scope="col">{head.start}</th><th scope="col">{head.area}, {unitName("area", units)}</th><th scope="col">{head.mass}, {unitName("mass", units)}</th><th scope="col">{head.loads}</th>
              <th scope="col">{head.road}, {unitName("distance", units)}</th><th scope="col">{head.moisture}</th><th scope="col" class="left by-hand">{head.gate}</th><th scope="col" class="left by-hand">{head.wires}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ name, chopper, start, area, mass, loads, distance, moisture }) => (
              <tr key={name}>
                <th scope="row" class="left">{name}</th>{choppers > 1 && <td class="left">{chopper ?? ""}</td>}
                <td>{start === null ? none : clock(start)}</td><td>{number(area, "area", units)}</td><td>{number(mass, "mass", units)}</td><td>{loads}</td>
                <td>{number(distance, "distance", units)}</td><td>{number(moisture, "share", units)}</td><td class="fill by-hand" /><td class="fill by-hand" />
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="quiet">{note}</p>
    </section>
  );
}

export function OnTheRoad({ sheet, scenario, units }: { readonly sheet: DaySheet; readonly scenario: Scenario; readonly units: UnitSystem }) {
  const { road } = crewWords;
  const kinds = listed(sheet.trucks.map(({ kind, count, load }) => road.trucks(count, kind, quantity(load, "mass", units, 1))));
  const trucks = sheet.trucks.reduce((sum, { count }) => sum + count, 0);
  return (
    <section aria-labelledby="crew-road">
      <h2 id="crew-road">{road.title}</h2>
      <p>{road.spacing(kinds, minutesIn(sheet.every))} {Number.isFinite(sheet.round) && road.round(minutesIn(sheet.round))} {scenario.weighing && road.scale(span(scenario.weighing.time), scenario.weighing.lanes)}</p>
      <p class="blanks"><Blank wide label={scenario.lane ? road.lane(quantity(scenario.lane.length, "length", units)) : road.laneRule} /></p>
      <p>{road.legal}</p>
      <ul class="fill-grid">
        {Array.from({ length: trucks }, (_, i) => (
          <li key={i}><strong>{i + 1}</strong> <span class="quiet">{road.driver}</span> <span class="line" /> <span class="quiet">{road.atMost}</span> <span class="line short" /> <span class="quiet">{unitName("mass", units)}</span></li>
        ))}
      </ul>
    </section>
  );
}
