/** Small days for the tests of studies: quick to rehearse, and still with a queue, a crew that may fall behind, and luck. */
import { TYPICAL } from "../../sim/scenario/typical.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { blade, bunker, field, plan, roller, trucks, varying, type Wishes } from "../harvest/plan.ts";

/** About 17 loads on a typical day; the crew packs about half of what the chopper brings. */
export const smallDay = (wishes: Wishes = {}): Scenario =>
  plan({ name: "Small day", fields: [field({ area: 60_000 })], variation: varying(TYPICAL), ...wishes });

/** The small day with so many trucks. */
export const smallWithTrucks = (count: number, wishes: Wishes = {}): Scenario => smallDay({ trucks: [trucks(count)], ...wishes });

/** The small day with a roller more. */
export const smallWithRoller = (wishes: Wishes = {}): Scenario =>
  smallDay({ storages: [bunker({ tractors: [blade(), roller(), roller(16_000, { name: "Second roller" })] })], ...wishes });
