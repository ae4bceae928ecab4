/** What has been brought of a field, however it is told. Apart from the reading of it, so that the page can take a day up without the reader. */
import type { Now } from "./now.ts";
import type { Scenario } from "./types.ts";
import { settled } from "./units.ts";

/** What a field gave so far, tipped or on the road, kg: by what was tipped, else by the share that is cut. */
export function tippedOf({ mass, cut, field }: Now["delivered"][number], scenario: Scenario): number {
  const { area, yield: perArea } = scenario.fields[field]!;
  return mass ?? settled(cut! * area * perArea);
}
