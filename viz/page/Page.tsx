/** The page: one question, one answer, one drawing, and the reasons under it. */
import { Patterns } from "../drawings/patterns.tsx";
import { SYSTEMS_SHOWN, chooseExample, examples, exampleId, trouble, units } from "../state.ts";
import { words } from "../words.ts";
import { Controls } from "./Controls.tsx";
import { Deciding, DensityFigure, StripFigure } from "./Day.tsx";
import { Figures } from "./Figures.tsx";
import { FeedingOut, Ledger } from "./Ledger.tsx";
import { Machines } from "./Machines.tsx";
import { Money } from "./Money.tsx";
import { Cautions, Defaults, HandChecks, Notes } from "./Reasons.tsx";
import { SideBySide } from "./SideBySide.tsx";
import { Verdict } from "./Verdict.tsx";

export function Page() {
  return (
    <>
      <Patterns />
      <header class="masthead">
        <p class="name">{words.name}</p>
        <ExampleChoice />
        <fieldset class="systems">
          <legend class="unseen">{words.unitSystem}</legend>
          {SYSTEMS_SHOWN.map((system) => (
            <label key={system}>
              <input type="radio" name="units" checked={units.value === system} onChange={() => { units.value = system; }} />
              {words.systems[system]}
            </label>
          ))}
        </fieldset>
      </header>
      <main>
        <div class="desk">
          <Verdict />
          <StripFigure />
          <Deciding />
          <Controls />
        </div>
        <div class="reasons">
          <div>
            <Figures />
            <Ledger />
            <FeedingOut />
          </div>
          <div>
            <DensityFigure />
            <Cautions />
            <HandChecks />
            <Money />
          </div>
        </div>
        <SideBySide />
        <Machines />
        <Notes />
        <Defaults />
      </main>
    </>
  );
}

function ExampleChoice() {
  // Read so that the choice falls back to what is shown when another could not be had.
  void trouble.value;
  const shows = examples.value.find(({ id }) => id === exampleId.value)?.shows;
  return (
    <label class="example">
      <span>{words.example}</span>
      <select value={exampleId.value ?? ""} title={shows} onChange={(event) => chooseExample(event.currentTarget.value)}>
        {examples.value.map(({ id, name }) => <option key={id} value={id}>{name}</option>)}
      </select>
    </label>
  );
}
