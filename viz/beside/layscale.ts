/** Where the storages stand on the sheet, and how many px a metre is for all of them: across and lengthwise on one line, or one under the other where it is narrow. Pure. */

export interface Size { readonly width: number; readonly length: number; readonly height: number }

/** One storage on the sheet, px. */
export interface Placed {
  /** px a metre sideways and lengthwise, and upwards */ readonly m: number;
  readonly up: number;
  /** baseline of its name */ readonly title: number;
  /** ground lines */ readonly across: { readonly ground: number };
  readonly along: { readonly x: number; readonly ground: number };
}

/** px: between the two drawings, the name over them, the figures under them, the note at the foot, and what the highest should come to. */
const GAP = 56;
const NAME = 36;
const FIGURES = 40;
const FOOT = 24;
const TALL = 40;
/** px a metre under which both do not go on one line */
const LEAST = 5;
/** Times the height may be drawn at the most. */
const MOST_TIMES = 4;

export function layScale(width: number, sizes: readonly Size[]): { readonly places: readonly Placed[]; readonly height: number; readonly times: number } {
  const most = (of: (size: Size) => number) => Math.max(...sizes.map(of));
  const [across, along, high] = [most((size) => size.width), most((size) => size.length), most((size) => size.height)];
  // Room at the right for the stroke of the back wall.
  const oneLine = (width - GAP - 6) / (across + along);
  const isOneLine = oneLine >= LEAST;
  const m = isOneLine ? oneLine : (width - 6) / Math.max(across, along);
  const times = Math.max(1, Math.min(MOST_TIMES, Math.round(TALL / (high * m))));
  const up = m * times;
  let y = 0;
  const places = sizes.map((size): Placed => {
    const title = y + 20;
    const first = y + NAME + size.height * up;
    const second = isOneLine ? first : first + FIGURES + size.height * up + 8;
    y = second + FIGURES;
    return { m, up, title, across: { ground: first }, along: { x: isOneLine ? across * m + GAP : 0, ground: second } };
  });
  return { places, height: y + FOOT, times };
}
