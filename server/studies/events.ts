/** What has happened to a study, for whoever listens or comes back: the newest of each kind, each with a number that only grows. */

export interface StudyEvent {
  /** the last one is `end`, so that whoever has heard it is known after a restart too */ readonly id: string;
  readonly name: string;
  /** JSON on one line */ readonly data: string;
}

export const LAST = "end";

/** Whether the id of an event heard last says that all was heard. */
export const heardAll = (lastHeard: string | undefined): boolean => lastHeard === LAST;

/** As a server-sent event (HTML Living Standard, 9.2). */
export const written = ({ id, name, data }: StudyEvent): string => `id: ${id}\nevent: ${name}\ndata: ${data}\n\n`;

export class Events {
  /** the newest of each name, oldest first */ readonly #newest = new Map<string, StudyEvent>();
  readonly #listeners = new Set<(event: StudyEvent) => void>();
  #count = 0;

  /** Tells all who listen, and keeps it for those who come later, in place of an earlier one of the name. */
  tell(name: string, data: string, isLast = false): void {
    this.#count += 1;
    const event = { id: isLast ? LAST : String(this.#count), name, data };
    this.#newest.delete(name);
    this.#newest.set(name, event);
    for (const listener of [...this.#listeners]) listener(event);
    if (isLast) this.#listeners.clear();
  }

  /** Those told since the one heard last, or all that are kept. */
  since(lastHeard: string | undefined): StudyEvent[] {
    const heard = /^\d{1,15}$/.test(lastHeard ?? "") ? Number(lastHeard) : 0;
    return [...this.#newest.values()].filter(({ id }) => id === LAST || Number(id) > heard);
  }

  /** Gives the function that ends the listening. */
  listen(listener: (event: StudyEvent) => void): () => void {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  }
}
