/** Hands that finish in another order than they were asked: what was asked for last is done first. */
import { rehearseBatch, type Batch, type Days, type Hands } from "../../sim/study/work.ts";

export function contraryHands(most: number): { readonly hands: Hands; readonly asked: Batch[] } {
  const asked: Batch[] = [];
  let waiting: (() => void)[] = [];
  const rehearse = (batch: Batch) => new Promise<Days>((resolve) => {
    asked.push(batch);
    waiting.unshift(() => resolve(rehearseBatch(batch)));
    if (waiting.length > 1) return;
    queueMicrotask(() => {
      const all = waiting;
      waiting = [];
      all.forEach((finish) => finish());
    });
  });
  return { hands: { most, rehearse }, asked };
}
