/** Several days and farms, one after another: when to start, what each day brings, and what lies where in the end. */
import { useEffect } from "preact/hooks";
import { formatNumber } from "../../sim/scenario/units.ts";
import type { Campaigns, CampaignsSoFar, PlannedCampaigns } from "../../sim/study/campaigns.ts";
import { asking } from "../change/asked.ts";
import { Under } from "../change/Under.tsx";
import { at } from "../document.ts";
import { FirstAnswer } from "../page/FirstAnswer.tsx";
import { PlanLine } from "../page/Verdict.tsx";
import { OnceOf } from "../plan/PlanEditor.tsx";
import { CAMPAIGN } from "../plan/layout.ts";
import { percent, shownIn, unitName } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { plan, units } from "../state.ts";
import { campaignWords as words } from "../words/campaign.ts";
import { Calendar } from "./Calendar.tsx";
import { Farms, farmDocuments } from "./Farms.tsx";
import { RainDays } from "./RainDays.tsx";
import { Starts } from "./Starts.tsx";
import { Stored } from "./Stored.tsx";
import "../change/change.css";
import "./campaign.css";

const study = asking<Campaigns, CampaignsSoFar>("campaign");

export function Campaign() {
  const document = plan.value;
  const others = farmDocuments.value;
  const isCampaign = document !== null && at(document, ["campaign"]) !== undefined;
  const ask = () => { if (isCampaign && others) study.ask([document, ...others]); };
  useEffect(ask, [document, others]);
  if (!document) return <p role="status"><FirstAnswer /></p>;
  const now = study.now.value;
  const here = isCampaign && others !== null && now?.key === study.keyOf([document, ...others]);
  const result = here ? now.result : null;
  const soFar = here ? now.soFar : null;
  const tried = result?.whenToStart.tried ?? soFar?.tried ?? [];
  const planned: PlannedCampaigns | null = result ?? soFar;
  return (
    <div class="campaign">
      <section class="verdict" aria-labelledby="campaign">
        <h1 id="campaign">{words.title}</h1>
        {result && <p class="answer" role="status">{textIn(units.value, result.whenToStart.inWords)}</p>}
        <div class="on-paper"><PlanLine /></div>
      </section>
      <p class="quiet screen-only">{words.lead}</p>
      <div class="whole-plan campaign-plan">
        <OnceOf once={CAMPAIGN} />
        {isCampaign && <RainDays />}
        {isCampaign && <Farms />}
      </div>
      {here && <Under study={study} again={ask} />}
      {planned && tried.length > 0 && <Starts tried={tried} found={result?.whenToStart ?? null} starts={planned.starts} currency={planned.cost?.currency ?? null} />}
      {planned && <Planned result={planned} />}
    </div>
  );
}

const percentOf = (share: number): string => `${percent(share)} %`;

function Planned({ result }: { readonly result: PlannedCampaigns }) {
  const { finish, chance, cost, window, rainDays, campaigns, notes, assumptions } = result;
  return (
    <>
      <section aria-labelledby="started">
        <h2 id="started">{words.starts(result.starts)}</h2>
        <p>{finish ? words.finish(finish.median, finish.early, finish.late) : words.notIn} {words.sides(percentOf(window.inside), percentOf(window.tooWet), percentOf(window.tooDry))}</p>
        {campaigns > 1 && <p>{words.chance(percentOf(chance.allIn), percentOf(chance.endsInside), rainDays.toFixed(1))}</p>}
        {cost && (
          <p>
            {words.cost(formatNumber(cost.mean, 0), cost.currency, formatNumber(cost.perDryTonne / shownIn(1000, "mass", units.value), 2), unitName("mass", units.value))}
            {campaigns > 1 && ` ${words.costBetween(formatNumber(cost.low, 0), formatNumber(cost.high, 0))}`}
          </p>
        )}
        <p class="quiet">{words.campaigns(campaigns)}</p>
      </section>
      {result.shown.days.length > 0 && <Calendar result={result} />}
      <Stored result={result} />
      {notes.length > 0 && (
        <section aria-labelledby="campaign-notes">
          <h2 id="campaign-notes">{words.notes}</h2>
          <ul>{notes.map((text) => <li key={text}>{textIn(units.value, text)}</li>)}</ul>
        </section>
      )}
      <details class="rest">
        <summary>{words.assumed}</summary>
        <ul>{assumptions.map((text) => <li key={text}>{textIn(units.value, text)}</li>)}</ul>
      </details>
    </>
  );
}
