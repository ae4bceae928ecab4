/** The blade tractors of a storage. They push one load at a time, all together, and roll with the others in between. */
import type { Work } from "../kernel/index.ts";
import { behindOf } from "../scenario/behind.ts";
import type { Clamp, TippedLoad } from "./clamp.ts";
import type { Yard } from "./yard.ts";

/** Thickest layer a hurried crew spreads, m (assumption of this project). */
export const THICKEST_LAYER = 0.4;

/** The blades' working day: take the next load, let the lift before it be packed as the rule says, push, until nothing more comes; then roll the last lift. */
export function* bladeDay(clamp: Clamp, yard: Yard): Work {
  const { sim, breaks } = yard.clock;
  const { crew, urge } = clamp;
  const spreading = yard.luck.at("spread", `storage ${clamp.index}`);
  for (;;) {
    const load: TippedLoad | null = yield clamp.ready.take();
    if (!load) break;
    let left = load.mass * spreading();

    for (let wait = packingWait(clamp, yard, left); wait > 0; wait = packingWait(clamp, yard, left)) {
      clamp.waitsForPacking = true;
      yard.waits.recharge();
      const changed: boolean = yield urge.by(wait < Infinity ? breaks.finish(sim.now, wait) : Infinity);
      clamp.waitsForPacking = false;
      if (!changed) break;
    }

    const layer = layerNow(clamp, yard);
    const spreadFrom = sim.now;
    clamp.pushes = true;
    crew.setPushing(true);
    yield clamp.apron.take(load.mass);
    if (clamp.burying && clamp.apron.level <= clamp.apron.capacity / 2) clamp.burying = false;
    yard.waits.recharge();

    // Slower, or not at all, while blades are missing.
    for (let changed = true; changed;) {
      const rate = crew.pushRate(layer);
      const begun = sim.now;
      changed = yield urge.by(rate > 0 ? breaks.finish(begun, left / rate) : Infinity);
      if (changed) left = Math.max(0, left - rate * breaks.open(begun, sim.now));
    }
    clamp.pushes = false;
    clamp.lay(load, layer, spreadFrom, sim.now);
    crew.setPushing(false);
    yard.waits.recharge();
  }
  if (clamp.open) {
    yield breaks.finish(sim.now, yard.scenario.packing.finish) - sim.now;
    clamp.close(sim.now);
  }
  crew.goHome();
}

/**
 * s to wait before `mass` kg are spread: nobody buries a lift that is still to be packed, unless the rule lets them, and nobody spreads
 * without a blade (Infinity).
 */
function packingWait(clamp: Clamp, yard: Yard, mass: number): number {
  const rate = clamp.crew.pushRate(yard.scenario.packing.layer);
  if (rate <= 0) return Infinity;
  return holds(clamp, yard) ? clamp.crew.secondsToTarget(clamp.open, mass / rate) : 0;
}

const holds = (clamp: Clamp, yard: Yard): boolean => behindOf(yard.scenario).holds !== "never" && !clamp.burying;

/** The set layer; a crew that buries spreads the thicker the more loads lie ready behind this one. */
function layerNow(clamp: Clamp, yard: Yard): number {
  const { layer } = yard.scenario.packing;
  return holds(clamp, yard) ? layer : Math.max(layer, Math.min(THICKEST_LAYER, layer * (1 + clamp.loadsReady)));
}
