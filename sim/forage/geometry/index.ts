/** The geometry of storages: bunkers and piles, filled by a wedge that moves on. Pure, in m, m2, m3 and kg; see shape.ts for the fill model. */
export type { Shape } from "./shape.ts";
export { baseUnderSlopes, bodyOf, capacityOf, footprintOf, grownWedge, meanDepthOf, toeFor, volumeBehind } from "./body.ts";
export type { Body } from "./body.ts";
export { checksOf } from "./checks.ts";
export { bagLength, coverFor, filmOverlap, sheetWidth, surfaceOf, tyresPerArea, weightsFor } from "./cover.ts";
export { gradientShortfall, slicesOf } from "./depth.ts";
export { layoutOf, volumeOfSection } from "./layout.ts";
export type { Point, Polygon } from "./layout.ts";
export { loosestPart } from "./loosest.ts";
export { coversWanted, crowdingNote, firstWedgeShare, hurryNote, passesOver, rollingSpeed, roomFor, shareThatCounts } from "./room.ts";
export { layersPerLoad, steepenedRun, wedgeSurface } from "./wedge.ts";
