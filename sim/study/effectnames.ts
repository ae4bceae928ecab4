/** The figures of an effect; cost is by the tonne fed where every day gives that, else by the tonne delivered. */
export const EFFECTS = ["cost", "density", "waiting", "finish", "pace"] as const;
export type EffectName = (typeof EFFECTS)[number];
