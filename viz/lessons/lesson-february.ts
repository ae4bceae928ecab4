/** Loose and firm, counted in feed and money, with the range that the ledger leaves open. */
import { at, listAt, put, type Document, type Path } from "../document.ts";
import { read } from "../quantity.ts";
import { lessonWords } from "../words/lessons.ts";
import { meanOf, type Lesson, type Outcome } from "./lesson.ts";

const CREW: Path = ["packing", "tractors"];
const ROLLER: Path = [...CREW, 1, "mass"];

/** What a tonne of dry feed is worth, invented for the demo, said by the plan itself so that a slider can turn it. */
const priced = (base: Document): Document => put(base, ["feedValue"], "180 per t");

const daysOf = ({ findings }: Outcome): number => findings.storages[0]?.feedOut?.daysOfFeed.central ?? NaN;
const looseOf = ({ findings }: Outcome) => findings.losses.find(({ cause }) => cause === "density")!.dryT!;

export const february: Lesson = {
  id: "february",
  base: "bunker-12x45",
  plans: [
    (base) => put(priced(base), CREW, listAt(base, CREW).slice(0, 1)),
    (base) => put(priced(base), ROLLER, "22 t"),
  ],
  truth: ([loose, firm]) => {
    const more = daysOf(firm!) - daysOf(loose!);
    return more < 1 ? "none" : more <= 7 ? "few" : "weeks";
  },
  figures: ["dryDensity", "fed", "daysOfFeed", "spends"],
  drawings: ["ledgers"],
  explain: ([first, second], say) => {
    const { explain } = lessonWords.february;
    const [loose, firm] = [first!, second!];
    const { currency } = firm.findings.money;
    const value = firm.scenario.money.feedValuePerTonne;
    const fed = ({ findings: { ledger: { fedT } } }: Outcome) => [say.mass(fedT.central), say.range(say.mass(fedT.low), say.mass(fedT.high))] as const;
    const saved = firm.findings.ledger.fedT.central - loose.findings.ledger.fedT.central;
    const extra = firm.findings.money.total - loose.findings.money.total;
    const worth = say.money(saved * value, currency);
    const money = extra <= 0
      ? [explain.cheaper(worth)]
      : [explain.worth(worth, say.money(extra, currency)), saved * value >= extra ? explain.pays : explain.doesNotPay(say.perTonne(extra / saved, currency, 0))];
    return [
      explain.density(say.density(meanOf(loose, "dryDensity")), say.density(meanOf(firm, "dryDensity"))),
      explain.fed(...fed(loose), ...fed(firm)),
      ...(saved > 0
        ? [
          explain.days(say.days(daysOf(firm) - daysOf(loose)), say.days(daysOf(loose)), say.days(daysOf(firm))),
          explain.range(say.mass(looseOf(loose).high - looseOf(firm).high)),
          ...money,
        ]
        : [explain.noGain(say.days(daysOf(loose)), say.days(daysOf(firm)))]),
      explain.notCounted,
    ];
  },
  knobs: [
    {
      id: "roller", dimension: "machineMass", range: { metric: [6, 40, 1], us: [14_000, 88_000, 2000] }, turns: "last",
      read: (plan) => read(at(plan, ROLLER), "machineMass"), write: (plan, value) => put(plan, ROLLER, value),
    },
    {
      id: "value", dimension: "perTonne", range: { metric: [60, 600, 20], us: [60, 600, 20] }, turns: "all",
      read: (plan) => read(at(plan, ["feedValue"]), "perTonne"), write: (plan, value) => put(plan, ["feedValue"], value),
    },
  ],
  sources: ["dryDensity", "dryMatterFed", "costPerTonneFed"],
  further: ["losses"],
};
