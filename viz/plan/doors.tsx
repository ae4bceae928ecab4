/** What opens the whole plan and the keeping of plans. Both are fetched when they are first opened; the first answer does not wait for them. */
import { signal, type Signal } from "@preact/signals";
import { useLayoutEffect } from "preact/hooks";
import { later } from "../page/Later.tsx";
import { chooseExample, exampleId, examples, kept, trouble, wholeOpen } from "../state.ts";
import { words } from "../words.ts";
import { doorWords } from "../words/doors.ts";
import "./doors.css";

const keepingOpen = signal(false);
const Editor = later(async () => {
  const { PlanEditor } = await import("./PlanEditor.tsx");
  return function Whole() {
    useLayoutEffect(arrive, []);
    return <PlanEditor />;
  };
});
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
          <span>{kept.value.some(({ id }) => id === exampleId.value) ? doorWords.plan : words.example}</span>
          <select value={exampleId.value ?? ""} title={shows} onChange={(event) => chooseExample(event.currentTarget.value)}>
            {kept.value.length > 0 && <optgroup label={doorWords.kept}>{kept.value.map(({ id, name }) => <option key={id} value={id}>{name}</option>)}</optgroup>}
            <optgroup label={doorWords.examples}>{examples.value.map(({ id, name }) => <option key={id} value={id}>{name}</option>)}</optgroup>
          </select>
        </label>
        <Door open={keepingOpen} closed={doorWords.keeping} shut={doorWords.closeKeeping} />
        <WholeDoor />
      </div>
      {keepingOpen.value && <Keep />}
    </>
  );
}

/** The whole plan, where it has been opened. */
export function WholePlan() {
  return <div id="whole-plan" tabIndex={-1}>{wholeOpen.value ? <Editor /> : null}</div>;
}

/** Somebody has pressed the door to the whole plan and is not there yet. */
let isOnTheWay = false;

/** Takes the reader to the whole plan once it stands there: before, its place is empty, and the page moves again when it fills. */
function arrive(): void {
  if (!isOnTheWay) return;
  isOnTheWay = false;
  const place = document.getElementById("whole-plan")!;
  place.scrollIntoView();
  place.focus({ preventScroll: true });
}

/** From the short set of sliders to everything. */
export const WholeDoor = () => <Door open={wholeOpen} closed={doorWords.openWhole} shut={doorWords.closeWhole} turned={(open) => { isOnTheWay = open; }} />;

interface DoorProps { readonly open: Signal<boolean>; readonly closed: string; readonly shut: string; readonly turned?: (open: boolean) => void }

function Door({ open, closed, shut, turned }: DoorProps) {
  const turn = () => {
    turned?.(!open.value);
    open.value = !open.value;
  };
  return <button type="button" class="door" aria-expanded={open.value} onClick={turn}>{open.value ? shut : closed}</button>;
}
