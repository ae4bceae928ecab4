/** A day that is under way: how it stands, what of it still gets done, and what can still be changed. */
import { useEffect } from "preact/hooks";
import type { RestOfDay } from "../../sim/findings/types.ts";
import { planSentence } from "../page/Verdict.tsx";
import { quantity } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { plan, rehearsed, units, trouble as planTrouble } from "../state.ts";
import { noonWords as words } from "../words/noon.ts";
import { FixesToday } from "./FixesToday.tsx";
import { NowFile } from "./NowFile.tsx";
import { answer, askRest, asking, standing, trouble, wrong } from "./rest.ts";
import { RestPicture } from "./RestPicture.tsx";
import { Standing } from "./Standing.tsx";
import "../change/change.css";
import "../plan/plan.css";
import "./noon.css";

export function Noon() {
  const story = rehearsed.value;
  const stands = standing.value;
  const document = plan.value;
  useEffect(askRest, [document, stands]);
  if (!story || !stands) return <p role="status">{planTrouble.value ?? words.waiting}</p>;
  return (
    <div class="noon">
      <section aria-labelledby="stands" class="noon-told">
        <h1 id="stands">{words.title}</h1>
        <p class="quiet screen-only">{words.lead}</p>
        <p class="plan">{planSentence()}</p>
        <Standing standing={stands} story={story} />
        <NowFile standing={stands} />
      </section>
      <Rest />
    </div>
  );
}

/** Trucks that can go before their last load one by one, the others in a sentence. */
function Home({ trucks }: { readonly trucks: RestOfDay["trucks"] }) {
  const free = trucks.filter(({ needed }) => !needed);
  return (
    <>
      <ul>{free.map(({ name, inWords }) => <li key={name}>{textIn(units.value, inWords)}</li>)}</ul>
      {free.length < trucks.length && <p>{free.length === 0 ? words.home.nobody : words.home.others(trucks.length - free.length)}</p>}
    </>
  );
}

function Rest() {
  const given = answer.value;
  const rest = given?.findings.rest;
  const others = wrong.value.filter(({ pointer }) => !pointer.startsWith("/from/"));
  return (
    <section aria-labelledby="rest" class="noon-rest" aria-busy={asking.value}>
      <h2 id="rest">{words.answer.title}</h2>
      {trouble.value !== null && <p class="trouble" role="alert">{trouble.value}</p>}
      {others.map(({ pointer, detail }) => <p key={pointer + detail} class="trouble" role="alert">{words.wrongHere} {textIn(units.value, detail)}</p>)}
      {wrong.value.length > 0 && rest && <p class="quiet">{words.answer.before}</p>}
      {!rest && wrong.value.length === 0 && trouble.value === null && <p role="status">{words.answer.asking}</p>}
      {given && rest && (
        <>
          <p class="answer" role="status" data-keeps={String(given.findings.verdict.keepsPace)}>{words.answer.closed(rest.closedAt.median, rest.closedAt.early, rest.closedAt.late)}</p>
          <p>{textIn(units.value, given.findings.verdict.headline)} <span class="quiet">{words.answer.days(given.findings.rehearsals)}.</span></p>
          <RestPicture rest={rest} scenario={rehearsed.value!.scenario} />
          <section aria-labelledby="rest-stop">
            <h3 id="rest-stop">{words.stop.title}</h3>
            <ul class="said">
              <li><strong>{textIn(units.value, rest.stopCutting.inWords)}</strong></li>
              {rest.stopRules.map((rule) => {
                const where = rest.stopRules.length > 1 ? rule.storage : null;
                return (
                  <li key={rule.storage}>
                    <strong>{rule.packMinutesPerLoad === null ? words.stop.nobody(where) : words.stop.apron(String(rule.apronLoads), quantity(rule.apronTonnes * 1000, "mass", units.value), where)}</strong>{" "}
                    <span class="quiet">{textIn(units.value, rule.inWords.apron)}</span>
                  </li>
                );
              })}
            </ul>
          </section>
          <section aria-labelledby="rest-home">
            <h3 id="rest-home">{words.home.title}</h3>
            <Home trucks={rest.trucks} />
          </section>
          <FixesToday plan={given.plan} standing={given.standing} />
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
