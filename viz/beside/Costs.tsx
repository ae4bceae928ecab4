/** The answer: in which plan a tonne fed costs least, and what that cost is made of. */
import type { Comparison } from "../../sim/study/compare.ts";
import { measureNumber, measureUnit } from "../../sim/findings/words.ts";
import { inEnglish } from "../english.ts";
import { quantity } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { words } from "../words/beside.ts";
import { cheapestOf, costParts, unpriced } from "./costs.ts";
import type { Ready } from "./shown.ts";
import { sideBySide } from "./side.ts";

/** An amount for each tonne fed, in the reader's unit. */
const perTonne = (amount: number): string => measureNumber("costPerTonneFed", amount, units.value);
const unitOf = (plans: readonly Ready[]): string => `${plans[0]!.run.findings.money.currency} ${measureUnit("costPerTonneFed", units.value)}`;

export function Answer({ plans, comparison }: { readonly plans: readonly Ready[]; readonly comparison: Comparison | null }) {
  const all = plans.map(({ run }) => run.findings);
  const without = unpriced(plans.map(({ run }) => run.story.scenario)).map((i) => plans[i]!.letter);
  const left = plans.map(({ letter, run: { findings } }) => words.apart.in(quantity(findings.ledger.fedT.central * 1000, "mass", units.value), letter));
  const isLeftUnsure = plans.slice(1).every(({ run }) => sideBySide(run.findings, all[0]!).some(({ measure, within }) => measure === "dryMatterFed" && within === "ledger"));
  return (
    <>
      <p class="answer">{cheapestSaid(plans, comparison)}</p>
      <p>{words.apart.left(left)} {isLeftUnsure && words.apart.leftUnsure}</p>
      {without.length > 0 && <p class="outside">{words.apart.unpriced(without)}</p>}
    </>
  );
}

function cheapestSaid(plans: readonly Ready[], comparison: Comparison | null): string {
  const all = plans.map(({ run }) => run.findings);
  const best = cheapestOf(all);
  if (best === null) return new Set(all.map(({ money }) => money.currency)).size > 1 ? words.apart.otherMoney : words.apart.noCost;
  const cost = (i: number) => perTonne(all[i]!.measures.costPerTonneFed!.mean);
  const price = `${cost(best)} ${unitOf(plans)}`;
  const others = plans.map((_, i) => i).filter((i) => i !== best);
  if (others.every((i) => cost(i) === cost(best))) return words.apart.alike(price);
  // The pairs of days are held against A: where A is the cheapest, all of them count, else the one of the cheapest.
  const isUnsure = comparison?.differences.some(({ figures: { costPerTonneFed } }, i) => (best === 0 || best === i + 1) && costPerTonneFed?.sure === false);
  const isOpen = others.some((i) => sideBySide(all[i]!, all[best]!).some(({ measure, within }) => measure === "costPerTonneFed" && within === "ledger"));
  return `${words.apart.cheapest(plans[best]!.letter, price, others.map((i) => words.apart.in(cost(i), plans[i]!.letter)), isOpen)}${isUnsure ? ` ${words.apart.unsure}` : ""}`;
}

export function CostTable({ plans }: { readonly plans: readonly Ready[] }) {
  const all = plans.map(({ run }) => run.findings);
  if (cheapestOf(all) === null) return null;
  const { title, harvest, whole, none } = words.cost;
  return (
    <div class="scroll cost-of-fed" tabIndex={0} role="group" aria-label={title}>
      <table>
        <thead><tr><th scope="col" class="left">{title}, {unitOf(plans)}</th>{plans.map(({ letter }) => <th scope="col" class="letter" key={letter}>{letter}</th>)}</tr></thead>
        <tbody>
          {costParts(all).map(({ what, note, amounts }) => (
            <tr key={what}>
              <th scope="row" class="left">{what === null ? harvest : inEnglish(what)}{note && <span class="quiet block">{textIn(units.value, note)}</span>}</th>
              {amounts.map((amount, i) => <td key={i}>{amount === null ? none : perTonne(amount)}</td>)}
            </tr>
          ))}
          <tr class="total"><th scope="row" class="left">{whole}</th>{all.map(({ measures }, i) => <td key={i}>{perTonne(measures.costPerTonneFed!.mean)}</td>)}</tr>
        </tbody>
      </table>
    </div>
  );
}
