/** What a practitioner would try when a day does not go well: a list of remedies for one scenario, each a change with its words. */
import { BEHIND_WORDS } from "../findings/words.ts";
import type { DayStart } from "../harvest/start.ts";
import { canTakeUp } from "../harvest/takeup.ts";
import type { DimensionName } from "../scenario/units.ts";
import { BEHIND_RULES, type Scenario, type Storage } from "../scenario/types.ts";
import { uncapital } from "../scenario/words.ts";
import {
  HIRED, meanTractor, startingEarlier, endingLater, withApron, withBallast, withLayer, withoutBreaks, withoutTractor, withPace, withRolling, withRule, withSecondClamp, withTippingPlaces,
  withTractor, withTrucks,
} from "./change.ts";

/** Remedies of one family do not go together. */
export const FAMILIES = [
  "truck-more", "truck-fewer", "tractor-more", "tractor-fewer", "ballast", "thinner-layer", "slower-chopper", "tipping-place", "second-clamp", "apron", "rule", "rolling", "breaks", "earlier", "longer",
] as const;
export type Family = (typeof FAMILIES)[number];

/** What a remedy puts on people, walls and yard; its row carries the caution. */
export type Burden = "weight" | "hours" | "traffic";

export interface Remedy {
  /** stable for a scenario, e.g. `truck-more:Tipper` */ readonly id: string;
  readonly family: Family;
  /** in words, without figures: "One more Tipper" */ readonly what: string;
  /** the figure that it changes, in SI, for the reader's own units; null where there is none or there are several */
  readonly figure: { readonly dimension: DimensionName | "clock" | null; readonly from: number; readonly to: number } | null;
  readonly burdens: readonly Burden[];
  /** the storage it is about, or null */ readonly storage: number | null;
  /** what must be known to judge it */ readonly note: string | null;
  readonly apply: (scenario: Scenario) => Scenario;
}

/** A remedy that this scenario cannot try, and why. */
export interface NotTried { readonly family: Family; readonly because: string }

/** How far a remedy goes (all assumptions of this project). */
const STEPS = {
  /** share of the set layer */ thinnerLayer: 2 / 3,
  /** share of the pace, a gear lower */ lowerGear: 0.85,
  /** times the apron */ apron: 2,
  /** share of the time on the clamp that a well-led crew rolls */ rolling: 0.9,
  /** s */ earlier: 3600,
  /** s, in the middle of a day */ longer: 7200,
  /** m, the thinnest layer that is tried */ thinnestLayer: 0.05,
} as const;

/** All remedies for a scenario, in the order of the day, and those it cannot try. */
export function remediesFor(scenario: Scenario): { readonly remedies: readonly Remedy[]; readonly notTried: readonly NotTried[] } {
  const remedies: Remedy[] = [];
  const notTried: NotTried[] = [];
  const add = (remedy: Pick<Remedy, "id" | "family" | "what" | "apply"> & Partial<Remedy>) =>
    remedies.push({ figure: null, burdens: [], storage: null, note: null, ...remedy });
  const not = (family: Family, because: string) => notTried.push({ family, because });
  const used = scenario.storages.map((storage, s) => ({ storage, s })).filter(({ s }) => scenario.fields.some((field) => field.storages[0] === s));
  const at = (storage: Storage) => (used.length > 1 ? ` at ${storage.name}` : "");

  scenario.trucks.forEach(({ kind, count }, k) => {
    add({
      id: `truck-more:${kind}`, family: "truck-more", what: `One more ${kind}`, figure: { dimension: null, from: count, to: count + 1 }, burdens: ["traffic"],
      apply: (s) => withTrucks(s, count + 1, k),
    });
    if (possible(() => withTrucks(scenario, count - 1, k))) {
      add({ id: `truck-fewer:${kind}`, family: "truck-fewer", what: `One ${kind} fewer`, figure: { dimension: null, from: count, to: count - 1 }, apply: (s) => withTrucks(s, count - 1, k) });
    } else not("truck-fewer", `Without this ${kind} a chopper would have no truck.`);
  });

  const hireable = scenario.storages.flatMap(({ tractors }) => tractors).filter((tractor) => tractor.hireable);
  for (const { storage, s } of used) {
    const more = hireable.length > 0 ? hireable : [meanTractor(storage, HIRED)];
    for (const tractor of more) {
      add({
        id: `tractor-more:${storage.name}:${tractor.name}`, family: "tractor-more", storage: s, burdens: ["weight", "traffic"],
        what: hireable.length > 0 ? `One more tractor like ${tractor.name}${at(storage)}` : `One more packing tractor${at(storage)}`,
        figure: { dimension: "machineMass", from: 0, to: tractor.mass },
        note: hireable.length > 0 ? null : "No tractor is marked hireable, so one like the crew's mean is taken, at its mean cost and without a blade.",
        apply: (plan) => withTractor(plan, s, tractor),
      });
    }
    storage.tractors.forEach((tractor, i) => {
      if (possible(() => withoutTractor(scenario, s, i))) {
        add({ id: `tractor-fewer:${storage.name}:${tractor.name}`, family: "tractor-fewer", storage: s, what: `Without ${tractor.name}${at(storage)}`, figure: { dimension: "machineMass", from: tractor.mass, to: 0 }, apply: (plan) => withoutTractor(plan, s, i) });
      } else not("tractor-fewer", `Without ${tractor.name} nobody would spread at ${storage.name}.`);
    });
    const gained = storage.tractors.reduce((sum, { mass, maxMass }) => sum + Math.max(0, (maxMass ?? 0) - mass), 0);
    const mass = storage.tractors.reduce((sum, tractor) => sum + tractor.mass, 0);
    if (gained > 0) {
      add({
        id: `ballast:${storage.name}`, family: "ballast", storage: s, what: `Ballast up to the makers' limits${at(storage)}`, figure: { dimension: "machineMass", from: mass, to: mass + gained },
        burdens: ["weight"], note: "Ballast is taken as free; whether it can be had, and carried on the road, is for you to judge.", apply: (plan) => withBallast(plan, s),
      });
    } else not("ballast", `No tractor${at(storage)} has a maker's limit above its mass in the plan: without one no ballast is tried.`);
  }

  const { layer, whenBehind } = scenario.packing;
  const thinner = Math.max(STEPS.thinnestLayer, Math.round(layer * STEPS.thinnerLayer * 100) / 100);
  if (thinner < layer) {
    add({
      id: "thinner-layer", family: "thinner-layer", what: "A thinner layer", figure: { dimension: "thickness", from: layer, to: thinner },
      note: "By the relation the time a tonne needs goes with the square of the layer, so thin layers win every ranking; its authors later found no effect of the "
        + "layer at the same packing time. Shown both ways.",
      apply: (s) => withLayer(s, thinner),
    });
  } else not("thinner-layer", "The layer is as thin as is tried already.");

  add({ id: "slower-chopper", family: "slower-chopper", what: "The chopper a gear lower", figure: { dimension: "share", from: 1, to: STEPS.lowerGear }, apply: (s) => withPace(s, STEPS.lowerGear) });
  for (const { storage, s } of used) {
    const { tippingPlaces, apron } = storage;
    add({
      id: `tipping-place:${storage.name}`, family: "tipping-place", storage: s, what: `One more tipping place${at(storage)}`, figure: { dimension: null, from: tippingPlaces, to: tippingPlaces + 1 },
      burdens: ["traffic"], apply: (plan) => withTippingPlaces(plan, s, tippingPlaces + 1),
    });
    add({ id: `apron:${storage.name}`, family: "apron", storage: s, what: `A bigger apron${at(storage)}`, figure: { dimension: "mass", from: apron, to: apron * STEPS.apron }, apply: (plan) => withApron(plan, s, apron * STEPS.apron) });
    if (storage.tractors.some(({ rolling }) => rolling < STEPS.rolling)) {
      const rolling = storage.tractors.reduce((sum, tractor) => sum + tractor.rolling, 0) / storage.tractors.length;
      add({
        id: `rolling:${storage.name}`, family: "rolling", storage: s, what: `Fewer pauses on the clamp${at(storage)}: rolling more of the time`, figure: { dimension: "share", from: rolling, to: STEPS.rolling },
        burdens: ["hours"], apply: (plan) => withRolling(plan, s, STEPS.rolling),
      });
    }
  }
  if (scenario.storages.length === 1) {
    add({
      id: "second-clamp", family: "second-clamp", what: "A second clamp opened, with a crew like the first", burdens: ["weight", "traffic"], storage: 0,
      note: "The second place is taken to be there, like the first, at the same yearly cost.", apply: withSecondClamp,
    });
  } else not("second-clamp", "There is more than one storage already.");
  for (const rule of BEHIND_RULES.filter((each) => each !== whenBehind)) {
    add({ id: `rule:${rule}`, family: "rule", what: `When behind, ${uncapital(BEHIND_WORDS[rule])}`, apply: (s) => withRule(s, rule) });
  }
  if (scenario.shift.breaks.length > 0) {
    add({ id: "breaks", family: "breaks", what: "No breaks: reliefs take over", burdens: ["hours"], note: "A break is everybody's in this model, field and clamp alike; reliefs are taken as no dearer.", apply: withoutBreaks });
  } else not("breaks", "There are no breaks to work through.");
  if (scenario.shift.start > 0) {
    const to = Math.max(0, scenario.shift.start - STEPS.earlier);
    add({ id: "earlier", family: "earlier", what: "Start earlier", figure: { dimension: "clock", from: scenario.shift.start, to }, burdens: ["hours"], apply: (s) => startingEarlier(s, STEPS.earlier) });
  } else not("earlier", "The shift starts at midnight already.");
  return { remedies, notTried };
}

/** Why a remedy of this family is none for a day that is under way. */
const NOT_TODAY: Partial<Record<Family, string>> = {
  "second-clamp": "A second clamp is not opened in the middle of a day: what lies in the first is there already.",
  apron: "The apron is as large as it is for today.",
  "tipping-place": "The tipping places are what they are for today.",
  earlier: "The day has begun: it cannot start earlier any more.",
};

/** The remedies that can still be made when a day is taken up in the middle, a longer day among them, and why the others are left out. */
export function remediesToday(scenario: Scenario, start: DayStart): { readonly remedies: readonly Remedy[]; readonly notTried: readonly NotTried[] } {
  const { shift } = scenario;
  const usual = remediesFor(scenario);
  const at = start.at ?? shift.start;
  const why = (remedy: Remedy): string | null => {
    if (remedy.family === "breaks" && shift.breaks.every((pause) => pause.at + pause.for <= at)) return "No break is left to work through today.";
    return NOT_TODAY[remedy.family] ?? (canTakeUp(scenario, remedy.apply(scenario), start) ? null : `${remedy.what}: every truck is on the road with a load, none can be spared now.`);
  };
  const left = usual.remedies.map((remedy) => ({ remedy, because: why(remedy) }));
  const end = Math.min(86_400, shift.end + STEPS.longer);
  const longer: Remedy[] = end <= shift.end ? [] : [{
    id: "longer", family: "longer", what: "Cut longer", figure: { dimension: "clock", from: shift.end, to: end }, burdens: ["hours"], storage: null, note: null,
    apply: (plan) => endingLater(plan, end - shift.end),
  }];
  return {
    remedies: [...left.filter(({ because }) => because === null).map(({ remedy }) => remedy), ...longer],
    notTried: [
      ...usual.notTried.filter(({ family }) => NOT_TODAY[family] === undefined),
      ...left.flatMap(({ remedy: { family }, because }, i) => (because === null || left.findIndex((each) => each.because === because) < i ? [] : [{ family, because }])),
      ...(longer.length > 0 ? [] : [{ family: "longer" as const, because: "The shift ends at midnight already." }]),
    ],
  };
}

function possible(change: () => Scenario): boolean {
  try {
    change();
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/** Two remedies in one; the second is put upon what the first leaves. */
export function together(first: Remedy, second: Remedy): Remedy {
  return {
    id: `${first.id} + ${second.id}`, family: first.family, what: `${first.what}, and ${uncapital(second.what)}`, figure: null,
    burdens: [...new Set([...first.burdens, ...second.burdens])], storage: first.storage ?? second.storage, note: [first.note, second.note].filter((note) => note !== null).join(" ") || null,
    apply: (scenario) => second.apply(first.apply(scenario)),
  };
}
