/** What the plan is held against. */
import { signal } from "@preact/signals";
import { readAddress } from "../address.ts";

/** The choice that means the plan without the reader's changes. */
export const AS_OPENED = "as-opened";
/** Ids of examples or kept plans, or `AS_OPENED`; none while nobody asked. */
export const beside = signal<readonly string[]>(readAddress(location.hash).beside);
