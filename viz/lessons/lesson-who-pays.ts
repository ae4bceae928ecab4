/** Three rules for a crew that is too light, and who pays under each. */
import { at, put, type Path } from "../document.ts";
import { read } from "../quantity.ts";
import { lessonWords } from "../words/lessons.ts";
import { meanOf, type Lesson, type Outcome } from "./lesson.ts";

const RULE: Path = ["packing", "whenBehind"];
const ROLLER: Path = ["packing", "tractors", 1, "mass"];
const RULES = ["hold", "bury", "ease"] as const;

/** Crop that came in differs by less than this share of the most: nothing to tell apart. */
const ALIKE = 0.02;
/** So much under target is told as buried. */
const BURIED = 0.1;
/** A chopper that stands less than this share of its time hardly pays. */
const HARDLY = 0.05;

export const whoPays: Lesson = {
  id: "who-pays",
  base: "contractor-corn-day-living",
  plans: RULES.map((rule) => (base) => put(base, RULE, rule)),
  truth: (told) => {
    const came = told.map((outcome) => meanOf(outcome, "delivered"));
    const least = Math.min(...came);
    return least > (1 - ALIKE) * Math.max(...came) ? "same" : RULES[came.indexOf(least)]!;
  },
  figures: ["delivered", "chopperWaiting", "dryDensity", "costPerTonneFed"],
  drawings: ["clamps"],
  explain: (told, say) => {
    const { explain } = lessonWords["who-pays"];
    const [hold, bury, ease] = told as [Outcome, Outcome, Outcome];
    const came = (outcome: Outcome) => say.mass(meanOf(outcome, "delivered"));
    const dense = (outcome: Outcome) => say.density(meanOf(outcome, "dryDensity"));
    const stands = meanOf(hold, "chopperWaiting");
    const under = meanOf(bury, "shareUnderTarget");
    const less = meanOf(bury, "delivered") - meanOf(ease, "delivered");
    const cost = (outcome: Outcome) => say.perTonne(meanOf(outcome, "costPerTonneFed"), outcome.findings.money.currency, 0);
    return [
      stands >= HARDLY ? explain.holdPays(say.share(stands), say.minutes(meanOf(hold, "truckWaiting")), came(hold), dense(hold)) : explain.holdFree(came(hold), dense(hold)),
      under > BURIED ? explain.buryPays(came(bury), dense(bury), say.share(under)) : explain.buryFree(came(bury), dense(bury)),
      less > ALIKE * meanOf(bury, "delivered") ? explain.easePays(came(ease), say.mass(less), dense(ease)) : explain.easeFree(came(ease), dense(ease)),
      explain.cost(cost(hold), cost(bury), cost(ease)),
    ];
  },
  knobs: [{
    id: "roller", dimension: "machineMass", range: { metric: [10, 60, 2], us: [22_000, 132_000, 4000] }, turns: "all",
    read: (plan) => read(at(plan, ROLLER), "machineMass"), write: (plan, value) => put(plan, ROLLER, value),
  }],
  sources: ["delivered", "chopperWaiting", "dryDensity", "costPerTonneFed"],
};
