/**
 * What holds where the file is silent, as a person would write it, with its mark. This is the only table of defaults; the
 * findings list those that applied. What is not here (a wall rating, an owner, a herd, a volume) is simply not known when it is not
 * given: nothing is made up for it.
 */
import { looseFreshDensity } from "../forage/load.ts";
import { targets } from "../forage/porespace.ts";
import { circuity } from "../forage/road.ts";
import type { Mark } from "../forage/sourced.ts";
import type { AppliedDefault, CropKind } from "./types.ts";

const ASSUMED = "assumption of this project";
const PRACTICE = "common practice, no source";
const INVENTED = "invented for the demo";

/** What a default may hang on. */
interface Case {
  readonly crop: CropKind;
  /** share */ readonly dryMatter: number;
  readonly form: "bunker" | "pile";
  /** 1 for the first of its list */ readonly ordinal: number;
}

interface Default {
  readonly value: string | ((its: Case) => string);
  readonly mark: Mark;
}

/** Inside the published moisture for bunkers, 65-70 % for corn and 60-65 % for hay crops; where in that window is assumed. */
const DRY_MATTER: Readonly<Record<CropKind, string>> = { corn: "34 %", grass: "38 %", alfalfa: "38 %", sorghum: "32 %", "small-grain": "36 %" };

export const DEFAULTS = {
  name: { value: "Unnamed day", mark: ASSUMED },

  "crop.kind": { value: "corn", mark: ASSUMED },
  "crop.dryMatter": { value: ({ crop }) => DRY_MATTER[crop], mark: ASSUMED },
  // Half to three quarters of an inch, 13-19 mm, for most crops.
  "crop.chopLength": { value: "17 mm", mark: PRACTICE },
  // The mean measured for chopped maize in trailers, taken for every crop. Matters only where a volume is given.
  "crop.looseDensity": { value: ({ dryMatter }) => `${Math.round(looseFreshDensity(dryMatter))} kg/m3`, mark: ASSUMED },

  "fields[].name": { value: ({ ordinal }) => `Field ${ordinal}`, mark: ASSUMED },
  "fields[].rowLength": { value: "400 m", mark: ASSUMED },
  // Measured in towns; a distance from the odometer is better.
  "fields[].roadFactor": { value: String(circuity.value), mark: circuity.mark },

  "choppers[].name": { value: ({ ordinal }) => `Chopper ${ordinal}`, mark: ASSUMED },
  "choppers[].turnTime": { value: "25 s", mark: ASSUMED },
  "choppers[].changeover": { value: "20 s", mark: ASSUMED },
  "choppers[].move": { value: "15 min", mark: ASSUMED },
  "choppers[].cost": { value: "420 per h", mark: INVENTED },
  "choppers[].paid": { value: "by-hour", mark: ASSUMED },

  "trucks[].kind": { value: ({ ordinal }) => `Truck ${ordinal}`, mark: ASSUMED },
  "trucks[].loaded": { value: "28 km/h", mark: ASSUMED },
  "trucks[].empty": { value: "34 km/h", mark: ASSUMED },
  "trucks[].tip": { value: "4 min", mark: ASSUMED },
  "trucks[].lends": { value: "off", mark: ASSUMED },
  "trucks[].cost": { value: "85 per h", mark: INVENTED },

  lane: { value: "none", mark: ASSUMED },
  "lane.meeting": { value: "15 s", mark: ASSUMED },
  weighing: { value: "none", mark: ASSUMED },
  "weighing.lanes": { value: "1", mark: ASSUMED },

  "storage[].name": { value: ({ ordinal }) => `Storage ${ordinal}`, mark: ASSUMED },
  "storage[].wedge": { value: "1:3", mark: PRACTICE },
  "storage[].sideSlope": { value: "1:3", mark: PRACTICE },
  "storage[].apron": { value: ({ form }) => (form === "pile" ? "30 t" : "60 t"), mark: ASSUMED },
  "storage[].tippingPlaces": { value: "1", mark: ASSUMED },
  "storage[].cover": { value: "plain", mark: ASSUMED },
  "storage[].capitalCost": { value: "0", mark: ASSUMED },
  "storage[].life": { value: "20 years", mark: ASSUMED },

  "tractors[].name": { value: ({ ordinal }) => `Tractor ${ordinal}`, mark: ASSUMED },
  "tractors[].rolling": { value: "80 %", mark: ASSUMED },
  "tractors[].width": { value: "2.5 m", mark: ASSUMED },
  "tractors[].hireable": { value: "off", mark: ASSUMED },
  "tractors[].cost": { value: "90 per h", mark: INVENTED },

  // The thickest that the published advice allows.
  "packing.layer": { value: "15 cm", mark: "published" },
  "packing.layerTerm": { value: "on", mark: ASSUMED },
  "packing.wedgeRoom": { value: "by-width", mark: ASSUMED },
  "packing.whenBehind": { value: "hold-then-bury", mark: ASSUMED },
  "packing.finish": { value: "45 min", mark: ASSUMED },

  "targets.dryDensity": { value: `${targets.dryDensity.value} kg/m3`, mark: targets.dryDensity.mark },
  "targets.poreSpace": { value: String(targets.poreSpace.value), mark: targets.poreSpace.mark },

  "shift.start": { value: "07:00", mark: ASSUMED },
  "shift.end": { value: "20:00", mark: ASSUMED },
  "shift.breaks": { value: "none", mark: ASSUMED },

  // No published figure was found for these machines, so nothing breaks unless the file says so.
  breakdowns: { value: "none", mark: ASSUMED },
  variation: { value: "typical", mark: ASSUMED },
  "herd.season": { value: "winter", mark: ASSUMED },

  "covering.plain": { value: "0.25 per m2", mark: INVENTED },
  "covering.barrier": { value: "0.60 per m2", mark: INVENTED },
  "covering.people": { value: "4", mark: INVENTED },
  "covering.pace": { value: "300 m2/h", mark: INVENTED },
  // Every line of the loss ledger counts unless the file switches it off.
  losses: { value: "on", mark: ASSUMED },

  "campaign.rain": { value: "0 %", mark: ASSUMED },
  "campaign.days": { value: "14", mark: ASSUMED },

  labour: { value: "25 per h", mark: INVENTED },
  fuelPrice: { value: "1.40 per L", mark: INVENTED },
  feedValue: { value: "180 per t", mark: INVENTED },
  currency: { value: "EUR", mark: INVENTED },
  seed: { value: "1", mark: ASSUMED },
} as const satisfies Record<string, Default>;

export type DefaultName = keyof typeof DEFAULTS;

/** Fills in what the file leaves out and keeps the list of what was filled in. */
export class Silence {
  readonly applied: AppliedDefault[] = [];

  /** The written value, or the default of the table. `at` is where it applies in the file's words; `its` what the default hangs on. */
  fill<T>(written: T | undefined, name: DefaultName, at: string = name, its: Partial<Case> = {}): T | string {
    if (written !== undefined) return written;
    const { value, mark }: Default = DEFAULTS[name];
    const words = typeof value === "string" ? value : value({ crop: "corn", dryMatter: NaN, form: "bunker", ordinal: 0, ...its });
    this.applied.push({ path: at, value: words, mark });
    return words;
  }
}
