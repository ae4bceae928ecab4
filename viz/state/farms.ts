/** The farms that a campaign goes on to after the plan's own. */
import { signal } from "@preact/signals";
import { readAddress } from "../address.ts";

/** Ids of worked examples or kept plans, in their order. */
export const farms = signal<readonly string[]>(readAddress(location.hash).farms);
