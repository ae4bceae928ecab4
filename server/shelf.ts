/** Answers kept in memory, so many and so many bytes; what was not asked for longest goes first. */
export class Shelf<Item> {
  /** in order of last use, oldest first */ readonly #items = new Map<string, { readonly item: Item; readonly bytes: number }>();
  readonly #most: number;
  readonly #mostBytes: number;
  #bytes = 0;

  constructor(most: number, mostBytes: number) {
    this.#most = most;
    this.#mostBytes = mostBytes;
  }

  get size(): number {
    return this.#items.size;
  }

  get bytes(): number {
    return this.#bytes;
  }

  /** The item, now the last used, or undefined. */
  get(id: string): Item | undefined {
    const kept = this.#items.get(id);
    if (kept === undefined) return undefined;
    this.#items.delete(id);
    this.#items.set(id, kept);
    return kept.item;
  }

  /** Puts an item down. The newest stays even when it alone is over the bytes: whoever has just been told its id will ask for it. */
  put(id: string, item: Item, bytes: number): void {
    this.#remove(id);
    this.#items.set(id, { item, bytes });
    this.#bytes += bytes;
    for (const oldest of this.#items.keys()) {
      const fits = this.#items.size <= this.#most && this.#bytes <= this.#mostBytes;
      if (fits || oldest === id) break;
      this.#remove(oldest);
    }
  }

  #remove(id: string): void {
    const kept = this.#items.get(id);
    if (kept === undefined) return;
    this.#items.delete(id);
    this.#bytes -= kept.bytes;
  }
}
