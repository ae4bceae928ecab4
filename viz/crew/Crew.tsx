/** The day sheet for the crew: what the plan knows, lines for what it does not, on one sheet of paper. */
import { clockOf } from "../../sim/findings/clock.ts";
import { clock, quantity, span } from "../quantity.ts";
import { verdictIn } from "../sentences.ts";
import { findings, rehearsed, trouble, units } from "../state.ts";
import { words } from "../words.ts";
import { crewWords } from "../words/crew.ts";
import { daySheetOf } from "./daysheet.ts";
import { Blank } from "./Blank.tsx";
import { AtTheClamp } from "./AtTheClamp.tsx";
import { BackPage } from "./BackPage.tsx";
import { Fields, OnTheRoad } from "./OutThere.tsx";
import { AfterTheLast, StopRules } from "./Rules.tsx";
import "./crew.css";

/** Lines of print that a further clamp takes, trucks that stand on one line, and lines that hang on the plan up to which its front page has room. */
const LINES_A_CLAMP = 9;
const TRUCKS_A_LINE = 4;
const ROOMY = 6;
const CROWDED = 12;

export function Crew() {
  const answer = findings.value;
  const story = rehearsed.value;
  if (!answer || !story) return <p role="status">{trouble.value ?? words.waitingForFirst}</p>;
  const system = units.value;
  const sheet = daySheetOf(answer, story);
  const { scenario } = story;
  const trucks = sheet.trucks.reduce((sum, { count }) => sum + count, 0);
  const crowd = sheet.fields.length + sheet.clamps.reduce((sum, { storage }) => sum + storage.tractors.length + LINES_A_CLAMP, -LINES_A_CLAMP) + Math.ceil(trucks / TRUCKS_A_LINE);
  const { blanks, day } = crewWords;
  const breaks = scenario.shift.breaks.map(({ at, for: length }) => day.rest(clock(at), span(length))).join(", ");
  const [early, mean, late] = sheet.finish;
  return (
    <article class={`crew ${system === "us" ? "letter" : "a4"} ${crowd > CROWDED ? "crowded" : crowd <= ROOMY ? "roomy" : ""}`}>
      <p class="screen-only">{crewWords.screen} <button type="button" onClick={() => print()}>{crewWords.print}</button></p>
      <div class="front">
        <h1>{crewWords.title(answer.scenario.name)}</h1>
        <p class="blanks"><Blank label={blanks.date} /><Blank label={blanks.lead} wide /><Blank label={blanks.phone} wide /><Blank label={blanks.radio} /><Blank label={blanks.emergency} /><Blank label={blanks.place} wide /></p>
        <section aria-labelledby="crew-day">
          <h2 id="crew-day">{day.title}</h2>
          <p>{day.start(clock(scenario.shift.start), breaks, clock(scenario.shift.end))} {clockOf(early) === clockOf(late) ? day.finishOne(clockOf(mean)) : day.finish(clockOf(early), clockOf(late), clockOf(mean))} {sheet.home && day.home(clock(sheet.home[0]), clock(sheet.home[1]))}</p>
          <p>{verdictIn(system, answer.verdict)}</p>
        </section>
        <Fields rows={sheet.fields} choppers={scenario.choppers.length} units={system} />
        <OnTheRoad sheet={sheet} scenario={scenario} units={system} />
        {sheet.clamps.map((clamp, i) => <AtTheClamp key={clamp.storage.name} id={`crew-clamp-${i}`} clamp={clamp} layer={quantity(scenario.packing.layer, "thickness", system)} units={system} />)}
        <StopRules sheet={sheet} scenario={scenario} units={system} />
        <AfterTheLast sheet={sheet} scenario={scenario} units={system} />
      </div>
      <BackPage findings={answer} scenario={scenario} units={system} crowded={crowd > CROWDED} />
    </article>
  );
}
