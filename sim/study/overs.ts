/** What the small pictures go over: there may be more and fewer of it. Packing tractors are those beside the blades, at the storage that takes most of the crop first. */
export const OVERS = ["trucks", "tractors"] as const;
export type Over = (typeof OVERS)[number];
