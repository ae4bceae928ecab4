/** Fields from a map file: what was understood of it, drawn and measured, what was refused and why, and each field's way into the plan and out of it. */
import { signal, useSignal } from "@preact/signals";
import { roadFactor, ROAD_FACTORS, readPlace } from "../../sim/ground/distance.ts";
import { MAP_LIMITS } from "../../sim/ground/limits.ts";
import { at, listAt, put, type Json } from "../document.ts";
import { fromShown, quantity, shownIn } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { utf8Of } from "../page/chosen.ts";
import { FileChoice } from "../page/FileChoice.tsx";
import { DragNumber } from "../plan/DragNumber.tsx";
import { without } from "../plan/change.ts";
import { change } from "../plan/Slot.tsx";
import { TypedBox } from "../plan/TypedBox.tsx";
import { planWords } from "../words/plan.ts";
import { roundBelow, spanOf } from "./drawn.ts";
import { PlotDrawing } from "./PlotDrawing.tsx";
import { firstStorage, newField, placeRead, readMap, rowsAlong, takenAt, wayTo, withoutPlot, withPlot, type Choice, type MapRead, type Plot } from "./plots.ts";
import "./map.css";

interface Opened extends MapRead { readonly file: string }

const opened = signal<Opened | null>(null);
/** by number of the plot in the file */
const choices = signal<Readonly<Record<number, Choice>>>({});
/** What each field of the plan was before a plot was put onto it; null for a new one. */
const befores = signal<Readonly<Record<number, Json | null>>>({});
/** Length of the road over the straight line, for all plots; null: the usual. */
const factor = signal<number | null>(null);

/** px of the largest plot */
const LARGEST = 220;

const choiceOf = (plot: Plot): Choice => ({ rows: null, gate: "", ...choices.value[plot.number], factor: factor.value });

export function FromMap() {
  const w = planWords.map;
  const trouble = useSignal<string | null>(null);
  const bring = async (file: File) => {
    const text = await utf8Of(file, MAP_LIMITS.text);
    trouble.value = typeof text === "string" ? null : text.wrong;
    if (typeof text !== "string") return;
    choices.value = {};
    befores.value = {};
    opened.value = { file: file.name, ...readMap(text) };
  };
  const map = opened.value;
  return (
    <div class="from-map">
      <FileChoice label={w.choose} accept=".geojson,.json,.gpx,application/geo+json,application/gpx+xml" how={w.how} take={bring} />
      <div role="status">
        {trouble.value !== null && <p class="trouble">{trouble.value}</p>}
        {map && <p><strong>{map.file}</strong>: {w.understood(map.plots.length, map.problems.length)}</p>}
      </div>
      {map && map.problems.length > 0 && (
        <div class="trouble"><p>{w.refused}</p><ul>{map.problems.map(({ pointer, detail }) => <li key={pointer + detail}>{textIn(units.value, detail)}</li>)}</ul></div>
      )}
      {map && map.told.length > 0 && <ul class="quiet map-told">{map.told.map((sentence) => <li key={sentence}>{textIn(units.value, sentence)}</li>)}</ul>}
      {map && map.plots.length > 0 && <Plots plots={map.plots} />}
    </div>
  );
}

function Plots({ plots }: { readonly plots: readonly Plot[] }) {
  const w = planWords.map;
  const scale = LARGEST / Math.max(...plots.map(spanOf));
  // Round in the reader's own unit.
  const bar = fromShown(roundBelow(shownIn(120 / scale, "length", units.value)), "length", units.value);
  const usual = factor.value === null;
  const setFactor = (to: number | null) => {
    factor.value = to;
    plots.forEach(again);
  };
  return (
    <>
      {listAt(plan.value!, ["storage"]).map((storage, i) => {
        const name = String(at(storage, ["name"]) ?? i + 1);
        const there = at(storage, ["at"]);
        return <PlaceBox key={i} id={`map-storage-${i}`} label={w.standsAt(name)} value={typeof there === "string" ? there : there === undefined ? "" : `${String(at(there, ["lat"]))}, ${String(at(there, ["lon"]))}`}
          set={(text) => { change((now) => (text === "" ? without(now, ["storage", i, "at"]) : put(now, ["storage", i, "at"], text))); plots.forEach(again); }} />;
      })}
      <p class="slot-row"><label for="map-factor">{w.factor}</label>
        <DragNumber id="map-factor" label={w.factor} figure={factor.value ?? roadFactor.value} text={String(factor.value ?? roadFactor.value)} unit="" least={ROAD_FACTORS[0]} most={ROAD_FACTORS[1]} usual={usual} wrong={false} describedBy="map-factor-why"
          readable={(text) => within(text, ...ROAD_FACTORS) !== null} set={(text) => { const to = within(text, ...ROAD_FACTORS); if (to !== null) setFactor(to === roadFactor.value ? null : to); }} emptied={() => setFactor(null)} />
        <span class="quiet" id="map-factor-why">{usual ? planWords.usualIs(String(roadFactor.value), roadFactor.mark) : w.yours}</span>
      </p>
      <p class="plot-bar"><svg width={bar * scale + 2} height="10" aria-hidden="true"><path d={`M1,1V9M1,5H${bar * scale + 1}M${bar * scale + 1},1V9`} /></svg> {w.scale(quantity(bar, "length", units.value, 0))}</p>
      <ul class="plots">{plots.map((plot) => <PlotOf key={plot.number} plot={plot} scale={scale} />)}</ul>
    </>
  );
}

/** A plot that stands in the plan is put there again when something about it was chosen anew. */
function again(plot: Plot): void {
  change((now) => {
    const place = takenAt(now, plot);
    return place < 0 ? now : withPlot(now, plot, place, choiceOf(plot));
  });
}

function PlotOf({ plot, scale }: { readonly plot: Plot; readonly scale: number }) {
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

interface PlaceBoxProps { readonly id: string; readonly label: string; readonly whose?: string; readonly value: string; set(text: string): void }

/** A place in degrees, as typed; what is none stays, and is told. */
function PlaceBox({ id, label, whose, value, set }: PlaceBoxProps) {
  const read = value.trim() === "" ? null : readPlace(value);
  const wrong = read !== null && "wrong" in read ? read.wrong : null;
  return (
    <p class="slot-row">
      <label for={id}>{label}</label>
      <TypedBox id={id} class="place" maxLength={60} label={whose === undefined ? undefined : `${whose}: ${label}`} invalid={wrong !== null} describedBy={wrong === null ? undefined : `${id}-wrong`}
        placeholder={planWords.notSaid} value={value} take={set} />
      {wrong !== null && <span class="why" id={`${id}-wrong`}>{planWords.map.wrongPlace(wrong)}</span>}
    </p>
  );
}

/** A number between two ends, both included; null for anything else. */
function within(text: string, least: number, most: number): number | null {
  const value = /^\s*\d+(?:[.,]\d+)?\s*$/.test(text) ? Number(text.trim().replace(",", ".")) : NaN;
  return value >= least && value <= most ? value : null;
}
