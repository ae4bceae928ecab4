/** One plot of a map, north up: its outline, its rows as they run, its gate, and in which direction the storage lies. */
import type { Place } from "../../sim/ground/plane.ts";
import { planWords } from "../words/plan.ts";
import { boxOf, pointOf, ringsOf, rowLines } from "./drawn.ts";
import type { Plot } from "./plots.ts";

interface PlotDrawingProps {
  readonly plot: Plot;
  /** degrees */ readonly rows: number;
  readonly gate: Place | null;
  /** degrees in which the storage lies, and how far it is, in words; null where nobody said where it stands */ readonly storage: { readonly bearing: number; readonly far: string } | null;
  /** px for a metre, one for all plots */ readonly scale: number;
  readonly label: string;
}

/** px about the outline, for gate and arrow. */
const EDGE = 28;
/** px from row to row as they are drawn: fewer than there are. */
const APART = 7;

export function PlotDrawing({ plot, rows, gate, storage, scale, label }: PlotDrawingProps) {
  const { west, east, south, north } = boxOf(plot);
  const [width, height] = [(east - west) * scale + 2 * EDGE, (north - south) * scale + 2 * EDGE];
  const x = (metres: number) => (EDGE + (metres - west) * scale).toFixed(1);
  const y = (metres: number) => (EDGE + (north - metres) * scale).toFixed(1);
  const outline = ringsOf(plot).map((ring) => `M${ring.map((point) => `${x(point.x)},${y(point.y)}`).join("L")}Z`).join("");
  const lines = rowLines(plot, rows, APART / scale).map(([from, to]) => `M${x(from.x)},${y(from.y)}L${x(to.x)},${y(to.y)}`).join("");
  const [begins, middle] = [pointOf(plot, gate ?? plot.middle), { x: width / 2, y: height / 2 }];
  const angle = ((storage?.bearing ?? 0) * Math.PI) / 180;
  // The arrow stands where the way to the storage leaves the picture.
  const reach = Math.min((width / 2 - 12) / Math.max(1e-9, Math.abs(Math.sin(angle))), (height / 2 - 12) / Math.max(1e-9, Math.abs(Math.cos(angle))));
  const tip = { x: middle.x + reach * Math.sin(angle), y: middle.y - reach * Math.cos(angle) };
  return (
    <svg class="plot" role="img" aria-label={label} width={width} height={height} viewBox={`0 0 ${width} ${height}`}>
      <path class="plot-rows" d={lines} />
      <path class="plot-edge" d={outline} />
      {storage && <path class="plot-way" d={`M${x(begins.x)},${y(begins.y)}L${tip.x.toFixed(1)},${tip.y.toFixed(1)}`} />}
      {storage && <path class="plot-storage" d="M0,-11L7,6L-7,6Z" transform={`translate(${tip.x.toFixed(1)},${tip.y.toFixed(1)}) rotate(${storage.bearing.toFixed(0)})`}><title>{planWords.map.towards(storage.far)}</title></path>}
      {gate && <rect class="plot-gate" x={Number(x(begins.x)) - 5} y={Number(y(begins.y)) - 5} width="10" height="10"><title>{planWords.map.gate}</title></rect>}
    </svg>
  );
}
