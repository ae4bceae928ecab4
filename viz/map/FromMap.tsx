/** Fields from a map file: what was understood of it, what was refused and why, and what all plots share. */
import { signal, useSignal } from "@preact/signals";
import { roadFactor, ROAD_FACTORS } from "../../sim/ground/distance.ts";
import { MAP_LIMITS } from "../../sim/ground/limits.ts";
import { at, listAt, put } from "../document.ts";
import { utf8Of } from "../page/chosen.ts";
import { FileChoice } from "../page/FileChoice.tsx";
import { within } from "../plan/amounts.ts";
import { DragNumber } from "../plan/DragNumber.tsx";
import { without } from "../plan/change.ts";
import { change } from "../plan/Slot.tsx";
import { fromShown, quantity, shownIn } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { planWords } from "../words/plan.ts";
import { roundBelow, spanOf } from "./drawn.ts";
import { PlaceBox } from "./PlaceBox.tsx";
import { PlotOf } from "./PlotOf.tsx";
import { readMap, type MapRead, type Plot } from "./plots.ts";
import { again, befores, choices, factor } from "./taking.ts";
import "./map.css";

interface Opened extends MapRead { readonly file: string }

const opened = signal<Opened | null>(null);
/** px of the largest plot */
const LARGEST = 220;

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
