import type { Process } from "./process.ts";

/** True when `a`'s pending event goes before `b`'s: earlier, or at the same instant lower on the ladder or scheduled before. */
function before(a: Process, b: Process): boolean {
  return a.at < b.at || (a.at === b.at && a.order < b.order);
}

/** The list of events: a binary heap of processes, each with one pending event whose keys stand on the process itself. */
export class Agenda {
  private readonly heap: Process[] = [];

  /** The process whose event is next, or undefined. */
  get first(): Process | undefined {
    return this.heap[0];
  }

  add(process: Process): void {
    this.rise(process, this.heap.length);
  }

  /** Takes out the next event's process; undefined when there is none. */
  take(): Process | undefined {
    const first = this.heap[0];
    if (first !== undefined) this.fill(0);
    return first;
  }

  /** Takes out a process wherever it stands. */
  remove(process: Process): void {
    this.fill(process.place);
    process.place = -1;
  }

  /** Closes the gap at `place` with the last process of the heap. */
  private fill(place: number): void {
    const heap = this.heap;
    const last = heap.pop()!;
    const leaving = heap[place];
    if (leaving === undefined) {
      last.place = -1;
      return;
    }
    leaving.place = -1;
    if (place > 0 && before(last, heap[(place - 1) >> 1]!)) this.rise(last, place);
    else this.sink(last, place);
  }

  private rise(process: Process, place: number): void {
    const heap = this.heap;
    while (place > 0) {
      const up = (place - 1) >> 1;
      const parent = heap[up]!;
      if (!before(process, parent)) break;
      heap[place] = parent;
      parent.place = place;
      place = up;
    }
    heap[place] = process;
    process.place = place;
  }

  private sink(process: Process, place: number): void {
    const heap = this.heap;
    const size = heap.length;
    for (let down = 2 * place + 1; down < size; down = 2 * place + 1) {
      if (down + 1 < size && before(heap[down + 1]!, heap[down]!)) down += 1;
      const child = heap[down]!;
      if (!before(child, process)) break;
      heap[place] = child;
      child.place = place;
      place = down;
    }
    heap[place] = process;
    process.place = place;
  }
}
