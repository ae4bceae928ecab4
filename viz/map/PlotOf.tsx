/** A plot of the map: drawn, measured, turned by its rows, and put into the plan or taken out of it. */
import { useSignal } from "@preact/signals";
import { roadFactor } from "../../sim/ground/distance.ts";
import { at, listAt } from "../document.ts";
import { within } from "../plan/amounts.ts";
import { DragNumber } from "../plan/DragNumber.tsx";
import { change } from "../plan/Slot.tsx";
import { quantity } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { planWords } from "../words/plan.ts";
import { PlaceBox } from "./PlaceBox.tsx";
import { PlotDrawing } from "./PlotDrawing.tsx";
import { firstStorage, newField, placeRead, rowsAlong, takenAt, wayTo, withoutPlot, withPlot, type Choice, type Plot } from "./plots.ts";
import { again, befores, choiceOf, choices } from "./taking.ts";

export function PlotOf({ plot, scale }: { readonly plot: Plot; readonly scale: number }) {
  const w = planWords.map;
  const onto = useSignal("");
  const document = plan.value!;
  const fields = listAt(document, ["fields"]);
  const place = takenAt(document, plot);
  const choice = choiceOf(plot);
  const set = (part: Partial<Choice>) => {
    choices.value = { ...choices.value, [plot.number]: { ...choice, ...part } };
    again(plot);
  };
  const system = units.value;
  const metres = (length: number) => quantity(length, "length", system, 0);
  const far = (length: number) => quantity(length, "distance", system, 2);

  const goesTo = place >= 0 ? fields[place] : onto.value === "" ? undefined : fields[Number(onto.value)];
  const storage = listAt(document, ["storage"])[firstStorage(document, goesTo)];
  const stands = placeRead(at(storage, ["at"]));
  const gate = placeRead(choice.gate);
  const way = stands === null ? null : wayTo(plot, gate, stands, choice.factor ?? roadFactor.value);
  const bearing = choice.rows ?? plot.longest;
  const along = rowsAlong(plot, bearing);
  const { given } = plot;
  const storageName = String(at(storage, ["name"]) ?? w.theStorage);
  const rowsOn = choice.rows !== null ? w.rowsYours : w.rowsLongest;
  const road = given.distance !== undefined ? w.said(textIn(system, given.distance)) : way === null ? w.noRoad(storageName) : w.road(far(way.road), storageName, far(way.straight), String(choice.factor ?? roadFactor.value), gate !== null);
  const holes = plot.outline.parts.reduce((sum, part) => sum + part.holes.length, 0);
  const bearingShown = Math.round(bearing * 10) / 10;
  const label = w.drawing(plot.name, quantity(plot.area, "area", system), metres(along), String(bearingShown), way === null ? null : far(way.road));
  const take = () => {
    const to = onto.value === "" ? null : Number(onto.value);
    befores.value = { ...befores.value, [plot.number]: to === null ? null : fields[to]! };
    change((now) => withPlot(now, plot, to, choice));
  };
  const back = () => change((now) => withoutPlot(now, plot, befores.value[plot.number] ?? null));
  const isLast = place >= 0 && (befores.value[plot.number] ?? null) === null && fields.length < 2;
  const begins = newField(document, plot);
  return (
    <li>
      <h4>{plot.name}</h4>
      <div class="plot-picture"><PlotDrawing plot={plot} rows={bearing} gate={gate} storage={way === null ? null : { bearing: way.bearing, far: far(way.road) }} scale={scale} label={label} /></div>
      <dl class="plot-facts">
        <dt>{planWords.labels.area}</dt>
        <dd>{quantity(plot.area, "area", system, 2)} <span class="quiet">{w.areaOn(plot.outline.parts.length, holes)}</span></dd>
        <dt>{planWords.labels.rowLength}</dt>
        <dd>
          {given.rowLength !== undefined && choice.rows === null ? w.said(textIn(system, given.rowLength)) : <><output>{metres(along)}</output> <span class="quiet">{rowsOn}</span></>}
          <span class="slot-row"><label for={`map-rows-${plot.number}`}>{w.rows}</label>
            <DragNumber id={`map-rows-${plot.number}`} label={`${plot.name}: ${w.rows}`} figure={bearingShown} text={String(bearingShown)} unit={w.degrees} least={0} most={360} usual={choice.rows === null} wrong={false} describedBy={undefined}
              readable={(text) => within(text, 0, 360) !== null} set={(text) => { const to = within(text, 0, 360); if (to !== null) set({ rows: to }); }} emptied={() => set({ rows: null })} />
            {choice.rows !== null && <button type="button" class="plain" aria-label={`${plot.name}: ${w.toLongest}`} onClick={() => set({ rows: null })}>{w.toLongest}</button>}
          </span>
        </dd>
        <dt>{planWords.labels.distance}</dt>
        <dd>{road}</dd>
        <dt>{planWords.labels.yield}</dt>
        <dd>{given.yield !== undefined ? w.said(textIn(system, given.yield)) : goesTo !== undefined ? w.yieldOf(textIn(system, String(at(goesTo, ["yield"]))), String(at(goesTo, ["name"]))) : w.yieldUsual(textIn(system, String(begins.yield ?? "")), String(at(fields[0], ["name"]) ?? ""))}</dd>
      </dl>
      <div class="plot-doing">
        <PlaceBox id={`map-gate-${plot.number}`} label={w.gateOf} whose={plot.name} value={choice.gate} set={(text) => set({ gate: text })} />
        <p class="slot-row">
          {place >= 0 ? <span key="taken">{w.taken(String(at(fields[place], ["name"]) ?? place + 1))}</span> : (
            <span key="where" class="slot-row">
              <label for={`map-onto-${plot.number}`}>{w.take}</label>
              <select id={`map-onto-${plot.number}`} aria-label={w.takeOf(plot.name)} value={onto.value} onChange={(event) => { onto.value = event.currentTarget.value; }}>
                <option value="">{w.asNew}</option>
                {fields.map((field, i) => <option key={i} value={String(i)}>{w.onto(String(at(field, ["name"]) ?? i + 1))}</option>)}
              </select>
            </span>
          )}
          {/* One button in and out, so that whoever pressed it by key stays on it. */}
          <button key="do" type="button" disabled={isLast} title={isLast ? planWords.lastOne : undefined} aria-label={place >= 0 ? w.backOf(plot.name) : w.intoPlanOf(plot.name)} onClick={place >= 0 ? back : take}>
            {place >= 0 ? w.back : w.intoPlan}
          </button>
        </p>
      </div>
    </li>
  );
}
