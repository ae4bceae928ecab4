/** How much forage lies how deep, and how far the model's gradient falls short of the measured one. */
import { depthTerm } from "../packing.ts";
import { measuredProfile } from "../profile.ts";
import type { Slice } from "../profile.ts";
import { bodyOf } from "./body.ts";
import { profileOf, sumsTo } from "./shape.ts";
import type { Shape } from "./shape.ts";

/** Samples were taken so far from the floor and from the top, m: see `measuredProfile`. */
const SAMPLE = 0.5;

/**
 * The forage in slices of equal depth below the finished surface, top first, ready for `depthProfile`. What lies deeper than z below a surface is as much as
 * lies higher than z above the floor (each column is shifted by z), so a slice's volume is that of the level slice as far from the floor.
 */
export function slicesOf(shape: Shape, volume: number, count = 12): Slice[] {
  const { top, toe } = bodyOf(shape, volume);
  if (!(top > 0)) return [];
  const profile = profileOf(shape);
  const below = (y: number) => {
    const { area, lost } = sumsTo(profile, y);
    return toe * area - lost;
  };
  return Array.from({ length: count }, (_, i) => {
    const [from, to] = [(top * i) / count, (top * (i + 1)) / count];
    return { depth: (from + to) / 2, volume: below(to) - below(from) };
  });
}

/** What the picture shows against what was measured. */
export interface GradientShortfall {
  /** density 0.5 m above the floor over density 0.5 m below the top, as the picture has it */ readonly shown: number;
  /** the same, measured */ readonly measured: number;
}

/** The model's gradient beside the measured one, where the forage stands highest; null when it is not deep enough for two samples. */
export function gradientShortfall(shape: Shape, volume: number): GradientShortfall | null {
  const { top } = bodyOf(shape, volume);
  if (!(top > 2 * SAMPLE)) return null;
  return { shown: depthTerm(2 * (top - SAMPLE)) / depthTerm(2 * SAMPLE), measured: measuredProfile.bottomOverTop.value };
}
