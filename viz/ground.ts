/**
 * The ground that the strip is drawn on: field | road | apron | clamp, left to right, on one deck or, where that gets too narrow, on
 * two (the field and the road above, the apron and the clamp below). Every chopper has a row on the left, every storage one on the right.
 * All in px; the height of a row's ground line is where trucks stand.
 */

export interface Zone { readonly x: number; readonly width: number }

export interface Ground {
  readonly width: number;
  readonly height: number;
  /** decks from top to bottom */ readonly decks: 1 | 2;
  /** top of the deck with the apron and the clamp */ readonly lowerDeck: number;
  readonly field: Zone;
  readonly road: Zone;
  /** the scale, the line for a tipping place, and the heap */ readonly apron: Zone;
  readonly clamp: Zone;
  /** ground line by chopper, and the lower line on which empty trucks drive back is `laneGap` below it */ readonly chopperRows: readonly number[];
  readonly storageRows: readonly number[];
  /** of a truck's plate */ readonly plate: { readonly width: number; readonly height: number };
}

/** Between the loaded lane and the empty lane, between plates, from the top of a deck to its heads' baseline. */
export const GAP = { lane: 36, plates: 3, head: 16 } as const;

/** Height of a row and how far down in it its ground line lies. */
const FIELD_ROW = { height: 190, ground: 100 } as const;
const STORAGE_ROW = { height: 244, ground: 154 } as const;
const HEAD_ROOM = 28;

/** Widest strip that is still drawn on two decks. */
const TWO_DECKS_BELOW = 640;

/** Parts of the width on one deck, and of either deck where there are two. */
const PARTS = { field: 0.17, road: 0.28, apron: 0.2, clamp: 0.35 } as const;
const UPPER = { field: 0.46, road: 0.54 } as const;
const LOWER = { apron: 0.46, clamp: 0.54 } as const;

export function layGround(width: number, choppers: number, storages: number, trucks: number): Ground {
  const decks = width < TWO_DECKS_BELOW ? 2 : 1;
  const left = choppers * FIELD_ROW.height;
  const right = storages * STORAGE_ROW.height;
  const zone = (from: number, part: number): Zone => ({ x: from * width, width: part * width });
  const plate = { width: trucks > 20 || decks === 2 ? 24 : 28, height: 24 };
  const rows = (count: number, top: number, height: number, room: number, ground: number) =>
    Array.from({ length: count }, (_, i) => top + ((i + 0.5) * room) / count - height / 2 + ground);
  if (decks === 2) {
    return {
      width, decks, plate, lowerDeck: HEAD_ROOM + left, height: HEAD_ROOM + left + HEAD_ROOM + right,
      field: zone(0, UPPER.field), road: zone(UPPER.field, UPPER.road), apron: zone(0, LOWER.apron), clamp: zone(LOWER.apron, LOWER.clamp),
      chopperRows: rows(choppers, HEAD_ROOM, FIELD_ROW.height, left, FIELD_ROW.ground),
      storageRows: rows(storages, HEAD_ROOM + left + HEAD_ROOM, STORAGE_ROW.height, right, STORAGE_ROW.ground),
    };
  }
  const room = Math.max(left, right);
  const storageRows = rows(storages, HEAD_ROOM, STORAGE_ROW.height, room, STORAGE_ROW.ground);
  // With as many rows on either side each pair stands on the same ground.
  const chopperRows = choppers === storages ? storageRows : rows(choppers, HEAD_ROOM, FIELD_ROW.height, room, FIELD_ROW.ground);
  return {
    width, decks, plate, lowerDeck: 0, height: HEAD_ROOM + room,
    field: zone(0, PARTS.field), road: zone(PARTS.field, PARTS.road), apron: zone(PARTS.field + PARTS.road, PARTS.apron), clamp: zone(1 - PARTS.clamp, PARTS.clamp),
    chopperRows, storageRows,
  };
}
