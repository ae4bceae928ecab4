/** What lies in each storage when the campaign is over, means over all campaigns. */
import type { PlannedCampaigns } from "../../sim/study/campaigns.ts";
import { number, percent, unitName } from "../quantity.ts";
import { units } from "../state.ts";
import { campaignWords } from "../words/campaign.ts";
import { short } from "./dates.ts";

export function Stored({ result: { storages, farms } }: { readonly result: PlannedCampaigns }) {
  const words = campaignWords.stored;
  const system = units.value;
  return (
    <section aria-labelledby="stored">
      <h2 id="stored">{words.title}</h2>
      <div class="scroll" tabIndex={0} role="group" aria-label={words.title}>
        <table>
          <thead><tr>{words.head(unitName("mass", system), unitName("density", system), unitName("fluid", system)).map((text, i) => <th key={i} scope="col" class={i < 2 ? "left" : ""}>{text}</th>)}</tr></thead>
          <tbody>
            {storages.map((each) => (
              <tr key={each.farm + each.name}>
                <th scope="row" class="left">{farms.length > 1 ? words.at(each.name, each.farm) : each.name}</th>
                <td class="left dates">{words.dates(short(each.filledOn[0]), short(each.filledOn[1]))}</td>
                <td>{number(each.freshT * 1000, "mass", system)}</td><td>{number(each.dryT * 1000, "mass", system)}</td>
                <td>{percent(each.dryMatter, 1)}</td><td>{words.range(percent(each.window[0]), percent(each.window[1]))}</td>
                <td>{number(each.density.mean, "density", system)}</td><td>{words.range(number(each.density.band[0], "density", system), number(each.density.band[1], "density", system))}</td>
                <td>{each.poreSpace === null ? words.beyond : each.poreSpace.toFixed(2)}</td><td>{each.effluent < 1 ? "0" : number(each.effluent / 1000, "fluid", system)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
