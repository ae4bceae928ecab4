/** `clampside crewup FILE`: the cheapest plan that meets the targets with the asked-for certainty. */
import { InvalidArgumentError, type Command } from "commander";
import type { Colors } from "picocolors/types.js";
import { clockOf } from "../../sim/findings/clock.ts";
import { counted, likely } from "../../sim/findings/figure.ts";
import { BEHIND_SHORT } from "../../sim/findings/words.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { unitSystemOf } from "../../sim/scenario/system.ts";
import { displayUnit, formatNumber, formatQuantity, inDisplayUnit, type UnitSystem } from "../../sim/scenario/units.ts";
import { crewUp, USUAL_SURE, type CrewSearch } from "../../sim/study/crew.ts";
import type { CrewPlan } from "../../sim/study/planrecord.ts";
import { countPlans } from "../../sim/study/plans.ts";
import { FIRST_DAYS } from "../../sim/study/select.ts";
import { MOST_THREADS } from "./compare.ts";
import { readInput } from "./input.ts";
import { unitSystem, wholeNumber } from "./rehearse.ts";
import { penFor } from "./pen.ts";
import { carriedOut } from "./study.ts";
import { coloursFor, print, printJson } from "./terminal.ts";

interface Options {
  readonly sure: number;
  readonly seed?: number;
  readonly json?: boolean;
  readonly units?: UnitSystem;
  readonly threads?: number;
}

/** Adds the command to the program. */
export function addCrewUp(program: Command): void {
  program.command("crewup")
    .description("the cheapest plan that meets the targets, from the ranges under `search` in the file")
    .argument("<file>", "scenario with a search, YAML or JSON; - for standard input")
    .option("--sure <share>", "on which share of days the targets must be met", aNumber, USUAL_SURE)
    .option("--seed <s>", "another luck (default: the scenario's)", wholeNumber(0, Number.MAX_SAFE_INTEGER))
    .option("--json", "print one JSON document")
    .option("--units <system>", "metric or us, for the page of text (default: the file's own)", unitSystem)
    .option("--threads <n>", "threads to rehearse on; the result is the same", wholeNumber(1, MOST_THREADS))
    .addHelpText("after", "\nAt the end of a scenario, say day.yaml:\n  search:\n    trucks: {from: 3, to: 8}\n    tractors:\n      from: 1\n      to: 3\n      list: [{name: Heavy, mass: 20 t, cost: 105 per h, count: 3}]\n"
      + "    layers: [10 cm, 15 cm]\n    rules: [hold, hold-then-bury]\n    pace: [85 %, 100 %]\n    targets: {finishBy: \"20:00\", waiting: 10 %, relation: 60 %}\n\n"
      + "Example:\n  clampside crewup day.yaml --sure 0.9")
    .action(run);
}

function aNumber(text: string): number {
  const value = text.trim() === "" ? NaN : Number(text);
  if (!Number.isFinite(value)) throw new InvalidArgumentError("a share such as 0.9 would do.");
  return value;
}

async function run(file: string, { sure, seed, json, units, threads }: Options): Promise<void> {
  const { scenario, text } = readInput(file);
  const days = countPlans(scenario) * FIRST_DAYS;
  const result = await carriedOut(crewUp(scenario, { sure, ...(seed !== undefined && { seed }) }), { days, threads });
  if (json) return printJson(result);
  print(page(result, scenario, units ?? unitSystemOf(text), coloursFor(process.stdout)));
}

/** Plans of the front that are told; the document has all. */
const SHOWN = 8;

function page(result: CrewSearch, scenario: Scenario, system: UnitSystem, c: Colors): string {
  const { chosen, nearest, plans, hopeless, days, sure, targets, runnersUp, front } = result;
  const { wrap, hanging } = penFor(system);
  const percent = (share: number) => `${Number((share * 100).toFixed(1))} %`;
  const out: string[] = [c.bold(`Which crew: ${result.scenario.name}`)];
  const given = hopeless > 0 ? `, ${counted(hopeless)} of them given up by hand` : "";
  out.push(c.dim(`${counted(plans)} plans${given}; ${counted(days)} days rehearsed, seed ${result.seed}, engine ${result.engine}`));

  const asked = [
    `${formatQuantity(targets.dryDensity ?? 0, "density", system, system === "us" ? 1 : 0)} of dry matter`, `closed by ${clockOf(targets.finishBy ?? 0)}`,
    ...(targets.waiting === null ? [] : [`the chopper waiting ${percent(targets.waiting)} at the most`]),
    ...(targets.relation === null ? [] : [`a chance of ${percent(targets.relation)} by the relation itself`]),
  ];
  out.push(...wrap(`Asked for on ${percent(sure)} of days: everything brought in, ${asked.join(", ")}.`, 2), "");
  if (chosen) {
    out.push(c.bold("The cheapest plan that does"));
    out.push(...wrap(words(chosen, scenario, system), 2).map((line) => c.green(line)));
    const sureOf = chosen.days === 1 ? "It met all targets on the day rehearsed."
      : `It met all targets on ${percent(chosen.chance.share)} of ${counted(chosen.days)} days (95 % sure: ${percent(chosen.chance.low)} to ${percent(chosen.chance.high)}).`;
    const relation = chosen.chanceOfTarget === null ? "" : ` That is the luck of the day. The published relation itself gives this clamp a chance of ${likely(chosen.chanceOfTarget)} to be as dense as the target.`;
    out.push(...wrap(sureOf + relation, 2));
  } else if (nearest) {
    out.push(c.bold("No plan does"));
    out.push(...wrap(nearest.inWords, 2).map((line) => c.yellow(line)), ...wrap(`The nearest: ${words(nearest.plan, scenario, system)}`, 2));
  }

  if (result.withoutLayerTerm) {
    const { density, chance } = result.withoutLayerTerm;
    out.push(...wrap(`It lays thinner than your plan does. If the layer has no effect at the same packing time, as the relation's authors later found, it comes to `
      + `${formatQuantity(density, "density", system, system === "us" ? 1 : 0)} and meets the targets on ${percent(chance.share)} of days.`, 2).map((line) => c.yellow(line)));
  }

  const table = (title: string, rows: readonly CrewPlan[]) => {
    if (rows.length === 0) return;
    out.push("", c.bold(title), c.dim(row("", [`${scenario.money.currency}${displayUnit("perTonne", system).replace("per ", "/")}`, displayUnit("density", system), "closed", "waits", "meets", "days"])));
    for (const plan of rows) {
      const [first = "", ...more] = wrap(words(plan, scenario, system), 2, LABEL);
      out.push(row(first, cells(plan, system)), ...more.map((line) => `  ${line}`));
    }
  };
  if (chosen ?? nearest) table(chosen ? "Chosen" : "Nearest", [(chosen ?? nearest!.plan)]);
  table("The next cheapest that seem to do", runnersUp);
  const often = front.filter(({ chance }) => chance.share >= sure / 2);
  const shown = often.slice(0, SHOWN);
  table(`Nothing better in cost, density and finish at once${often.length > shown.length ? ` (the ${shown.length} cheapest of ${often.length})` : ""}`, shown);
  out.push(...wrap("Cost is by the tonne of dry matter fed. Plans with few days were given up early: their figures are rough.", 2).map((line) => c.dim(line)));
  out.push("", c.bold("What is promised"), ...hanging("  ", result.guarantee), ...hanging("  ", result.method).map((line) => c.dim(line)));
  // What holds for all silage work stands in the findings; here is what this plan brings with it.
  const own = result.cautions.filter(({ id, where }) => where !== "everywhere" || id === "long-shift");
  if (own.length > 0) out.push("", c.bold("Cautions"), ...own.flatMap(({ where, text }) => hanging("  - ", `${where}: ${text}`)));
  return out.map((line) => line.trimEnd()).join("\n");
}

const LABEL = 36;
const row = (label: string, [cost = "", density = "", closed = "", waits = "", met = "", days = ""]: readonly string[]) =>
  `${label.padEnd(LABEL)}${cost.padStart(9)}${density.padStart(7)}${closed.padStart(8)}${waits.padStart(7)}${met.padStart(7)}${days.padStart(6)}`;

function cells({ cost, density, closedAt, waiting, chance, days }: CrewPlan, system: UnitSystem): string[] {
  return [
    cost ? formatNumber(inDisplayUnit(cost.mean, "perTonne", system), 2) : "–", density ? formatNumber(inDisplayUnit(density.mean, "density", system), system === "us" ? 1 : 0) : "–",
    closedAt ? clockOf(closedAt.mean * 3600).replace(/ \(\+(\d+) days?\)/u, "+$1d") : "–", waiting ? `${Math.round(waiting.mean * 100)} %` : "–", `${Math.round(chance.share * 100)} %`, counted(days),
  ];
}

/** The plan in words. */
function words({ trucks, tractors, layer, rule, pace }: CrewPlan, { search, trucks: kinds }: Scenario, system: UnitSystem): string {
  const crew = tractors && (tractors.length === 0 ? "no packing tractor beside the blades" : tractors.map(({ name, count }) => (count > 1 ? `${count} ${name}` : name)).join(" + "));
  const said = [
    trucks === null ? null : `${trucks} ${kinds[search!.trucks!.kind]!.kind}`, crew, layer === null ? null : formatQuantity(layer, "thickness", system),
    rule === null ? null : BEHIND_SHORT[rule], pace === null || pace === 1 ? null : `chopper at ${Math.round(pace * 100)} %`,
  ].filter((part) => part !== null);
  return said.length > 0 ? said.join(", ") : "The plan as it is";
}
