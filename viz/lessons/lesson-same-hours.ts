/** The same area, tonnes, crew and hours, but the loads come unevenly. */
import { at, put, type Document } from "../document.ts";
import { read, written } from "../quantity.ts";
import { lessonWords } from "../words/lessons.ts";
import { SAME, asItIs, gainOf, meanOf, rolledHours, scatterNote, type Lesson } from "./lesson.ts";

/** t/ha that the two halves yield together. */
const BOTH = 90;

/** A day without luck, so that nothing but the unevenness tells the two apart; the chopper drives at one speed, and trucks are plenty. */
const EVEN: Document = {
  name: "Two halves of one field",
  crop: { kind: "corn", dryMatter: "34 %" },
  fields: [
    { name: "First half", area: "15 ha", yield: "45 t/ha", distance: "2.4 km", rowLength: "420 m" },
    { name: "Second half", area: "15 ha", yield: "45 t/ha", distance: "2.4 km", rowLength: "420 m" },
  ],
  choppers: [{ name: "Chopper", width: "6 m", speed: "6 km/h", throughput: "300 t/h", move: "0 min" }],
  trucks: [{ kind: "Tipper", count: 8, load: "16 t" }],
  storage: [{ name: "Clamp", form: "bunker", width: "18 m", length: "52 m", height: "3.2 m", meanDepth: "2.6 m", apron: "60 t", tippingPlaces: 1 }],
  packing: {
    tractors: [{ name: "Blade", mass: "18 t", spreads: "300 t/h" }, { name: "Roller", mass: "22 t" }],
    layer: "15 cm", whenBehind: "bury",
  },
  shift: { start: "07:00", end: "20:00" },
  variation: "none",
  seed: 1,
};

/** One half gives so much, the other what is left of the sum. */
const withThickHalf = (plan: Document, thick: string): Document => {
  const yields = read(thick, "yield");
  if (yields === null) return plan;
  return put(put(plan, ["fields", 0, "yield"], thick), ["fields", 1, "yield"], written(Math.max(1, BOTH - yields * 10), "yield", "metric"));
};

export const sameHours: Lesson = {
  id: "same-hours",
  base: EVEN,
  plans: [asItIs, (base) => withThickHalf(base, "75 t/ha")],
  truth: ([even, uneven]) => {
    const gain = gainOf("dryDensity", even!, uneven!);
    return gain > SAME ? "denser" : gain < -SAME ? "looser" : "same";
  },
  figures: ["deliveryRate", "rolled", "dryDensity"],
  drawings: ["clamps"],
  explain: ([first, second], say) => {
    const { explain } = lessonWords["same-hours"];
    const [even, uneven] = [first!, second!];
    const gain = gainOf("dryDensity", even, uneven);
    const ends = gain > SAME ? explain.denser : gain < -SAME ? explain.looser : explain.same;
    return [
      explain.hours(say.hours(rolledHours(even)), say.hours(rolledHours(uneven)), say.rate(meanOf(even, "deliveryRate")), say.rate(meanOf(uneven, "deliveryRate"))),
      ends(say.density(meanOf(even, "dryDensity")), say.density(meanOf(uneven, "dryDensity"))),
      ...(gain < -SAME ? [explain.root] : []),
      // Two loads lay on the apron at once: the rule lets them be spread as one.
      ...(meanOf(uneven, "apronPeak") > 1.5 * meanOf(even, "apronPeak") ? [explain.queue] : []),
      ...scatterNote(even, uneven, say),
    ];
  },
  knobs: [{
    id: "thick", dimension: "yield", range: { metric: [45, 80, 5], us: [20, 36, 1] }, turns: "last",
    read: (plan) => read(at(plan, ["fields", 0, "yield"]), "yield"), write: withThickHalf,
  }],
  sources: ["deliveryRate", "dryDensity"],
  further: ["scatter"],
};
