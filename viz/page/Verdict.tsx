/** One question, one answer in a sentence, and the plan it is the answer to. */
import { BEHIND_RULES, type BehindRule } from "../../sim/scenario/types.ts";
import { controlsOf, meanDistance, type Amount } from "../controls.ts";
import { put } from "../document.ts";
import { quantity } from "../quantity.ts";
import { verdictIn } from "../sentences.ts";
import { asking, example, findings, plan, rehearsed, rewrite, units } from "../state.ts";
import { words } from "../words.ts";
import { doorWords } from "../words/doors.ts";
import { FirstAnswer } from "./FirstAnswer.tsx";
import { InShort } from "./InShort.tsx";

export function Verdict() {
  const answer = findings.value;
  return (
    <section class="verdict" aria-labelledby="question">
      <h1 id="question">{words.question}</h1>
      <p class="answer" role="status" aria-busy={asking.value} data-keeps={answer ? String(answer.verdict.keepsPace) : undefined}>
        {answer ? verdictIn(units.value, answer.verdict) : <FirstAnswer />}
      </p>
      <PlanLine isNamed={false} />
      <InShort />
      <p class="to-plan"><a href="#plan" onClick={goToPlan}>{words.toPlan}</a></p>
    </section>
  );
}

/** What is rehearsed, with its name before it; where a choice shows that name already, only on paper. What a plan without luck cannot tell, and the way to put it in. */
export function PlanLine({ isNamed = true }: { readonly isNamed?: boolean }) {
  const document = plan.value;
  const name = document?.name;
  const isShown = isNamed || name !== example.value?.name;
  return (
    <p class="plan">
      {typeof name === "string" && <span class={isShown ? undefined : "on-paper"}>{name}: </span>}{planSentence()}
      {document?.variation === "none" && (
        <span class="screen-only"> {doorWords.noLuck} <button type="button" class="plain" onClick={() => rewrite(put(document, ["variation"], "typical"))}>{doorWords.putLuck}</button></span>
      )}
    </p>
  );
}

/** The address behind the `#` is the page's memory, so the link must not write to it. */
function goToPlan(event: Event): void {
  event.preventDefault();
  const plan = globalThis.document.getElementById("plan")!;
  plan.scrollIntoView();
  plan.focus();
}

/** The plan in one line. */
function planSentence(): string {
  const document = plan.value;
  if (!document) return "";
  const system = units.value;
  const measured = rehearsed.value?.scenario.fields ?? [];
  const controls = controlsOf(document, findings.value?.defaults ?? [], measured);
  const amounts = (what: string) => controls.filter((control): control is Amount => control.type === "amount" && control.what === what && control.value !== null);
  const sum = (what: string) => amounts(what).reduce((total, { value }) => total + value!, 0);
  const rule = controls.find((control) => control.type === "choice")?.value;
  const parts: string[] = [];
  const choppers = amounts("pace");
  if (choppers.length) parts.push(words.plan.choppers(choppers.length, quantity(sum("pace"), "flow", system)));
  const road = meanDistance(document, measured);
  if (road !== null) parts.push(words.plan.trucks(sum("trucks"), quantity(road, "distance", system)));
  const masses = [...amounts("tractor"), ...amounts("mass")].map(({ value }) => quantity(value!, "machineMass", system));
  if (masses.length) parts.push(words.plan.tractors(masses));
  const layer = amounts("layer")[0];
  if (layer && BEHIND_RULES.includes(rule as BehindRule)) parts.push(words.plan.layer(quantity(layer.value!, "thickness", system), rule as BehindRule));
  return parts.length ? `${parts.join("; ")}.` : "";
}
