/** One truck more where the trucks already stand in line. */
import { STATION_WORDS } from "../../sim/findings/words.ts";
import { at, put, type Path } from "../document.ts";
import { lessonWords } from "../words/lessons.ts";
import { SAME, asItIs, gainOf, meanOf, type Lesson } from "./lesson.ts";

const TRUCKS: Path = ["trucks", 0, "count"];

/** Choppers that stand a smaller share of their time wait for nobody worth naming. */
const HARDLY = 0.03;

export const anotherTruck: Lesson = {
  id: "another-truck",
  base: "two-choppers-one-clamp",
  plans: [asItIs, (base) => put(base, TRUCKS, 15)],
  truth: ([before, now]) => {
    const gain = gainOf("deliveryRate", before!, now!);
    return gain < -SAME ? "less" : gain < SAME ? "hardly" : gain < 0.05 ? "some" : "share";
  },
  figures: ["deliveryRate", "truckWaiting", "chopperWaiting", "costPerTonne"],
  drawings: ["strips"],
  explain: ([before, now], say) => {
    const { explain } = lessonWords["another-truck"];
    const [a, b] = [before!, now!];
    const tightest = b.findings.handCheck.reduce((least, row) => (row.boundTPerH < least.boundTPerH && row.station !== "packing" ? row : least), { station: "packing", boundTPerH: Infinity } as { station: keyof typeof STATION_WORDS; boundTPerH: number });
    const currency = b.findings.money.currency;
    const [waits, waited] = [meanOf(b, "truckWaiting"), meanOf(a, "truckWaiting")];
    const [stands, stood] = [meanOf(b, "chopperWaiting"), meanOf(a, "chopperWaiting")];
    return [
      explain.gain(say.rate(meanOf(b, "deliveryRate")), say.rate(meanOf(a, "deliveryRate")), say.gain(gainOf("deliveryRate", a, b))),
      tightest.station === "tipping" ? explain.tipping(say.rate(tightest.boundTPerH)) : explain.elsewhere(STATION_WORDS[tightest.station], say.rate(tightest.boundTPerH)),
      (waits > waited ? explain.longer : explain.shorter)(say.minutes(waits), say.minutes(waited)),
      (stands < HARDLY ? explain.choppersBusy : meanOf(b, "chopperWaitingOnStorage") > stands / 2 ? explain.choppers : explain.trucksShort)(say.share(stands), say.share(stood)),
      explain.cost(say.perTonne(meanOf(b, "costPerTonne"), currency), say.perTonne(meanOf(a, "costPerTonne"), currency)),
    ];
  },
  knobs: [{
    id: "trucks", dimension: null, range: { metric: [6, 24, 1], us: [6, 24, 1] }, turns: "last",
    read: (plan) => Number(at(plan, TRUCKS)), write: (plan, value) => put(plan, TRUCKS, Number(value)),
  }],
  sources: ["deliveryRate", "truckWaiting", "costPerTonne"],
};
