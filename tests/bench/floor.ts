/**
 * The floor under the kernel's benchmark: the least that a discrete-event engine with generator processes has to do. A binary heap
 * ordered by (time, sequence), one generator per customer or truck, a server that is a flag and a queue; no ranks, no interrupts,
 * no priorities, no statistics, no checks. The kernel is measured against this in the same run.
 */
export type FloorWork = Generator<number, void, void>;

/** Yielded by a process that does not wait for a time; somebody wakes it. */
export const ASLEEP = -1;

interface Entry { readonly time: number; readonly sequence: number; readonly work: FloorWork }

export class Floor {
  now = 0;
  steps = 0;
  /** The work that is running: what puts itself to sleep leaves this behind to be woken. */ running!: FloorWork;
  private sequence = 0;
  private readonly heap: Entry[] = [];

  wake(work: FloorWork, time = this.now): void {
    const entry: Entry = { time, sequence: this.sequence++, work };
    const heap = this.heap;
    let place = heap.length;
    heap.push(entry);
    while (place > 0) {
      const up = (place - 1) >> 1;
      const parent = heap[up]!;
      if (parent.time < time || (parent.time === time && parent.sequence < entry.sequence)) break;
      heap[place] = parent;
      place = up;
    }
    heap[place] = entry;
  }

  step(): boolean {
    const heap = this.heap;
    if (heap.length === 0) return false;
    const first = heap[0]!;
    const last = heap.pop()!;
    const size = heap.length;
    if (size > 0) {
      let place = 0;
      for (let down = 1; down < size; down = 2 * place + 1) {
        let child = heap[down]!;
        if (down + 1 < size) {
          const other = heap[down + 1]!;
          if (other.time < child.time || (other.time === child.time && other.sequence < child.sequence)) {
            child = other;
            down += 1;
          }
        }
        if (last.time < child.time || (last.time === child.time && last.sequence < child.sequence)) break;
        heap[place] = child;
        place = down;
      }
      heap[place] = last;
    }
    this.now = first.time;
    this.steps += 1;
    this.running = first.work;
    const turn = first.work.next();
    if (turn.done !== true && turn.value >= 0) this.wake(first.work, this.now + turn.value);
    return true;
  }
}

/** One server, first come first served. */
export class FloorServer {
  private busy = false;
  private readonly floor: Floor;
  private readonly queue: FloorWork[] = [];

  constructor(floor: Floor) {
    this.floor = floor;
  }

  /** True: yours. False: yield ASLEEP, and it is yours when you wake. */
  take(): boolean {
    if (this.busy) {
      this.queue.push(this.floor.running);
      return false;
    }
    return (this.busy = true);
  }

  giveBack(): void {
    const next = this.queue.shift();
    if (next === undefined) this.busy = false;
    else this.floor.wake(next);
  }
}
