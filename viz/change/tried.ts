/** Changes tried on the plan one after another: each can be taken back, together with what was tried after it, as long as they are not kept. */
import { batch } from "@preact/signals";
import type { Scenario } from "../../sim/scenario/types.ts";
import type { Document } from "../document.ts";
import { edits, own, plan, rehearsed, rewrite, tried, units } from "../state.ts";
import { changedDocument } from "./apply.ts";

/** The checked plan that the answer shown is about; null while the answer is still on its way. */
export const checkedPlan = (): Scenario | null => rehearsed.value?.scenario ?? null;

/** Changes the plan as a study changed its checked one. */
export function tryOut(what: string, change: (scenario: Scenario) => Scenario): void {
  const scenario = checkedPlan();
  const document = plan.value;
  if (scenario && document) tryPlan(what, changedDocument(document, scenario, change(scenario), units.value));
}

/** Puts a changed plan in the place of the plan. */
export function tryPlan(what: string, changed: Document): void {
  batch(() => {
    tried.value = [...tried.value, { what, own: own.value, edits: edits.value }];
    rewrite(changed);
  });
}

/** Takes back the change at this place and all that came after it. */
export function takeBack(place: number): void {
  const before = tried.value[place];
  if (!before) return;
  batch(() => {
    own.value = before.own;
    edits.value = before.edits;
    tried.value = tried.value.slice(0, place);
  });
}

/** The plan stays as it is now. */
export function keepAll(): void {
  tried.value = [];
}
