/** The plan in the trade's order: what stands in a sentence, and what else can be said. Sentences and labels are in `words/plan.ts`. */
import type { Document, Path } from "../document.ts";

/** A group of keys with a sentence; `more` are those that most plans leave to what is usual. */
export interface Group {
  /** for the words */ readonly id: string;
  /** place of its keys in the tables: `fields[]`; empty for keys of the plan itself */ readonly place: string;
  readonly more: readonly string[];
  /** groups within it that most plans leave out, by their key */ readonly inner?: readonly Inner[];
}
export interface Inner { readonly id: string; readonly starts: Readonly<Record<string, string | number>> }
/** Things of which a plan holds several. */
export interface Things extends Group { readonly list: Path; readonly nameKey: string | null; readonly least: number; /** shown only where the plan has the list */ readonly ifThere?: boolean }
/** A group that stands in the plan once; `starts` is what it begins with where a plan may be without it. */
export interface Once extends Group { readonly path: Path; readonly starts?: Document }

export type Part = Things | Once;

/** Figures to begin with, for the reader to change: nobody has published any. */
const BREAKDOWNS: Inner = { id: "breakdowns", starts: { between: "40 h", repair: "45 min" } };
const OPENING: Inner = { id: "opening", starts: { time: "30 min", pace: "60 %" } };

const TRACTOR = ["rolling", "width", "blade", "maxMass", "power", "hireable", "cost"];

/** Tractors of all storages, or those of one storage. */
export const tractorsAt = (list: Path): Things => ({ id: "tractors", place: "tractors[]", list, nameKey: "name", least: 1, more: TRACTOR, inner: [BREAKDOWNS] });

/** What all machines of a kind do that have no breakdowns of their own. */
const breakdownsOf = (id: string, kind: string): Once => ({ id, place: `breakdowns.${kind}`, path: ["breakdowns", kind], starts: BREAKDOWNS.starts, more: [] });

/** Several days one after another; asked for on their own sheet. */
export const CAMPAIGN: Once = { id: "campaign", place: "campaign", path: ["campaign"], starts: { starts: "2026-09-14", measured: "2026-09-14", rain: "15 %", days: 14 }, more: ["dew", "drying"] };

export const SECTIONS: readonly { readonly id: string; readonly parts: readonly Part[] }[] = [
  { id: "crop", parts: [{ id: "crop", place: "crop", path: ["crop"], more: ["looseDensity"] }] },
  { id: "fields", parts: [{ id: "fields", place: "fields[]", list: ["fields"], nameKey: "name", least: 1, more: ["rowLength", "rows", "gate", "roadFactor", "dryMatter", "storage", "chopper", "owner"], inner: [OPENING] }] },
  { id: "choppers", parts: [{ id: "choppers", place: "choppers[]", list: ["choppers"], nameKey: "name", least: 1, more: ["turnTime", "changeover", "move", "cost", "paid", "price", "power"], inner: [BREAKDOWNS] }] },
  {
    id: "trucks", parts: [
      { id: "trucks", place: "trucks[]", list: ["trucks"], nameKey: "kind", least: 1, more: ["volume", "chopper", "lends", "tipsOnPile", "cost", "power"], inner: [BREAKDOWNS] },
      { id: "lane", place: "lane", path: ["lane"], starts: { length: "600 m", speed: "20 km/h" }, more: ["meeting"] },
      { id: "weighing", place: "weighing", path: ["weighing"], starts: { time: "1 min" }, more: ["lanes"] },
    ],
  },
  {
    id: "storage", parts: [{
      id: "storage", place: "storage[]", list: ["storage"], nameKey: "name", least: 1,
      more: ["apron", "tippingPlaces", "wedge", "sideSlope", "topWidth", "meanDepth", "tipsOnPile", "cover", "unloaderReach", "wallRating", "capitalCost", "life", "at"],
    }],
  },
  { id: "packing", parts: [{ id: "packing", place: "packing", path: ["packing"], more: ["wedgeRoom", "layerTerm"] }, tractorsAt(["packing", "tractors"])] },
  { id: "shift", parts: [{ id: "shift", place: "shift", path: ["shift"], more: [] }, { id: "breaks", place: "shift.breaks[]", list: ["shift", "breaks"], nameKey: null, least: 0, more: [] }] },
  { id: "targets", parts: [{ id: "targets", place: "targets", path: ["targets"], more: [] }] },
  {
    id: "rest", parts: [
      { id: "herd", place: "herd", path: ["herd"], starts: { head: 300, intake: "10 kg/day" }, more: ["season"] },
      { id: "covering", place: "covering", path: ["covering"], more: ["people", "pace"] },
      { id: "money", place: "", path: [], more: ["currency"] },
      { id: "losses", place: "losses", path: ["losses"], more: ["effluent", "fermentation", "density", "topLayer", "face"] },
    ],
  },
  {
    id: "luckAll", parts: [
      { id: "luck", place: "", path: [], more: [] },
      breakdownsOf("breakdownsChoppers", "choppers"), breakdownsOf("breakdownsTrucks", "trucks"), breakdownsOf("breakdownsTractors", "tractors"),
    ],
  },
  {
    id: "search", parts: [
      { id: "searchTrucks", place: "search.trucks", path: ["search", "trucks"], starts: { from: 2, to: 8 }, more: [] },
      { id: "searchTractors", place: "search.tractors", path: ["search", "tractors"], starts: { from: 0, to: 2, list: [{ name: "Further tractor", mass: "14 t", count: 2 }] }, more: [] },
      { id: "searchList", place: "search.tractors.list[]", list: ["search", "tractors", "list"], nameKey: "name", least: 1, ifThere: true, more: TRACTOR.filter((key) => key !== "hireable"), inner: [BREAKDOWNS] },
      { id: "searchRest", place: "search", path: ["search"], more: [] },
      { id: "searchTargets", place: "search.targets", path: ["search", "targets"], more: [] },
    ],
  },
];
