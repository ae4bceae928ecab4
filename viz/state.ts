/** What the page knows, and what changes it. Everything shown is a function of these signals; each has its own file in `state/`. */
export * from "./state/answer.ts";
export * from "./state/beside.ts";
export * from "./state/plan.ts";
export * from "./state/show.ts";
export * from "./state/trouble.ts";
