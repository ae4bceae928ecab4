/** Variation by activity, where the plan says it so. */
import { ACTIVITIES } from "../../sim/scenario/types.ts";
import { at, put } from "../document.ts";
import { plan } from "../state.ts";
import { planWords } from "../words/plan.ts";
import { SPREADS, kindOfSpread, parametersOf, spreadOf, type SpreadKind } from "./spreads.ts";
import { Slot, Wrong, change, idOf, labelOf } from "./Slot.tsx";

export function Spreads() {
  const variation = at(plan.value!, ["variation"]);
  if (typeof variation !== "object") return null;
  return (
    <div class="inner">
      <p class="quiet">{planWords.spreads}</p>
      <ul class="rows">
        {ACTIVITIES.map((activity) => {
          const path = ["variation", activity];
          const said = at(variation, [activity]);
          const kind = kindOfSpread(said);
          const name = labelOf(`variation.${activity}`);
          const parameters = parametersOf(said);
          return (
            <li key={activity}>
              <span class="row-name">{name}</span>
              <select id={`${idOf(path)}-kind`} aria-label={planWords.spreadOf(name)} value={kind}
                onChange={(event) => { const to = event.currentTarget.value as SpreadKind; change((now) => put(now, path, spreadOf(to, activity, at(now, path)))); }}>
                {SPREADS.map((each) => <option key={each} value={each}>{planWords.options[each]}</option>)}
              </select>
              <span class="slots">
                {kind !== "none" && typeof said !== "object" && <span class="slot"><Slot path={path} place={`variation.${activity}`} whose={name} /></span>}
                {parameters.map((key) => (
                  <span key={key} class="slot"><label for={idOf([...path, key])}>{labelOf(`variation.${activity}.${key}`)}</label> <Slot path={[...path, key]} place={`variation.${activity}.${key}`} whose={name} /></span>
                ))}
              </span>
              <Wrong path={path} />
              {parameters.map((key) => <Wrong key={key} path={[...path, key]} />)}
            </li>
          );
        })}
      </ul>
    </div>
  );
}
