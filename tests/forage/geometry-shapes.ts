/** Storages for the tests of geometry, worked by hand and drawn at random. */
import fc from "fast-check";
import type { Shape } from "../../sim/forage/geometry/index.ts";
import { FOOT } from "../../sim/forage/us.ts";

/** 12 x 45 m, walls 3.2 m, wedge 1:3. */
export const NORTH: Shape = { form: "bunker", width: 12, length: 45, height: 3.2, wedge: 3, sideSlope: 0, meanDepth: null };

/** 60 x 240 ft, walls 12 ft, wedge 1:3. */
export const US_BUNKER: Shape = { form: "bunker", width: 60 * FOOT, length: 240 * FOOT, height: 12 * FOOT, wedge: 3, sideSlope: 0, meanDepth: null };

/** 130 x 300 ft at the base, 14 ft high, 1:3 all round. */
export const US_PILE: Shape = { form: "pile", width: 130 * FOOT, length: 300 * FOOT, height: 14 * FOOT, wedge: 3, sideSlope: 3, meanDepth: null };

/** 12 x 45 m, walls 3 m, rounded up by 1 m in the middle: the crown slopes 1:6. */
export const CROWNED: Shape = { ...NORTH, height: 3, crown: 1 };

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

export const bunkers: fc.Arbitrary<Shape> = fc.record({ width: between(3, 60), length: between(5, 150), height: between(0.5, 6), wedge: between(0.2, 8), crown: fc.option(between(0.1, 1.5)) })
  .map(({ crown, ...sizes }) => ({ ...sizes, form: "bunker", sideSlope: 0, meanDepth: null, ...(crown === null ? {} : { crown }) }));

export const piles: fc.Arbitrary<Shape> = fc.record({ length: between(5, 150), height: between(0.5, 6), wedge: between(0.2, 8), sideSlope: between(0.2, 6), topWidth: between(0, 30) })
  .map(({ topWidth, ...sizes }) => ({ ...sizes, form: "pile", width: topWidth + 2 * sizes.sideSlope * sizes.height, meanDepth: null }));

/** Also those too short for their wedge, and bunkers closed in front. */
export const shapes: fc.Arbitrary<Shape> = fc.oneof(bunkers, piles, bunkers.map(({ wedge: _, ...closed }): Shape => closed));

/** A shape and a share of its capacity, also more than fits. */
export const filled = fc.tuple(shapes, between(0.001, 1.3));
