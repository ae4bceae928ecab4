/** A second tipping place: the bottleneck moves from the place to the tractors. */
import { at, put, type Path } from "../document.ts";
import { read } from "../quantity.ts";
import { lessonWords } from "../words/lessons.ts";
import { SAME, asItIs, gainOf, meanOf, scatterNote, type Lesson } from "./lesson.ts";

const PLACES: Path = ["storage", 0, "tippingPlaces"];
/** the heaviest roller of the worked example */
const ROLLER: Path = ["packing", "tractors", 2, "mass"];

export const secondTippingPlace: Lesson = {
  id: "second-tipping-place",
  base: "two-choppers-one-clamp",
  plans: [asItIs, (base) => put(base, PLACES, 2)],
  truth: ([before, now]) => {
    const gain = gainOf("dryDensity", before!, now!);
    return gain > SAME ? "denser" : gain < -SAME ? "looser" : "same";
  },
  figures: ["deliveryRate", "truckWaiting", "chopperWaiting", "dryDensity"],
  drawings: ["clamps"],
  explain: ([before, now], say) => {
    const { explain } = lessonWords["second-tipping-place"];
    const [a, b] = [before!, now!];
    const gain = gainOf("dryDensity", a, b);
    const [packed, was] = [meanOf(b, "packingTimePerTonne"), meanOf(a, "packingTimePerTonne")];
    const ends = gain > SAME ? explain.denser : gain < -SAME ? explain.looser : explain.equal;
    return [
      (gainOf("deliveryRate", a, b) > SAME ? explain.faster : explain.notFaster)(say.rate(meanOf(b, "deliveryRate")), say.rate(meanOf(a, "deliveryRate"))),
      explain.waits(say.minutes(meanOf(b, "truckWaiting")), say.minutes(meanOf(a, "truckWaiting")), say.share(meanOf(b, "chopperWaiting")), say.share(meanOf(a, "chopperWaiting"))),
      explain.crew(say.rate(meanOf(b, "packingRateAtTarget"))),
      ...(packed < was ? [explain.less(say.packing(packed), say.packing(was))] : []),
      ends(say.density(meanOf(b, "dryDensity")), say.density(meanOf(a, "dryDensity"))),
      ...scatterNote(a, b, say),
    ];
  },
  knobs: [
    {
      id: "tips", dimension: null, range: { metric: [1, 4, 1], us: [1, 4, 1] }, turns: "last",
      read: (plan) => Number(at(plan, PLACES)), write: (plan, value) => put(plan, PLACES, Number(value)),
    },
    {
      id: "roller", dimension: "machineMass", range: { metric: [10, 40, 1], us: [22_000, 88_000, 2000] }, turns: "last",
      read: (plan) => read(at(plan, ROLLER), "machineMass"), write: (plan, value) => put(plan, ROLLER, value),
    },
  ],
  sources: ["deliveryRate", "truckWaiting", "dryDensity", "packingRateAtTarget"],
  further: ["scatter"],
};
