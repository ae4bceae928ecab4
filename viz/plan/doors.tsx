/** What opens the whole plan and the keeping of plans. Both are fetched when they are first opened; the first answer does not wait for them. */
import { signal, type Signal } from "@preact/signals";
import { later } from "../page/Later.tsx";
import { chooseExample, exampleId, examples, kept, trouble } from "../state.ts";
import { words } from "../words.ts";
import { doorWords } from "../words/doors.ts";
import "./doors.css";

const wholeOpen = signal(false);
const keepingOpen = signal(false);
const Editor = later(async () => (await import("./PlanEditor.tsx")).PlanEditor);
const Keep = later(async () => (await import("./Keeping.tsx")).Keeping);

/** Which plan is shown, and the way to others. */
export function PlanChoice() {
  // Read so that the choice falls back to what is shown when another could not be had.
  void trouble.value;
  const shows = examples.value.find(({ id }) => id === exampleId.value)?.shows;
  return (
    <>
      <div class="plan-choice">
        <label class="example">
          <span>{words.example}</span>
          <select value={exampleId.value ?? ""} title={shows} onChange={(event) => chooseExample(event.currentTarget.value)}>
            {kept.value.length > 0 && <optgroup label={doorWords.kept}>{kept.value.map(({ id, name }) => <option key={id} value={id}>{name}</option>)}</optgroup>}
            <optgroup label={doorWords.examples}>{examples.value.map(({ id, name }) => <option key={id} value={id}>{name}</option>)}</optgroup>
          </select>
        </label>
        <Door open={keepingOpen} closed={doorWords.keeping} shut={doorWords.closeKeeping} />
        <Door open={wholeOpen} closed={doorWords.openWhole} shut={doorWords.closeWhole} goesTo="whole-plan" />
      </div>
      {keepingOpen.value && <Keep />}
    </>
  );
}

/** The whole plan, where it has been opened. */
export function WholePlan() {
  return <div id="whole-plan" tabIndex={-1}>{wholeOpen.value ? <Editor /> : null}</div>;
}

/** From the short set of sliders to everything. */
export const WholeDoor = () => <Door open={wholeOpen} closed={doorWords.openWhole} shut={doorWords.closeWhole} goesTo="whole-plan" />;

interface DoorProps { readonly open: Signal<boolean>; readonly closed: string; readonly shut: string; /** id of what it opens, where that stands further down */ readonly goesTo?: string }

function Door({ open, closed, shut, goesTo }: DoorProps) {
  const turn = () => {
    open.value = !open.value;
    const place = goesTo === undefined || !open.value ? null : document.getElementById(goesTo);
    place?.scrollIntoView();
    place?.focus({ preventScroll: true });
  };
  return <button type="button" class="door" aria-expanded={open.value} onClick={turn}>{open.value ? shut : closed}</button>;
}
