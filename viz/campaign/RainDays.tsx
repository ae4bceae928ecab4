/** Days lost to rain, one by one, instead of a chance: for a forecast, or for a campaign that is over. */
import { at, put } from "../document.ts";
import { without } from "../plan/change.ts";
import { change } from "../plan/Slot.tsx";
import { TypedBox } from "../plan/TypedBox.tsx";
import { plan, problems } from "../state.ts";
import { campaignWords as words } from "../words/campaign.ts";

const RAIN = ["campaign", "rain"] as const;

export function RainDays() {
  const said = at(plan.value!, RAIN);
  const wrong = problems.value.filter(({ pointer }) => pointer.startsWith("/campaign/rain/"));
  const say = (text: string) => {
    const days = text.split(/[\s,;]+/).filter((day) => day !== "");
    change((now) => (days.length === 0 ? without(now, RAIN) : put(now, RAIN, days)));
  };
  return (
    <p class="rain-days">
      <label>{words.rainDays} <TypedBox value={Array.isArray(said) ? said.join(", ") : ""} placeholder={words.rainDaysLike} invalid={wrong.length > 0} describedBy={wrong.length > 0 ? "rain-days-wrong" : undefined} take={say} /></label>
      {wrong.length > 0 && <span id="rain-days-wrong" class="why" role="alert"> {wrong.map(({ detail }) => detail).join(" ")}</span>}
    </p>
  );
}
