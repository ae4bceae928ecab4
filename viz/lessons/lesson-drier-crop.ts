/** The same meadow chopped wetter and drier: the two measures of a packed clamp part. */
import { at, put, type Document } from "../document.ts";
import { lessonWords } from "../words/lessons.ts";
import { asItIs, meanOf, scatterNote, type Lesson, type Outcome } from "./lesson.ts";

/** t of dry matter on a hectare, whatever water is in it. */
const DRY_YIELD = 4;

/** The meadow at so many per cent of dry matter: less water is cut with the same dry matter. */
const choppedAt = (plan: Document, percent: number): Document =>
  put(put(plan, ["crop", "dryMatter"], `${percent} %`), ["fields", 0, "yield"], `${(DRY_YIELD / (percent / 100)).toFixed(3)} t/ha`);

const MEADOW: Document = choppedAt({
  name: "One meadow, wetter and drier",
  crop: { kind: "grass", chopLength: "19 mm" },
  fields: [{ name: "Church Meadow", area: "40 ha", yield: "10 t/ha", distance: "2 km", rowLength: "380 m" }],
  choppers: [{ name: "Chopper", width: "9 m", speed: "10 km/h", throughput: "110 t/h", turnTime: "20 s" }],
  trucks: [{ kind: "Trailer", count: 5, load: "12 t", tip: "3 min" }],
  storage: [{ name: "Yard clamp", form: "bunker", width: "12 m", length: "40 m", height: "2.8 m", apron: "45 t" }],
  packing: { tractors: [{ name: "Blade", mass: "16 t", spreads: "200 t/h" }, { name: "Roller", mass: "18 t" }], layer: "15 cm", whenBehind: "bury" },
  targets: { dryDensity: "220 kg/m3", poreSpace: 0.4 },
  shift: { start: "08:00", end: "20:00" },
  variation: "typical",
  seed: 1,
}, 30);

export const drierCrop: Lesson = {
  id: "drier-crop",
  base: MEADOW,
  plans: [asItIs, (base) => choppedAt(base, 45)],
  truth: ([wet, dry]) => {
    const denser = meanOf(dry!, "dryDensity") > meanOf(wet!, "dryDensity");
    const airier = meanOf(dry!, "poreSpace") > meanOf(wet!, "poreSpace");
    return denser ? (airier ? "parted" : "better") : airier ? "worse" : "other";
  },
  figures: ["dryDensity", "poreSpace"],
  drawings: ["holds"],
  explain: ([first, second], say) => {
    const { explain, plans } = lessonWords["drier-crop"];
    const [wet, dry] = [first!, second!];
    const parted = (meanOf(dry, "dryDensity") > meanOf(wet, "dryDensity")) === (meanOf(dry, "poreSpace") > meanOf(wet, "poreSpace"));
    const met = (yes: boolean) => (yes ? explain.met : explain.missed);
    const judged = (plan: Outcome, name: string) =>
      explain.meets(name, met(meanOf(plan, "dryDensity") >= plan.scenario.targets.dryDensity), met(meanOf(plan, "poreSpace") <= plan.scenario.targets.poreSpace));
    return [
      explain.figures(say.density(meanOf(wet, "dryDensity")), say.density(meanOf(dry, "dryDensity")), say.share(meanOf(wet, "poreSpace")), say.share(meanOf(dry, "poreSpace"))),
      parted ? explain.parted : explain.both,
      explain.water(say.density(meanOf(wet, "wetDensity")), say.density(meanOf(dry, "wetDensity"))),
      judged(wet, plans[0]), judged(dry, plans[1]),
      ...scatterNote(wet, dry, say),
    ];
  },
  knobs: [{
    id: "dry", dimension: null, unit: "%", range: { metric: [25, 60, 1], us: [25, 60, 1] }, turns: "last",
    read: (plan) => Number.parseFloat(String(at(plan, ["crop", "dryMatter"]))), write: (plan, value) => choppedAt(plan, Number(value)),
  }],
  sources: ["dryDensity", "poreSpace"],
  further: ["scatter"],
};
