/** What is lost under the cover: the top layer by kind of film. */
import type { Sourced } from "./sourced.ts";

const META = "Wilkinson & Fenlon, Grass and Forage Science, doi 10.1111/gfs.12087, meta-analysis of 51 comparisons";
const COVERS = "The efficiency of six methods of covering silage, 25-ton bunkers over two seasons, abstract";

/** Share of the dry matter lost in the top layer; the range is the depth of that layer in m. */
export const topLayerLoss = {
  plain: { value: 0.195, unit: "1", source: META, mark: "published", range: [0.1, 0.6], note: "195 g/kg; the range is the layer's depth in m" },
  barrier: { value: 0.114, unit: "1", source: META, mark: "published", range: [0.1, 0.6], note: "114 g/kg; the range is the layer's depth in m" },
} as const satisfies Record<string, Sourced>;

/** Loss of the whole storage, not of a layer, with and without a cover. Small bunkers have much surface: the gap does not carry over to a large one. */
export const wholeLoss = {
  covered: { value: 0.12, unit: "1", source: COVERS, mark: "published" },
  uncovered: { value: 0.342, unit: "1", source: COVERS, mark: "published" },
} as const satisfies Record<string, Sourced>;
