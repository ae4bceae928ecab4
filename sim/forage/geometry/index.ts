/** The geometry of storages: bunkers and piles, filled by a wedge that moves on. Pure, in m, m2, m3 and kg; see shape.ts for the fill model. */
export type { Shape } from "./shape.ts";
export { baseUnderSlopes, bodyOf, capacityOf, firstWedgeOf, footprintOf, heightFor, meanDepthOf, settledDepth, toeFor, volumeAt, volumeBehind } from "./body.ts";
export type { Body } from "./body.ts";
export { checksOf } from "./checks.ts";
export type { Check } from "./checks.ts";
export { bagLength, coverFor, filmOverlap, sheetWidth, surfaceOf, tyresPerArea, weightsFor } from "./cover.ts";
export type { FilmPlan } from "./cover.ts";
export { gradientShortfall, slicesOf } from "./depth.ts";
export type { GradientShortfall } from "./depth.ts";
export { layoutOf, volumeOfSection } from "./layout.ts";
export type { Point, Polygon } from "./layout.ts";
export { loosestPart, shareUnder } from "./loosest.ts";
export type { LaidLift } from "./loosest.ts";
export { coversWanted, crowdingNote, firstWedgeShare, hurryNote, laneWidth, passesOver, rollingSpeed, roomFor, shareThatCounts, usualTractorWidth } from "./room.ts";
export type { Rolling } from "./room.ts";
export { layersPerLoad, steepenedRun, wedgeSurface } from "./wedge.ts";
export type { WedgeSurface } from "./wedge.ts";
