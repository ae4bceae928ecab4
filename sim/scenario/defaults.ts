/**
 * What holds where the file is silent, as a person would write it, with its mark. This is the only table of defaults; the
 * findings list those that applied. What is not here (a wall rating, an owner, a herd, a volume) is simply not known when it is not
 * given: nothing is made up for it.
 */
import type { AppliedDefault, CropKind } from "./types.ts";

const ASSUMED = "assumption of this project";
const PRACTICE = "common practice, no source";
const INVENTED = "invented for the demo";
const PUBLISHED = "published";

interface Default {
  /** one value, or one by crop or by form of storage */
  readonly value: string | Readonly<Record<string, string>>;
  readonly mark: string;
}

const LABEL: Default = { value: "#", mark: ASSUMED };

export const DEFAULTS = {
  name: { value: "Unnamed day", mark: ASSUMED },

  "crop.kind": { value: "corn", mark: ASSUMED },
  // Inside the published moisture for bunkers, 65-70 % for corn and 60-65 % for hay crops; where in that window is assumed.
  "crop.dryMatter": { value: { corn: "34 %", grass: "38 %", alfalfa: "38 %", sorghum: "32 %", "small-grain": "36 %" } satisfies Record<CropKind, string>, mark: ASSUMED },
  // Half to three quarters of an inch, 13-19 mm, for most crops.
  "crop.chopLength": { value: "17 mm", mark: PRACTICE },
  // Near 112 kg DM/m3, measured for chopped maize in trailers at 34 % dry matter; other crops by analogy. Matters only where a volume is given.
  "crop.looseDensity": { value: { corn: "340 kg/m3", grass: "300 kg/m3", alfalfa: "300 kg/m3", sorghum: "340 kg/m3", "small-grain": "320 kg/m3" } satisfies Record<CropKind, string>, mark: ASSUMED },

  "fields[].name": { ...LABEL, value: "Field #" },
  "fields[].rowLength": { value: "400 m", mark: ASSUMED },

  "choppers[].name": { ...LABEL, value: "Chopper #" },
  "choppers[].turnTime": { value: "25 s", mark: ASSUMED },
  "choppers[].changeover": { value: "20 s", mark: ASSUMED },
  "choppers[].move": { value: "15 min", mark: ASSUMED },
  "choppers[].cost": { value: "420 per h", mark: INVENTED },
  "choppers[].paid": { value: "by-hour", mark: ASSUMED },

  "trucks[].kind": { ...LABEL, value: "Truck #" },
  "trucks[].loaded": { value: "28 km/h", mark: ASSUMED },
  "trucks[].empty": { value: "34 km/h", mark: ASSUMED },
  "trucks[].tip": { value: "4 min", mark: ASSUMED },
  "trucks[].lends": { value: "off", mark: ASSUMED },
  "trucks[].cost": { value: "85 per h", mark: INVENTED },

  lane: { value: "none", mark: ASSUMED },
  "lane.meeting": { value: "15 s", mark: ASSUMED },
  weighing: { value: "none", mark: ASSUMED },
  "weighing.lanes": { value: "1", mark: ASSUMED },

  "storage[].name": { ...LABEL, value: "Storage #" },
  "storage[].wedge": { value: "1:3", mark: PRACTICE },
  "storage[].sideSlope": { value: "1:3", mark: PRACTICE },
  "storage[].apron": { value: { bunker: "60 t", pile: "30 t" }, mark: ASSUMED },
  "storage[].tippingPlaces": { value: "1", mark: ASSUMED },
  "storage[].cover": { value: "plain", mark: ASSUMED },
  "storage[].capitalCost": { value: "0", mark: ASSUMED },
  "storage[].life": { value: "20 years", mark: ASSUMED },

  "tractors[].name": { ...LABEL, value: "Tractor #" },
  "tractors[].rolling": { value: "80 %", mark: ASSUMED },
  "tractors[].width": { value: "2.5 m", mark: ASSUMED },
  "tractors[].hireable": { value: "off", mark: ASSUMED },
  "tractors[].cost": { value: "90 per h", mark: INVENTED },

  // The thickest that the published advice allows.
  "packing.layer": { value: "15 cm", mark: PUBLISHED },
  "packing.layerTerm": { value: "on", mark: ASSUMED },
  "packing.whenBehind": { value: "hold-then-bury", mark: ASSUMED },
  "packing.finish": { value: "45 min", mark: ASSUMED },

  "targets.dryDensity": { value: "240 kg/m3", mark: PUBLISHED },
  "targets.poreSpace": { value: "40 %", mark: PUBLISHED },

  "shift.start": { value: "07:00", mark: ASSUMED },
  "shift.end": { value: "20:00", mark: ASSUMED },
  "shift.breaks": { value: "none", mark: ASSUMED },

  // No published figure was found for these machines, so nothing breaks unless the file says so.
  breakdowns: { value: "none", mark: ASSUMED },
  variation: { value: "typical", mark: ASSUMED },
  "herd.season": { value: "winter", mark: ASSUMED },

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

  /**
   * The written value, or the default of the table. `at` is where it applies in the file's words; `by` the crop or the form of storage
   * for defaults that hang on it; `ordinal` the number that a made-up name ends in.
   */
  fill<T>(written: T | undefined, name: DefaultName, at: string = name, { by = "", ordinal = 0 } = {}): T | string {
    if (written !== undefined) return written;
    const entry: Default = DEFAULTS[name];
    const value = typeof entry.value === "string" ? entry.value.replace("#", String(ordinal)) : entry.value[by] ?? "";
    this.applied.push({ path: at, value, mark: entry.mark });
    return value;
  }
}
