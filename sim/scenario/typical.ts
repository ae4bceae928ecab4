/** How much a typical day varies. */
import { loadToLoad } from "../forage/load.ts";
import type { Activity } from "./types.ts";

/**
 * Coefficients of variation of a typical day, lognormal: assumption of this project, but for the load, which is published
 * (load to load within one kind of trailer). That the shape is lognormal leans on Manner et al. 2016, forest machines, by analogy (published):
 * times of loading came close to it with a sigma of about 0.5, those of unloading had a heavier tail.
 */
export const TYPICAL: Readonly<Record<Activity, number>> = {
  cutting: 0.1, load: loadToLoad.value, loaded: 0.15, empty: 0.15, weighing: 0.3, tip: 0.4, spread: 0.2, yield: 0.1,
};
