/** A plan that predicts the target, and how many clamps packed like it reach it. */
import { explainedShare } from "../../sim/forage/packing.ts";
import { densityForChance } from "../../sim/forage/scatter.ts";
import { at, put, type Path } from "../document.ts";
import { read } from "../quantity.ts";
import { lessonWords } from "../words/lessons.ts";
import { meanOf, type Lesson, type Outcome } from "./lesson.ts";

const ROLLER: Path = ["packing", "tractors", 1, "mass"];
const PACE: Path = ["choppers", 0, "throughput"];
/** Chance that is called sure. */
const SURE = 0.9;

const chanceOf = ({ findings }: Outcome): number => findings.storages[0]?.dryDensity.chanceOfTarget ?? NaN;

export const coinToss: Lesson = {
  id: "coin-toss",
  base: "bunker-12x45",
  plans: [(base) => put(base, ROLLER, "22 t")],
  truth: ([plan]) => Math.round(100 * chanceOf(plan!)),
  figures: ["dryDensity", "chance"],
  drawings: ["bands"],
  explain: ([only], say) => {
    const { explain } = lessonWords["coin-toss"];
    const plan = only!;
    const { crop, targets } = plan.scenario;
    const chance = chanceOf(plan);
    const [{ dryDensity }] = plan.findings.storages as [Outcome["findings"]["storages"][number]];
    const said = chance > 0.4 && chance < 0.6 ? [explain.coin] : chance >= SURE ? [explain.sure] : chance <= 0.4 ? [explain.poor] : [];
    return [
      explain.predicts(say.density(meanOf(plan, "dryDensity")), say.density(targets.dryDensity)),
      explain.chance(String(Math.round(100 * chance))),
      ...said,
      explain.band(say.density(dryDensity.band[0]), say.density(dryDensity.band[1]), say.share(explainedShare.value)),
      explain.wanted(say.density(densityForChance(targets.dryDensity, SURE, crop.kind))),
      explain.luck(say.density(dryDensity.ci[0]), say.density(dryDensity.ci[1])),
    ];
  },
  knobs: [
    {
      id: "roller", dimension: "machineMass", range: { metric: [10, 40, 1], us: [22_000, 88_000, 2000] }, turns: "all",
      read: (plan) => read(at(plan, ROLLER), "machineMass"), write: (plan, value) => put(plan, ROLLER, value),
    },
    {
      id: "pace", dimension: "flow", range: { metric: [40, 110, 5], us: [45, 120, 5] }, turns: "all",
      read: (plan) => read(at(plan, PACE), "flow"), write: (plan, value) => put(plan, PACE, value),
    },
  ],
  sources: ["dryDensity"],
  further: ["scatter"],
};
