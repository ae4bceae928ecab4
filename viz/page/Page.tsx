/** The page: one question, one answer, one drawing, and the reasons under it; beside that, sheets for what follows from the answer. */
import { Patterns } from "../drawings/patterns.tsx";
import { PlanChoice, WholePlan } from "../plan/doors.tsx";
import { missing, plan, sheet } from "../state.ts";
import type { Sheet } from "../sheets.ts";
import { words } from "../words.ts";
import { Controls } from "./Controls.tsx";
import { Deciding, StripFigure } from "./Day.tsx";
import { DensityFigure, DepthFigure } from "./Density.tsx";
import { Figures } from "./Figures.tsx";
import { later } from "./Later.tsx";
import { FeedingOut, Ledger } from "./Ledger.tsx";
import { Machines } from "./Machines.tsx";
import { Masthead } from "./Masthead.tsx";
import { Money } from "./Money.tsx";
import { Cautions, Colophon, Defaults, HandChecks, Notes } from "./Reasons.tsx";
import { Verdict } from "./Verdict.tsx";

const SHEET_OF = {
  day: Day,
  change: later(async () => (await import("../change/Change.tsx")).Change),
  beside: later(async () => (await import("../beside/Beside.tsx")).Beside),
  noon: later(async () => (await import("../noon/Noon.tsx")).Noon),
  campaign: later(async () => (await import("../campaign/Campaign.tsx")).Campaign),
  tickets: later(async () => (await import("../tickets/Tickets.tsx")).Tickets),
  lessons: later(async () => (await import("../lessons/Lessons.tsx")).Lessons),
  crew: later(async () => (await import("../crew/Crew.tsx")).Crew),
} satisfies Record<Sheet, unknown>;

export function Page() {
  const Shown = SHEET_OF[sheet.value];
  return (
    <>
      <Patterns />
      <Masthead />
      <main data-sheet={sheet.value}><Missing /><Shown /></main>
    </>
  );
}

/** Says so where the address called for a plan that nobody here has: a link to a plan that is kept on another machine, or was taken away. */
function Missing() {
  if (missing.value === null || plan.value === null) return null;
  return <p class="missing" role="status">{words.missing(missing.value, String(plan.value.name ?? ""))}</p>;
}

/** The day and its answer. */
function Day() {
  return (
    <>
      <PlanChoice />
      <div class="desk">
        <Verdict />
        <StripFigure />
        <Deciding />
        <Controls />
      </div>
      <WholePlan />
      <div class="reasons">
        <div>
          <DensityFigure />
          <DepthFigure />
          <Ledger />
          <FeedingOut />
          <Money />
        </div>
        <div>
          <Figures />
          <HandChecks />
          <Cautions />
          <Notes />
          <Colophon />
        </div>
      </div>
      <Machines />
      <Defaults />
    </>
  );
}
