/** The rest of a day, for a terminal: what still finishes, when to stop, who can go home. */
import type { RestOfDay } from "../../sim/findings/types.ts";
import { formatNumber, formatQuantity } from "../../sim/scenario/units.ts";
import { penFor } from "./pen.ts";
import type { Looks } from "./report.ts";

/** What so many loads on the apron mean, by whether the crew buries. */
const AT_APRON: Readonly<Record<RestOfDay["stopRules"][number]["holds"], (lie: string) => string>> = {
  always: (lie) => `Stop the chopper when ${lie}.`,
  "until-full": (lie) => `Hold the trucks no longer when ${lie}: bury until half of it is gone.`,
  never: (lie) => `Let the chopper go on even when packing is behind; stop it only when ${lie}.`,
};

/** Lines for the page of text. */
export function restPage(rest: RestOfDay, { colours: c, system }: Looks): string[] {
  const { wrap, hanging } = penFor(system);
  const mass = (t: number) => formatQuantity(t * 1000, "mass", system, 0);
  const { early, median, late } = rest.closedAt;
  const out = ["", c.bold(`The rest of the day, from ${rest.from}`)];
  out.push(...wrap(`All is packed and closed at ${median}${early === late ? "" : `, on most days between ${early} and ${late}`}.`, 2));
  for (const { name, standingT, leftT, doneOn, doneAt } of rest.fields) {
    const days = doneOn < 1 ? ` on ${Math.round(doneOn * 100)} of 100 days` : "";
    const done = doneAt === null ? `does not get done: ${mass(leftT)} left standing` : standingT === 0 ? "is done" : `is done at ${doneAt}${days}${leftT >= 0.5 ? `; ${mass(leftT)} left standing on average` : ""}`;
    out.push(...hanging("  - ", `${name}, ${mass(standingT)} to go, ${done}.`));
  }
  out.push("", c.bold("When to stop"), ...hanging("  - ", rest.stopCutting.inWords));
  for (const rule of rest.stopRules) {
    const at = rest.stopRules.length > 1 ? ` at ${rule.storage}` : "";
    out.push(...hanging("  - ", rule.packMinutesPerLoad === null ? `Nobody packs${at} now: no load is taken.`
      : `${AT_APRON[rule.holds](`${formatNumber(rule.apronLoads, 0)} ${rule.apronLoads === 1 ? "load lies" : "loads lie"} on the apron${at}`)} This crew needs ${rule.packMinutesPerLoad.toFixed(0)} min a load; the mark on the stick stands at ${formatQuantity(rule.stickMark, "thickness", system)}.`));
    out.push(...wrap(rule.inWords.apron, 4).map((line) => c.dim(line)));
  }
  if (rest.trucks.length > 0) out.push("", c.bold("Who can go home"), ...rest.trucks.flatMap(({ inWords }) => hanging("  - ", inWords)));
  out.push("", c.bold("Taken as"), ...rest.assumptions.flatMap((text) => hanging("  - ", text)));
  return out;
}
