/**
 * Reads GPX: each track and each route is a round about a field. Coordinates of GPX are WGS84 by its own definition. The XML is read
 * strictly; a document type, and with it every entity of the file's own making, is refused.
 */
import { SaxesParser } from "saxes";
import { Problems } from "../scenario/problems.ts";
import { clipped, found, printableOnly } from "../scenario/words.ts";
import type { Path } from "../scenario/words.ts";
import { placeTrouble } from "./drawn.ts";
import type { Drawn } from "./drawn.ts";
import { MAP_LIMITS } from "./limits.ts";
import type { Place } from "./plane.ts";
import type { Told } from "./told.ts";

/** Thrown and caught in this file: nothing can be read beyond this. */
class Stop extends Error {}

/** A round as it is being read; its segments follow each other, as GPX says: a new one begins where reception was lost. */
interface Round { readonly path: Path; name: string; readonly places: Place[]; refused: boolean }

/** The point element of a track and of a route. */
const POINTS: Readonly<Record<string, string>> = { trk: "trkpt", rte: "rtept" };

/** Never throws; what cannot be read is among the problems, and rounds that were whole before it are still given. */
export function readGpx(text: string, problems: Problems, told: Told): readonly Drawn[] {
  const reader = new Reader(problems);
  try {
    reader.read(text);
  } catch (stop) {
    if (!(stop instanceof Stop)) throw stop;
    problems.tell([], stop.message);
  }
  if (reader.waypoints > 0) told.add(`${reader.waypoints === 1 ? "1 waypoint has" : `${reader.waypoints} waypoints have`} no area: left out.`);
  return reader.done;
}

class Reader {
  readonly done: Drawn[] = [];
  waypoints = 0;
  private readonly open: string[] = [];
  private readonly counts: Record<string, number> = { trk: 0, rte: 0 };
  private round: Round | null = null;
  private points = 0;

  constructor(private readonly problems: Problems) {}

  read(text: string): void {
    const parser = new SaxesParser({ xmlns: false, position: true });
    const here = () => `line ${parser.line}, column ${parser.column + 1}`;
    parser.on("error", (error) => {
      const said = error.message.replace(/^[^a-z]*(?:\d+:\d+: *)?/iu, "").replace(/\.$/u, "");
      throw new Stop(`This is no sound XML at ${here()}: ${printableOnly(said.slice(0, 120))}.`);
    });
    parser.on("doctype", () => { throw new Stop(`The map has a document type at ${here()}: take the <!DOCTYPE ...> out; GPX has none.`); });
    parser.on("opentag", ({ name, attributes }) => this.begin(plain(name), attributes, parser.line));
    parser.on("text", (piece) => {
      if (this.round && this.open.length === 3 && this.open[2] === "name" && this.round.name.length < 1000) this.round.name += piece;
    });
    parser.on("closetag", () => this.end());
    parser.write(text).close();
  }

  private begin(name: string, attributes: Readonly<Record<string, string>>, line: number): void {
    this.open.push(name);
    if (this.open.length > MAP_LIMITS.depth) throw new Stop(`The map has elements more than ${MAP_LIMITS.depth} deep inside each other in line ${line}; a track needs four.`);
    if (this.open.length === 1 && name !== "gpx") throw new Stop(`The map begins with <${clipped(name)}>, which is no GPX: save it as GPX or GeoJSON.`);
    if (this.open.length === 2 && name === "wpt") this.waypoints += 1;
    if (this.open.length === 2 && name in POINTS) {
      if (this.done.length >= MAP_LIMITS.features) throw new Stop(`The map has more than ${MAP_LIMITS.features} tracks: what follows is left out.`);
      this.round = { path: [name, this.counts[name]!], name: "", places: [], refused: false };
      this.counts[name]! += 1;
    }
    if (this.round && name === POINTS[this.open[1] ?? ""]) this.point(this.round, name, attributes, line);
  }

  private point(round: Round, name: string, { lat, lon }: Readonly<Record<string, string>>, line: number): void {
    if (round.refused) return;
    this.points += 1;
    if (this.points > MAP_LIMITS.points) throw new Stop(`The map has more than ${MAP_LIMITS.points} points: what follows line ${line} is left out.`);
    const place = { lat: degrees(lat), lon: degrees(lon) };
    const trouble = Number.isFinite(place.lat) && Number.isFinite(place.lon)
      ? placeTrouble(place.lon, place.lat, "named")
      : `has lat ${lat === undefined ? "missing" : found(lat)} and lon ${lon === undefined ? "missing" : found(lon)}: degrees such as lat="52.1" lon="8.3" would do`;
    if (trouble !== null) {
      round.refused = true;
      this.problems.add([...round.path, name, round.places.length], `(line ${line}) ${trouble}`);
    } else if (round.places.length >= MAP_LIMITS.fieldPoints) {
      round.refused = true;
      this.problems.add(round.path, `has more than ${MAP_LIMITS.fieldPoints} points (line ${line}): thin it out`);
    } else {
      round.places.push(place);
    }
  }

  private end(): void {
    this.open.pop();
    if (!this.round || this.open.length !== 1) return;
    const { path, name, places, refused } = this.round;
    this.round = null;
    if (refused) return;
    const number = this.counts.trk! + this.counts.rte!;
    this.done.push({ path, number, name: name.trim() || null, given: {}, parts: [[{ path, places }]], driven: true });
  }
}

/** Without the prefix of a namespace. */
const plain = (name: string): string => name.slice(name.indexOf(":") + 1);

const DEGREES = /^\s*[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d{1,3})?\s*$/u;

const degrees = (text: string | undefined): number => (text !== undefined && DEGREES.test(text) ? Number(text) : NaN);
