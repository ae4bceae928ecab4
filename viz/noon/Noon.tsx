/** A day that is under way: how it stands, what of it still gets done, and what can still be changed. */
import { useEffect } from "preact/hooks";
import type { RestOfDay } from "../../sim/findings/types.ts";
import { FirstAnswer } from "../page/FirstAnswer.tsx";
import { PlanLine } from "../page/Verdict.tsx";
import { quantity } from "../quantity.ts";
import { textIn, verdictIn } from "../sentences.ts";
import { plan, rehearsed, units } from "../state.ts";
import { listed } from "../words.ts";
import { noonWords as words } from "../words/noon.ts";
import { FixesToday } from "./FixesToday.tsx";
import { NowFile } from "./NowFile.tsx";
import { answer, askRest, asking, standing, trouble, wrong } from "./rest.ts";
import { RestDay } from "./RestDay.tsx";
import { RestPicture, secondsOf } from "./RestPicture.tsx";
import { Standing } from "./Standing.tsx";
import { hasLine } from "./standing.ts";
import "../change/change.css";
import "../plan/plan.css";
import "./noon.css";

export function Noon() {
  const story = rehearsed.value;
  const stands = standing.value;
  const document = plan.value;
  useEffect(askRest, [document, stands]);
  if (!story || !stands) return <p role="status"><FirstAnswer waiting={words.waiting} /></p>;
  return (
    <div class="noon">
      <section aria-labelledby="stands" class="noon-told">
        <h1 id="stands">{words.title}</h1>
        <p class="quiet screen-only">{words.lead}</p>
        <PlanLine />
        <Standing standing={stands} story={story} />
        <NowFile standing={stands} />
      </section>
      <Rest />
    </div>
  );
}

/** Trucks that can go before their last load, by the time from which they can; the others in a sentence, and behind it how each was found. */
function Home({ rest: { from, trucks } }: { readonly rest: RestOfDay }) {
  const free = trucks.filter(({ needed }) => !needed);
  const times = [...new Set(free.map((truck) => truck.from))].sort((a, b) => secondsOf(a) - secondsOf(b));
  return (
    <>
      <ul class="said">
        {times.map((time) => {
          const names = listed(free.filter((truck) => truck.from === time).map(({ name }) => name));
          return <li key={time}><strong>{time === from ? words.home.now(names) : words.home.at(time, names)}</strong></li>;
        })}
      </ul>
      {free.length < trucks.length && <p>{free.length === 0 ? words.home.nobody : words.home.others(trucks.length - free.length)}</p>}
      {free.length > 0 && <details class="rest"><summary>{words.home.how}</summary><ul>{free.map(({ name, inWords }) => <li key={name}>{textIn(units.value, inWords)}</li>)}</ul></details>}
    </>
  );
}

/** Lists of the form that tell of what is wrong with them as a whole. */
const LISTS: ReadonlySet<string> = new Set(["/from/delivered", "/from/machines"]);

function Rest() {
  const given = answer.value;
  const rest = given?.findings.rest;
  const others = wrong.value.filter(({ pointer }) => !LISTS.has(pointer) && !(standing.value && rehearsed.value && hasLine(pointer, standing.value, rehearsed.value.scenario)));
  return (
    <section aria-labelledby="rest" class="noon-rest" aria-busy={asking.value}>
      <h2 id="rest">{words.answer.title}</h2>
      {trouble.value !== null && <p class="trouble" role="alert">{trouble.value}</p>}
      {others.map(({ pointer, detail }) => <p key={pointer + detail} class="trouble" role="alert">{words.wrongHere(pointer.replace(/^\/(from|scenario)\//u, ""))} {textIn(units.value, detail)}</p>)}
      {wrong.value.length > 0 && rest && <p class="quiet">{words.answer.before}</p>}
      {!rest && wrong.value.length === 0 && trouble.value === null && <p role="status">{words.answer.asking}</p>}
      {given && rest && (
        <>
          <p class="answer" role="status" data-keeps={String(given.findings.verdict.keepsPace)}>{words.answer.closed(rest.closedAt.median, rest.closedAt.early, rest.closedAt.late)}</p>
          <p>{verdictIn(units.value, given.findings.verdict)} <span class="quiet">{words.answer.days(given.findings.rehearsals)}.</span></p>
          <RestPicture rest={rest} scenario={rehearsed.value!.scenario} />
          <section aria-labelledby="rest-stop">
            <h3 id="rest-stop">{words.stop.title}</h3>
            <ul class="said">
              <li><strong>{textIn(units.value, rest.stopCutting.inWords)}</strong></li>
              {rest.stopRules.map((rule) => {
                const where = rest.stopRules.length > 1 ? rule.storage : null;
                return (
                  <li key={rule.storage}>
                    <strong>{rule.packMinutesPerLoad === null ? words.stop.nobody(where) : words.stop.apron[rule.holds](words.stop.lie(String(rule.apronLoads), where), quantity(rule.apronTonnes * 1000, "mass", units.value))}</strong>{" "}
                    <span class="quiet">{textIn(units.value, rule.inWords.apron)}</span>
                  </li>
                );
              })}
            </ul>
          </section>
          <section aria-labelledby="rest-home">
            <h3 id="rest-home">{words.home.title}</h3>
            <Home rest={rest} />
          </section>
          <RestDay story={given.story} />
          <FixesToday />
          <section aria-labelledby="rest-cautions">
            <h3 id="rest-cautions">{words.cautions}</h3>
            <ul class="cautions-short">{given.findings.cautions.filter(({ where }) => where === "everywhere").map(({ id, text }) => <li key={id}>{textIn(units.value, text)}</li>)}</ul>
          </section>
          <details class="rest">
            <summary>{words.taken}</summary>
            <ul>{rest.assumptions.map((text) => <li key={text}>{textIn(units.value, text)}</li>)}</ul>
          </details>
        </>
      )}
    </section>
  );
}
