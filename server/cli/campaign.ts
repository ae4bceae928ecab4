/** `clampside campaign FILE...`: several days and farms in order, the crop drying while it waits. */
import type { Command } from "commander";
import type { Colors } from "picocolors/types.js";
import { unitSystemOf } from "../../sim/scenario/system.ts";
import { displayUnit, formatNumber, formatQuantity, inDisplayUnit, toSI, type UnitSystem } from "../../sim/scenario/units.ts";
import { campaigns, usualCampaigns, type Campaigns, type ToldDay } from "../../sim/study/campaigns.ts";
import { onePipedAtMost, readInput } from "./input.ts";
import { unitSystem, wholeNumber } from "./rehearse.ts";
import { penFor, type Pen } from "./pen.ts";
import { carriedOut } from "./study.ts";
import { coloursFor, print, printJson } from "./terminal.ts";

/** Most campaigns of one command: each is several days. */
const MOST_CAMPAIGNS = 10_000;

interface Options {
  readonly campaigns?: number;
  readonly seed?: number;
  readonly json?: boolean;
  readonly units?: UnitSystem;
}

/** Adds the command to the program. */
export function addCampaign(program: Command): void {
  program.command("campaign")
    .description("several days and farms in order while the crop dries: when to start")
    .argument("<files...>", "scenarios, YAML or JSON, one a farm; the first says when it starts and whose choppers and trucks go round")
    .option("--campaigns <n>", "how many campaigns to rehearse (1 where nothing varies, else 100)", wholeNumber(1, MOST_CAMPAIGNS))
    .option("--seed <s>", "another luck (default: the first scenario's)", wholeNumber(0, Number.MAX_SAFE_INTEGER))
    .option("--json", "print one JSON document")
    .option("--units <system>", "metric or us, for the page of text (default: the first file's own)", unitSystem)
    .addHelpText("after", "\nIn the first scenario:\n  campaign: {starts: 2026-09-15, measured: 2026-09-10, rain: 15 %, dew: \"08:30\"}\n\nExample:\n  clampside campaign scenarios/campaign/corn-two-weeks.yaml --campaigns 50")
    .action(run);
}

async function run(files: readonly string[], { campaigns: count, seed, json, units }: Options): Promise<void> {
  onePipedAtMost(...files);
  const inputs = files.map(readInput);
  // Each day needs what the one before left: there is nothing to share out among threads.
  const result = await carriedOut(campaigns(inputs.map(({ scenario }) => scenario), { ...(count !== undefined && { campaigns: count }), ...(seed !== undefined && { seed }) }), { days: 0, threads: 1 });
  if (json) return printJson(result);
  print(page(result, { lucky: usualCampaigns(inputs.map(({ scenario }) => scenario)) > 1, system: units ?? unitSystemOf(inputs[0]!.text), c: coloursFor(process.stdout) }));
}

const percent = (share: number, digits = 0): string => `${formatNumber(100 * share, digits)} %`;

function page(result: Campaigns, { lucky, system, c }: { /** something varies from one campaign to another */ readonly lucky: boolean; readonly system: UnitSystem; readonly c: Colors }): string {
  const { farms, chance, window, finish, shown, storages, whenToStart, notes, assumptions } = result;
  const pen = penFor(system);
  const { wrap, hanging } = pen;
  const mass = (t: number) => formatQuantity(t * 1000, "mass", system, 0);
  const density = (kgPerM3: number) => formatNumber(inDisplayUnit(kgPerM3, "density", system), system === "us" ? 1 : 0);
  const many = result.campaigns > 1;
  const out: string[] = [];
  const title = (text: string) => out.push("", c.bold(text));
  const say = (sentence: string) => out.push(...wrap(sentence, 2));

  out.push(c.bold(farms.map(({ name }) => name).join(", then ")));
  out.push(c.dim(`${many ? `${formatNumber(result.campaigns, 0)} campaigns rehearsed` : `one campaign${lucky ? " rehearsed" : ", no luck in it"}`}, from ${result.starts}, seed ${result.seed}, engine ${result.engine}`));
  title("When to start");
  say(whenToStart.inWords);
  title(`Started on ${result.starts}`);
  say(finish === null ? "Not everything comes in." : many ? `All is in on ${finish.median}; on 8 campaigns of 10 between ${finish.early} and ${finish.late}.` : `All is in on ${finish.median}.`);
  if (many) say(`Everything comes in on ${percent(chance.allIn)} of campaigns, and on ${percent(chance.endsInside)} the harvest ends inside the window. ${formatNumber(result.rainDays, 1)} days are lost to rain on average.`);
  say(`Of the dry matter ${percent(window.inside)} is cut inside the window, ${percent(window.tooWet)} too wet and ${percent(window.tooDry)} too dry.`);

  if (result.cost) {
    const { currency, mean, low, high, perDryTonne } = result.cost;
    const between = many ? `; on 8 campaigns of 10 between ${formatNumber(low, 0)} and ${formatNumber(high, 0)}` : "";
    const each = (perDryTonne / 1000) * toSI(1, displayUnit("mass", system), "mass");
    say(`The work of all days costs ${formatNumber(mean, 0)} ${currency}, ${formatNumber(each, 2)} ${currency}/${displayUnit("mass", system)} of dry matter${between}.`);
  }

  title(many ? "Day by day, the campaign with the median finish" : "Day by day");
  out.push(c.dim(row(["", "loads", "fresh", "DM", "density", "packed at", ""])), c.dim(row(["", "", displayUnit("mass", system), "%", displayUnit("density", system), "", ""])));
  for (const day of shown.days) out.push(...dayLines(day, farms.length > 1, { c, pen, density, mass, tonnes: (t) => formatNumber(inDisplayUnit(t * 1000, "mass", system), 0), surface: (m2) => formatQuantity(m2, "surface", system) }));

  for (const storage of storages) {
    title(`Stored in ${storage.name}${farms.length > 1 ? ` at ${storage.farm}` : ""}, ${storage.filledOn[0]}${storage.filledOn[1] === storage.filledOn[0] ? "" : ` to ${storage.filledOn[1]}`}`);
    say(`${many ? `In the mean of ${formatNumber(result.campaigns, 0)} campaigns ` : ""}${mass(storage.freshT)} fresh, ${mass(storage.dryT)} dry matter: ${percent(storage.dryMatter, 1)}, where the window is ${percent(storage.window[0])} to ${percent(storage.window[1])}.`);
    say(`Density ${density(storage.density.mean)} ${displayUnit("density", system)} of dry matter; storages packed like this lie between ${density(storage.density.band[0])} and ${density(storage.density.band[1])} in 8 of 10 cases. `
      + `${storage.poreSpace === null ? "The relation gives more than there is room for" : `Pore space ${formatNumber(storage.poreSpace, 2)}`}. ${storage.effluent < 1 ? "No effluent is expected." : `Effluent ${formatQuantity(storage.effluent / 1000, "fluid", system)}.`}`);
  }
  title("Starts that were tried");
  out.push(c.dim(`  ${"".padEnd(12)}${["inside", "too wet", "too dry", "ends inside", "all in"].map((head) => head.padStart(12)).join("")}`));
  for (const each of whenToStart.tried) {
    out.push(`  ${each.starts.padEnd(12)}${[each.inside, each.tooWet, each.tooDry, each.endsInside, each.allIn].map((share) => percent(share).padStart(12)).join("")}`);
  }
  if (notes.length > 0) title("To know");
  for (const note of notes) out.push(...hanging("- ", note));
  title("Assumed");
  for (const assumption of assumptions) out.push(...hanging("- ", assumption).map((line) => c.dim(line)));
  return out.map((line) => line.trimEnd()).join("\n");
}

const row = ([date, loads, fresh, dryMatter, density, closed, rest]: readonly [string, string, string, string, string, string, string]): string =>
  `  ${date.padEnd(12)}${loads.padStart(6)}${fresh.padStart(8)}${dryMatter.padStart(7)}${density.padStart(9)}${closed.padStart(11)}  ${rest}`;

interface Said { readonly c: Colors; readonly pen: Pen; readonly density: (kgPerM3: number) => string; readonly tonnes: (t: number) => string; readonly mass: (t: number) => string; readonly surface: (m2: number) => string }

function dayLines(day: ToldDay, several: boolean, { c, pen: { wrap }, density, tonnes, mass, surface }: Said): string[] {
  if (day.lost !== null) return [c.dim(row([day.date, "", "", "", "", "", "lost to rain"]))];
  const lines = [row([day.date, String(day.loads), tonnes(day.freshT), day.dryMatter === null ? "" : formatNumber(100 * day.dryMatter, 1), day.density === null ? "" : density(day.density), day.closedAt ?? "", ""])];
  const fields = day.fields.map(({ name, freshT, dryMatter, side }) => `${name} ${mass(freshT)} at ${percent(dryMatter, 1)}${side === "inside" ? "" : `, ${side}`}`).join("; ");
  const filled = day.storages.filter(({ filled: share }) => share > 0).map(({ name, filled: share }) => `${name} ${percent(share)} full`).join(", ");
  lines.push(...wrap(`${several ? `${day.farm}: ` : ""}${fields}. ${filled}.`, 14).map((line) => c.dim(line)));
  const open = day.storages.reduce((sum, { openFace }) => sum + openFace, 0);
  if (open > 0 && day.openFor > 0) lines.push(...wrap(`${surface(open)} of open wedge wait ${formatNumber(day.openFor, 1)} h.`, 14).map((line) => c.dim(line)));
  return lines;
}
