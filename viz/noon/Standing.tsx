/** How the day stands, to be told at the clamp: large boxes, one figure each, what is wrong beside it. */
import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { pointerOf } from "../../sim/scenario/words.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { at, listAt, type Document, type Json, type Path } from "../document.ts";
import { quantity, secondsOfClock, unitName, written, type DimensionName } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { now } from "../state/now.ts";
import { shownOf, typed } from "../plan/amounts.ts";
import { TypedBox } from "../plan/TypedBox.tsx";
import { noonWords as words } from "../words/noon.ts";
import { standing as whole, wrong } from "./rest.ts";
import { anHourOn, apronAt, apronPlace, asRehearsed, downOf, machinesOf, fieldPlace, withApron, withDelivered, withDown } from "./standing.ts";

/** Changes the state as it now stands, however long ago the box was drawn. */
function tell(change: (stands: Document) => Document): void {
  const stands = whole.peek();
  if (stands) now.value = change(stands);
}

interface StandingProps { readonly standing: Document; readonly story: Rehearsed }

export function Standing({ standing, story }: StandingProps) {
  const { scenario } = story;
  const several = scenario.storages.length > 1;
  const said = String(at(standing, ["at"]) ?? "");
  return (
    <form class="stand" onSubmit={(event) => event.preventDefault()}>
      <Row label={words.time} path={["at"]} id="now-at">
        <TypedBox id="now-at" kind="time" {...marked(["at"], "now-at")} value={said.padStart(5, "0")} take={(at) => { if (at !== "") tell((stands) => ({ ...stands, at })); }} />
      </Row>
      <p class="stand-again screen-only">
        <button type="button" onClick={() => tell(() => asRehearsed(story, within(scenario, secondsOfClock(said)), units.value))}>{words.again(said)}</button>
        <span class="quiet">{now.value === null ? words.againWhy : words.told}</span>
      </p>
      <fieldset>
        <legend>{words.fields}</legend>
        <Whole list="delivered" />
        {scenario.fields.map(({ name, area, yield: perArea }, f) => {
          const place = fieldPlace(standing, name);
          const entry = listAt(standing, ["delivered"])[place];
          const [storage, cut] = [at(entry, ["storage"]), at(entry, ["cut"])];
          return (
            <Row key={name} label={name} path={["delivered", place]} id={`now-field-${f}`}>
              <Amount id={`now-field-${f}`} label={`${words.fields}: ${name}`} path={["delivered", place, "mass"]} dimension="mass" value={at(entry, ["mass"]) ?? (entry === undefined ? written(0, "mass", units.value) : undefined)}
                set={(mass) => tell((stands) => withDelivered(stands, name, Number.parseFloat(mass) === 0 ? null : mass))} />
              <span class="quiet">{words.of(quantity(area * perArea, "mass", units.value))}{typeof cut === "string" && `, ${words.cut(cut)}`}{typeof storage === "string" && `, ${words.into(storage)}`}</span>
            </Row>
          );
        })}
      </fieldset>
      <fieldset>
        <legend>{words.apron}</legend>
        {several && <Whole list="apron" />}
        {scenario.storages.map(({ name }, s) => (
          <Row key={name} label={several ? name : words.apron} hidden={!several} path={several ? ["apron", apronPlace(standing, name)] : ["apron"]} id={`now-apron-${s}`}>
            <Amount id={`now-apron-${s}`} label={several ? `${words.apron}: ${name}` : words.apron} path={several ? ["apron", apronPlace(standing, name), "mass"] : ["apron"]} dimension="mass" value={apronAt(standing, name) ?? written(0, "mass", units.value)}
              set={(mass) => tell((stands) => withApron(stands, scenario, name, mass))} />
          </Row>
        ))}
      </fieldset>
      <Row label={words.road} path={["onTheRoad"]} id="now-road">
        <TypedBox id="now-road" kind="number" selects {...marked(["onTheRoad"], "now-road")} value={String(at(standing, ["onTheRoad"]) ?? 0)} take={(loads) => { if (loads !== "") tell((stands) => ({ ...stands, onTheRoad: Number(loads) })); }} />
      </Row>
      <Row label={words.density} path={["density"]} id="now-density">
        <Amount id="now-density" label={words.density} path={["density"]} dimension="density" value={at(standing, ["density"])} placeholder={words.notMeasured}
          set={(density) => tell((stands) => ({ ...stands, density }))} emptied={() => tell(({ density: _, ...others }) => others)} />
      </Row>
      <Machines standing={standing} scenario={scenario} />
    </form>
  );
}

const within = ({ shift: { start, end } }: Scenario, time: number | null): number => Math.min(end, Math.max(start, time ?? start));

interface RowProps { readonly label: string; readonly hidden?: boolean; readonly path: Path; readonly id: string; readonly children: ComponentChildren }

/** One line of the form; what is wrong stands under it, also what is wrong with a part of it. */
function Row({ label, hidden = false, path, id, children }: RowProps) {
  const pointer = `/from${pointerOf(path)}`;
  const problems = wrong.value.filter((problem) => problem.pointer === pointer || problem.pointer.startsWith(`${pointer}/`));
  return (
    <div class="stand-row">
      <label for={id} class={hidden ? "unseen" : undefined}>{label}</label>
      <div class="stand-box">{children}</div>
      {problems.map(({ detail }, i) => <p key={i} class="why" id={i === 0 ? `${id}-wrong` : undefined}>{textIn(units.value, detail)}</p>)}
    </div>
  );
}

/** What is wrong with a list as a whole. */
function Whole({ list }: { readonly list: string }) {
  return <>{wrong.value.filter(({ pointer }) => pointer === `/from/${list}`).map(({ detail }) => <p key={detail} class="why" role="alert">{textIn(units.value, detail)}</p>)}</>;
}

/** What tells a reader of the screen that this box is wrong, and why. */
function marked(path: Path, id: string) {
  const pointer = `/from${pointerOf(path)}`;
  const isWrong = wrong.value.some((problem) => problem.pointer === pointer);
  return { invalid: isWrong, describedBy: isWrong ? `${id}-wrong` : undefined };
}

interface AmountProps {
  readonly id: string;
  readonly label: string;
  readonly path: Path;
  readonly dimension: DimensionName;
  readonly value: Json | undefined;
  readonly placeholder?: string;
  set(amount: string): void;
  emptied?(): void;
}

/** A figure with its unit. */
function Amount({ id, label, path, dimension, value, placeholder, set, emptied }: AmountProps) {
  const shown = shownOf(value, dimension, units.value);
  const unit = shown?.unit ?? unitName(dimension, units.value);
  return (
    <>
      <TypedBox id={id} kind="decimal" selects label={`${label}, ${unit}`} {...marked(path, id)} placeholder={placeholder} value={shown ? String(shown.figure) : typeof value === "string" ? value : ""}
        take={(text) => (text === "" ? emptied?.() : set(typed(text, unit)))} />
      <span class="unit" aria-hidden="true">{unitName(dimension, units.value)}</span>
    </>
  );
}

interface MachinesProps { readonly standing: Document; readonly scenario: Scenario }

function Machines({ standing, scenario }: MachinesProps) {
  const chosen = useSignal("");
  const down = downOf(standing);
  const free = machinesOf(scenario).filter((name) => !down.some((each) => each.name === name));
  const change = (machine: string, until: string | null) => tell((stands) => withDown(stands, downOf(stands).map((each) => (each.name === machine ? { ...each, until } : each))));
  return (
    <fieldset>
      <legend>{words.machines}</legend>
      <Whole list="machines" />
      {down.length === 0 && <p class="quiet">{words.noneDown}</p>}
      {down.map(({ name, until }, i) => (
        <Row key={name} label={name} path={["machines", i]} id={`now-down-${i}`}>
          <select id={`now-down-${i}`} value={until === null ? "all" : "until"} onChange={(event) => change(name, event.currentTarget.value === "all" ? null : anHourOn(standing))}>
            <option value="until">{words.until}</option>
            <option value="all">{words.allDay}</option>
          </select>
          {until !== null && <TypedBox id={`now-until-${i}`} kind="time" label={`${name}: ${words.until}`} {...marked(["machines", i, "down"], `now-down-${i}`)} value={until.padStart(5, "0")} take={(clock) => { if (clock !== "") change(name, clock); }} />}
          <button type="button" class="plain" aria-label={`${words.works}: ${name}`} onClick={() => {
            // The line goes, and whoever pressed the button by key goes on where a machine is added.
            document.getElementById("now-down-new")?.focus();
            tell((stands) => withDown(stands, downOf(stands).filter((each) => each.name !== name)));
          }}>{words.works}</button>
        </Row>
      ))}
      <div class="stand-row screen-only">
        <label for="now-down-new">{words.add}</label>
        <div class="stand-box">
          <select id="now-down-new" value={chosen.value} onChange={(event) => {
            const name = event.currentTarget.value;
            if (name !== "") tell((stands) => withDown(stands, [...downOf(stands), { name, until: anHourOn(stands) }]));
            chosen.value = "";
          }}>
            <option value="">{words.choose}</option>
            {free.map((name) => <option key={name} value={name}>{name}</option>)}
          </select>
        </div>
      </div>
    </fieldset>
  );
}

