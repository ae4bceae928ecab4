import type { Process } from "./process.ts";
import { Tally, TimeWeighted } from "./statistics.ts";
import type { Clock } from "./statistics.ts";

/** What every waiting line counts of its own accord. */
export class LineStatistics {
  /** processes in the line */ readonly queue: TimeWeighted;
  /** s, one value for each grant, zero for one that did not wait. A grant handed back by an interrupt stays counted. */
  readonly waits = new Tally();
  /** s, one value for each process that was interrupted in the line */ readonly abandoned = new Tally();

  constructor(clock: Clock) {
    this.queue = new TimeWeighted(clock);
  }

  /** Requests granted so far. */
  get grants(): number {
    return this.waits.n;
  }

  /** Requests made so far: granted, abandoned or waiting. */
  get arrivals(): number {
    return this.waits.n + this.abandoned.n + this.queue.value;
  }
}

/**
 * Processes waiting for one thing, first come first served within equal priority, lower priority numbers first.
 * The links stand on the processes; joining, serving and leaving take the same short time however long the line is
 * (joining with a better priority walks past those it overtakes).
 */
export class WaitingLine {
  first: Process | null = null;
  private last: Process | null = null;
  length = 0;
  readonly statistics: LineStatistics;
  private readonly clock: Clock;

  constructor(clock: Clock, statistics = new LineStatistics(clock)) {
    this.clock = clock;
    this.statistics = statistics;
  }

  /** Counts a request that is granted at once. */
  pass(): void {
    this.statistics.waits.add(0);
  }

  join(process: Process): void {
    process.since = this.clock.now;
    process.line = this;
    let ahead = this.last;
    while (ahead !== null && ahead.priority > process.priority) ahead = ahead.ahead;
    const behind = ahead === null ? this.first : ahead.behind;
    process.ahead = ahead;
    process.behind = behind;
    if (ahead === null) this.first = process;
    else ahead.behind = process;
    if (behind === null) this.last = process;
    else behind.ahead = process;
    this.length += 1;
    this.statistics.queue.set(this.length);
  }

  /** The process has been granted what it waits for. */
  serve(process: Process): void {
    this.unlink(process);
    this.statistics.waits.add(this.clock.now - process.since);
  }

  /** The process gives up waiting. */
  leave(process: Process): void {
    this.unlink(process);
    this.statistics.abandoned.add(this.clock.now - process.since);
  }

  private unlink(process: Process): void {
    const { ahead, behind } = process;
    if (ahead === null) this.first = behind;
    else ahead.behind = behind;
    if (behind === null) this.last = ahead;
    else behind.ahead = ahead;
    process.ahead = null;
    process.behind = null;
    process.line = null;
    this.length -= 1;
    this.statistics.queue.set(this.length);
  }
}
