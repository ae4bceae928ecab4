/**
 * Where each lift lies in the long section of a storage. Lifts lie on the slope of the working wedge, which grows from the back wall
 * (or the back slope of a pile) towards the apron: each is a slanting slice, and its area is true to its volume.
 * x runs from the back of the storage towards the apron, z up from the floor, both in m.
 */

/** What the section needs to know of a storage, m. */
export interface Section {
  readonly length: number;
  readonly width: number;
  /** run per rise of the working wedge */ readonly wedge: number;
  /** run per rise of the back end: 0 at a wall */ readonly back: number;
}

export type Point = readonly [x: number, z: number];

export interface ClampLayout {
  /** m, to which the wedge rises: the forage of the whole day then just fills the length */ readonly top: number;
  /** m3 below the front slope when lifts up to and including i lie: `volumes[i]` */ readonly volumes: readonly number[];
  readonly section: Section;
}

/** Lays lifts of these volumes, m3, oldest first. */
export function layClamp(section: Section, lifts: readonly number[]): ClampLayout {
  let sum = 0;
  const volumes = lifts.map((volume) => (sum += volume));
  return { section, volumes, top: topFor(section, sum / section.width) };
}

/** Outline of lift i, of which a share lies: where the front slope was before it, and where it is now. */
export function outlineOf(layout: ClampLayout, i: number, share = 1): Point[] {
  const before = layout.volumes[i - 1] ?? 0;
  const after = before + share * ((layout.volumes[i] ?? before) - before);
  return band(layout, before, after);
}

/** Outline of everything that lies when the first lifts so many, and a share of the next, are laid. */
export function heapOf(layout: ClampLayout, lifts: number, share: number): Point[] {
  const before = layout.volumes[lifts - 1] ?? 0;
  return band(layout, 0, before + share * ((layout.volumes[lifts] ?? before) - before));
}

/** The upper and lower end of the front slope when so many lifts, and a share of the next, lie. */
export function frontOf(layout: ClampLayout, lifts: number, share: number): readonly [upper: Point, toe: Point] {
  const before = layout.volumes[lifts - 1] ?? 0;
  const toe = toeAt(layout, before + share * ((layout.volumes[lifts] ?? before) - before));
  return [crestAt(layout, toe), [toe, 0]];
}

function band(layout: ClampLayout, before: number, after: number): Point[] {
  const { back } = layout.section;
  const from = toeAt(layout, before);
  const to = toeAt(layout, after);
  const lower = crestAt(layout, from);
  const upper = crestAt(layout, to);
  // While the wedge is still growing up the back, a slice may reach over the edge where back and level top meet.
  const edge: Point[] = lower[1] < layout.top && upper[1] >= layout.top ? [[back * layout.top, layout.top]] : [];
  return [[from, 0], [to, 0], upper, ...edge, lower];
}

/** Toe of the front slope, m from the back, below which this volume lies. */
function toeAt({ section, top }: ClampLayout, volume: number): number {
  const area = volume / section.width;
  const run = section.wedge + section.back;
  const untilTop = (run * top * top) / 2;
  return area <= untilTop ? Math.sqrt(2 * run * area) : (area + untilTop) / top;
}

/** Upper end of the front slope that has this toe. */
function crestAt({ section, top }: ClampLayout, toe: number): Point {
  const { wedge, back } = section;
  const z = Math.min(top, toe / (wedge + back));
  return [toe - wedge * z, z];
}

/** The level that the whole area fills up to when the front slope ends at the end of the storage; as high as the wedge allows when it is more than fits. */
function topFor({ length, wedge, back }: Section, area: number): number {
  const run = wedge + back;
  return (length - Math.sqrt(Math.max(0, length * length - 2 * run * area))) / run;
}
