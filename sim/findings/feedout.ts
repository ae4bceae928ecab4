/** How a herd empties a storage: the pace of the face against the least advised, days of feed, when to open, the width that would do. */
import { advanceOf, daysClosed, largestFace, leastAdvance } from "../forage/feedout.ts";
import { wedgeSurface } from "../forage/geometry/index.ts";
import type { Scenario, Storage } from "../scenario/types.ts";
import { counted, metres } from "./figure.ts";
import type { FeedOut, Span } from "./types.ts";

type Herd = NonNullable<Scenario["herd"]>;

/** kg of dry matter that the herd eats from here a day. */
export const dryPerDay = ({ head, intake }: Herd): number => head * intake;

/**
 * The widest storage, m at the base, whose face of this height (m) this feeding keeps fresh; null when a face so high with sides so
 * sloped is too large at any width. A section with sides of 1:slope has (width - slope x height) x height.
 * @param density kg DM/m3 @param slope run per rise of the sides, 0 for walls
 */
export function freshWidth(herd: Herd, density: number, height: number, slope: number): number | null {
  const width = largestFace(dryPerDay(herd), density, herd.season) / height + slope * height;
  return width >= 2 * slope * height ? width : null;
}

/**
 * How the herd empties a storage that is opened alone. Volume goes with the dry matter that is left, so that the face arrives at the far
 * end on the last day of feed: what was lost has shrunk in its place or is thrown out from the face.
 * @param volume m3, as filled @param fed kg of dry matter left to feed
 */
export function feedOutOf(herd: Herd, storage: Storage, volume: number, fed: Span): FeedOut {
  const eaten = dryPerDay(herd);
  const section = wedgeSurface(storage, volume);
  const face = section.width * section.height;
  const density = fed.central / volume;
  const advance = advanceOf(eaten, density, face);
  const { value: minimum, source, mark } = leastAdvance[herd.season];
  const faces = Math.min(2, Math.floor(advance / minimum + 1e-9)) as FeedOut["faces"];
  const days = { low: fed.low / eaten, central: fed.central / eaten, high: fed.high / eaten };
  const width = freshWidth(herd, density, section.height, storage.sideSlope);
  const [soonest, better] = daysClosed.range!;
  return {
    face, advance, minimum, faces, daysOfFeed: days, openAfter: [soonest, better], freshWidth: width,
    inWords: [
      paceInWords(advance, minimum, faces, herd.season),
      `It feeds ${counted(herd.head)} head for ${daysInWords(days)}.`,
      `Leave it closed for ${soonest} days at the least, ${better} are better; ${daysClosed.note!.toLowerCase()}`,
      widthInWords(storage, section.height, width, minimum),
    ].join(" "),
    source: `${source}; days closed: ${daysClosed.source}`, mark,
  };
}

function daysInWords({ low, central, high }: Span): string {
  const days = counted(central);
  if (days === "0") return "less than a day";
  return `${days} ${days === "1" ? "day" : "days"} (${counted(low)} to ${counted(high)} over the range of the loss ledger)`;
}

const cm = (m: number): string => `${counted(100 * m)} cm`;

function paceInWords(advance: number, minimum: number, faces: FeedOut["faces"], season: Herd["season"]): string {
  const least = `the ${cm(minimum)} advised at the least in ${season}`;
  const one = `One open face moves on ${cm(advance)} a day`;
  const two = `${cm(advance / 2)} each`;
  if (faces === 0) return `${one}, under ${least}: it heats before it is fed, so the face loss is more likely near its high end.`;
  if (faces === 1) return `${one}, which keeps ${least}; two open faces would move on ${two}, too slowly: keep one open.`;
  return `${one} and two move on ${two}: both keep ${least}.`;
}

function widthInWords(storage: Storage, height: number, width: number | null, minimum: number): string {
  if (width === null) return `At ${metres(height)} high no width keeps it at ${cm(minimum)} a day: a lower pile would do.`;
  const where = storage.form === "pile" ? " at the base" : "";
  return `At ${metres(height)} high one face stays fresh up to ${metres(width)} wide${where}; it is ${metres(storage.width)}.`;
}
