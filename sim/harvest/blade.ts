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
  const spreading = yard.luck.at("spread", `storage ${clamp.index}`);
  for (;;) {
    const load: TippedLoad | null = yield clamp.ready.take();
    if (!load) break;
    const slow = spreading();
    yield* waitForPacking(clamp, yard, load, slow);

    const layer = layerNow(clamp, yard);
    const spreadFrom = sim.now;
    clamp.pushes = true;
    clamp.crew.setPushing(true);
    yield clamp.apron.take(load.mass);
    if (clamp.burying && clamp.apron.level <= clamp.apron.capacity / 2) clamp.burying = false;
    yard.waits.recharge();

    yield* push(clamp, yard, load.mass * slow, layer);
    clamp.pushes = false;
    clamp.lay(load, layer, spreadFrom, sim.now);
    clamp.crew.setPushing(false);
    yard.waits.recharge();
  }
  if (clamp.open) {
    yield breaks.finish(sim.now, yard.scenario.packing.finish) - sim.now;
    clamp.close(sim.now);
  }
  clamp.crew.goHome();
}

/** Nobody buries a lift that is still to be packed, unless the rule lets them; and nobody spreads without a blade. */
function* waitForPacking(clamp: Clamp, yard: Yard, load: TippedLoad, slow: number): Work {
  const { sim, breaks } = yard.clock;
  const layer = yard.scenario.packing.layer;
  while (holds(clamp, yard) || clamp.crew.pushRate(layer) <= 0) {
    const rate = clamp.crew.pushRate(layer);
    const wait = rate > 0 ? clamp.crew.secondsToTarget(clamp.open, (load.mass * slow) / rate) : Infinity;
    if (wait <= 0) break;
    clamp.waitsForPacking = true;
    yard.waits.recharge();
    const changed: boolean = yield clamp.urge.by(Number.isFinite(wait) ? breaks.finish(sim.now, wait) : Infinity);
    clamp.waitsForPacking = false;
    if (!changed) break;
  }
}

const holds = (clamp: Clamp, yard: Yard): boolean => behindOf(yard.scenario).holds !== "never" && !clamp.burying;

/** The set layer; a crew that buries spreads the thicker the more loads lie ready behind this one. */
function layerNow(clamp: Clamp, yard: Yard): number {
  const { layer } = yard.scenario.packing;
  return holds(clamp, yard) ? layer : Math.max(layer, Math.min(THICKEST_LAYER, layer * (1 + clamp.loadsReady)));
}

/** Pushes so many kg, slower or not at all while blades are missing. */
function* push(clamp: Clamp, yard: Yard, mass: number, layer: number): Work {
  const { sim, breaks } = yard.clock;
  let left = mass;
  for (;;) {
    const rate = clamp.crew.pushRate(layer);
    const begun = sim.now;
    const changed: boolean = yield clamp.urge.by(rate > 0 ? breaks.finish(begun, left / rate) : Infinity);
    if (!changed) return;
    left = Math.max(0, left - rate * breaks.open(begun, sim.now));
  }
}
