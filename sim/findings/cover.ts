/** What closing a storage takes: surface, film and the cover crew's time. */
import { coverFor, surfaceOf } from "../forage/geometry/index.ts";
import type { Scenario, Storage } from "../scenario/types.ts";

export interface Cover {
  /** m2 under the sky */ readonly surface: number;
  /** m2 of film, overlaps of sheets and edges included; 0 without a cover */ readonly film: number;
  /** s of the whole cover crew from the first sheet to the seal; 0 without a cover */ readonly seconds: number;
}

/** The cover of so much forage (m3) in this storage. */
export function coverOf({ covering }: Pick<Scenario, "covering">, storage: Storage, volume: number): Cover {
  const surface = surfaceOf(storage, volume);
  if (storage.cover === "none") return { surface, film: 0, seconds: 0 };
  return { surface, film: coverFor(storage, volume).film, seconds: surface / covering.pace };
}

/** What the film and what holds it down cost. */
export const filmCost = ({ covering }: Pick<Scenario, "covering">, storage: Storage, { film }: Cover): number =>
  (storage.cover === "none" ? 0 : covering.filmPerArea[storage.cover] * film);

/** What the cover crew costs; the drivers' time until the last lift is closed is not in it. */
export const coverCrewCost = ({ covering, money }: Pick<Scenario, "covering" | "money">, { seconds }: Cover): number =>
  (seconds / 3600) * covering.people * money.labourPerHour;
