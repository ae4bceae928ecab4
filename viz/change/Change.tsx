/** What to change: remedies to try, the price of one unit more, and studies of trucks, crews, guesses and price, all of the plan as it stands. */
import { FirstAnswer } from "../page/FirstAnswer.tsx";
import { PlanLine } from "../page/Verdict.tsx";
import { verdictIn } from "../sentences.ts";
import { findings, tried, units } from "../state.ts";
import { words } from "../words/change.ts";
import { CrewSearch } from "./CrewSearch.tsx";
import { Enough } from "./Enough.tsx";
import { Fixes } from "./Fixes.tsx";
import { Guesses } from "./Guesses.tsx";
import { Multiples } from "./Multiples.tsx";
import { Price } from "./Price.tsx";
import { keepAll, takeBack } from "./tried.ts";
import "./change.css";

export function Change() {
  const answer = findings.value;
  return (
    <div class="change">
      <section class="verdict" aria-labelledby="change">
        <h1 id="change">{words.title}</h1>
        <p class="answer" role="status" data-keeps={answer ? String(answer.verdict.keepsPace) : undefined}>{answer ? verdictIn(units.value, answer.verdict) : <FirstAnswer />}</p>
        <PlanLine />
      </section>
      <TriedSoFar />
      <Fixes />
      <div class="studies">
        <div>
          <Multiples />
          <Guesses />
          <Enough />
        </div>
        <div>
          <CrewSearch />
          <Price />
        </div>
      </div>
    </div>
  );
}

function TriedSoFar() {
  if (tried.value.length === 0) return null;
  return (
    <section class="tried" aria-labelledby="tried">
      <h2 id="tried">{words.tried.title}</h2>
      <ol>
        {tried.value.map(({ what }, i) => (
          <li key={i}>{what} <button type="button" class="plain" aria-label={`${words.tried.take}: ${what}`} onClick={() => takeBack(i)}>{words.tried.take}</button></li>
        ))}
      </ol>
      <button type="button" onClick={keepAll}>{words.tried.keep}</button>
    </section>
  );
}
