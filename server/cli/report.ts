/** The findings as a page of text for a terminal of 80 columns: the answer first, the reasons under it, where they come from at the end. */
import type { Colors } from "picocolors/types.js";
import type { MachineState } from "../../sim/harvest/daylog.ts";
import { likely } from "../../sim/findings/figure.ts";
import { ledgerIn } from "../../sim/findings/left.ts";
import type { Findings, Measure, Span } from "../../sim/findings/types.ts";
import { headlineIn, LOSS_WORDS, MEASURE_GROUPS, MEASURE_WORDS, STATE_WORDS, STATION_WORDS, measureNumber, measureUnit } from "../../sim/findings/words.ts";
import { formatNumber, formatQuantity, inDisplayUnit, displayUnit, type UnitSystem } from "../../sim/scenario/units.ts";
import { clockOf } from "../../sim/findings/clock.ts";
import { penFor } from "./pen.ts";
import { restPage } from "./restpage.ts";
import { WIDTH } from "./terminal.ts";

/** How the page is to look. */
export interface Looks {
  readonly system: UnitSystem;
  readonly colours: Colors;
  /** days differ by luck */ readonly lucky: boolean;
  /** s after midnight */ readonly shiftStart: number;
}

/** Writes the page. */
export function report(findings: Findings, looks: Looks): string {
  const { colours: c } = looks;
  const { wrap, hanging } = penFor(looks.system);
  const out: string[] = [];
  const title = (text: string) => out.push("", c.bold(text));
  const { verdict, rehearsals } = findings;

  out.push(c.bold(findings.scenario.name));
  out.push(c.dim(`${rehearsals === 1 ? `one day${looks.lucky ? " rehearsed" : ", no luck in it"}` : `${formatNumber(rehearsals, 0)} days rehearsed`}, seed ${findings.seed}, engine ${findings.engine}`));
  title("Does packing keep up?");
  const ink = verdict.keepsPace ? c.green : c.yellow;
  out.push(...wrap(`${verdict.keepsPace ? "Yes." : "No."} ${headlineIn(verdict, looks.system)}`, 2).map((line) => ink(line)));
  out.push(c.dim(`  What limits the day: ${STATION_WORDS[verdict.bottleneck]}.`));

  if (findings.rest) out.push(...restPage(findings.rest, looks));
  title(findings.rest ? "The rest of the day in figures" : "The day in figures");
  const many = rehearsals > 1;
  if (many) out.push(c.dim(columns("", "mean", "", "mean, 95 % sure", "8 days of 10")));
  for (const [group, names] of MEASURE_GROUPS) {
    const present = names.filter((name) => findings.measures[name]);
    if (present.length === 0) continue;
    out.push(c.dim(group));
    for (const name of present) {
      const measure = findings.measures[name]!;
      const show = (value: number) => measureNumber(name, value, looks.system);
      const unit = measureUnit(name, looks.system);
      const money = unit.startsWith("per ") ? `${findings.money.currency} ${unit}` : unit;
      // The rest of a day counts from when it was taken up.
      const label = name === "finishedAt" && findings.rest ? `Finished, after ${findings.rest.from}` : MEASURE_WORDS[name].label;
      out.push(columns(`  ${label}`, show(measure.mean), money, many ? span(show(measure.low), show(measure.high)) : "", many ? span(show(measure.p10), show(measure.p90)) : ""));
      // Of the rest of a day that stands above, as the median of the days; the mean beside it would read as another time.
      if (name === "finishedAt" && !findings.rest) out.push(c.dim(columns("  the clamp is closed at", finish(measure, looks.shiftStart), "", "", "")));
    }
  }

  for (const storage of findings.storages) {
    const { dryDensity } = storage;
    const show = (kgPerM3: number) => formatNumber(inDisplayUnit(kgPerM3, "density", looks.system), looks.system === "us" ? 1 : 0);
    title(`Stored in ${storage.name}${storage.full ? ", which is full" : ""}`);
    out.push(...wrap(`${formatQuantity(storage.filledT * 1000, "mass", looks.system, 0)} fresh, ${formatQuantity(storage.dryT * 1000, "mass", looks.system, 0)} dry matter, ${formatQuantity(storage.meanDepth, "length", looks.system)} deep on average.`, 2));
    out.push(...wrap(`Density ${show(dryDensity.mean)} ${displayUnit("density", looks.system)} of dry matter. Storages packed like this lie between ${show(dryDensity.band[0])} and ${show(dryDensity.band[1])} in 8 of 10 cases: the published relation scatters that much. Chance that this one reaches the target: ${likely(dryDensity.chanceOfTarget)}.`, 2));
    out.push(...wrap(underTheSky(storage, looks.system), 2));
  }

  title("From cut to fed, dry matter");
  const dry = (t: number) => formatNumber(inDisplayUnit(t * 1000, "mass", looks.system), 0);
  const range = ({ low, central, high }: Span) => `${right(dry(central), 10)}  ${pad(span(dry(low), dry(high)), 14)}`;
  out.push(c.dim(`  ${pad("", 24)}${right(displayUnit("mass", looks.system), 10)}  from – to`));
  out.push(`  ${pad("Stored", 24)}${right(dry(findings.ledger.storedT), 10)}`);
  for (const line of findings.losses) {
    const figure = line.dryT === null ? `${right("?", 10)}  ${pad("no verified rate", 14)}` : range(line.dryT);
    out.push(`  ${pad(LOSS_WORDS[line.cause], 24)}${figure}${line.on ? "" : c.dim("  switched off, not counted")}`.trimEnd());
  }
  out.push(`  ${pad("Left to feed", 24)}${range(findings.ledger.fedT)}`.trimEnd());
  out.push(...wrap(ledgerIn(looks.system, findings.ledger), 2).map((line) => c.dim(line)));
  for (const { name, feedOut } of findings.storages) if (feedOut) out.push(...wrap(`${name}: ${feedOut.inWords}`, 2));

  title("Beside the calculation by hand");
  out.push(c.dim(`  ${pad("station", 20)}${right("could pass", 12)}${right("passed", 10)}  ${displayUnit("flow", looks.system)}`));
  for (const check of findings.handCheck) {
    const flow = (tPerH: number) => formatNumber(inDisplayUnit(tPerH / 3.6, "flow", looks.system), 0);
    const [first = "", ...more] = wrap(check.gapInWords, 0, WIDTH - 47);
    out.push(`  ${pad(STATION_WORDS[check.station], 20)}${right(flow(check.boundTPerH), 12)}${right(flow(check.simulatedTPerH), 10)}  ${c.dim(first)}`);
    out.push(...more.map((line) => `${" ".repeat(46)}${c.dim(line)}`));
  }

  title("Hours by machine");
  for (const { name, hours } of alike(findings.machines)) {
    const shown = Object.entries(hours).filter(([, h]) => h >= 0.05).sort((a, b) => b[1] - a[1]).map(([state, h]) => `${STATE_WORDS[state as MachineState]} ${formatNumber(h, 1)}`);
    out.push(...hanging(`  ${pad(name, 20)}`, shown.join(", ")));
  }

  if (findings.money.lines.length > 0) {
    title(`Money, ${findings.money.currency}`);
    const line = (what: string, amount: number, note: string) => {
      const head = `  ${pad(what, 28)}${right(formatNumber(amount, 0), 10)}  `;
      const [first = "", ...more] = hanging(head, note);
      out.push(head + c.dim(first.slice(head.length)), ...more.map((rest) => c.dim(rest)));
    };
    for (const { what, amount, note, stage, inTotal } of findings.money.lines) {
      if (stage !== "lost") line(what, amount, `${note}${inTotal ? "" : "; not in the total"}`);
    }
    out.push(`  ${pad("The farm pays", 28)}${right(formatNumber(findings.money.total, 0), 10)}`);
    for (const { what, amount, note, stage } of findings.money.lines) if (stage === "lost") line(what, amount, note);
    for (const { inWords } of findings.money.oneMoreTractor ?? []) out.push(...wrap(inWords, 2));
  }

  if (findings.notes.length > 0) {
    title("To be read with it");
    for (const note of findings.notes) out.push(...hanging("  - ", note));
  }
  title("Cautions");
  out.push(...wrap("Local codes, the makers' limits and licensed practice go before anything here.", 2));
  for (const caution of findings.cautions) out.push(...hanging("  - ", `${caution.where}: ${caution.text}`));
  if (findings.defaults.length > 0) {
    title(`Filled in for you: ${findings.defaults.length} defaults`);
    out.push(...wrap(`${findings.defaults.map((filled) => `${filled.path} ${filled.value}`).join("; ")}.`, 2).map((line) => c.dim(line)));
    out.push(c.dim("  `clampside check` says where each comes from."));
  }
  return `${out.join("\n")}\n`;
}

/** What it takes to close a storage. */
function underTheSky({ footprint, coverArea, cover: { film, weights, hours } }: Findings["storages"][number], system: UnitSystem): string {
  const area = (m2: number) => formatQuantity(m2, "surface", system);
  const lies = `It lies on ${area(footprint)} of floor, with ${area(coverArea)} under the sky`;
  return film === 0 ? `${lies}, left open.`
    : `${lies}: ${area(film)} of film, overlaps included, held down by ${formatNumber(weights.tyres, 0)} tyres or ${formatNumber(weights.bags, 0)} bags, laid in ${formatNumber(hours, 1)} h.`;
}

/** Characters of a column that is to stay apart from the one before. */
const SPAN = 13;
const span = (low: string, high: string) => {
  const wide = `${low} – ${high}`;
  return low === high ? low : wide.length > SPAN ? `${low}–${high}` : wide;
};
const pad = (text: string, width: number) => text.padEnd(width);
const right = (text: string, width: number) => text.padStart(width);
/** Columns of a label; a longer one has a line to itself. */
const LABEL = 32;
const columns = (label: string, mean: string, unit: string, sure: string, spread: string) =>
  `${label.length < LABEL ? pad(label, LABEL) : `${label}\n${" ".repeat(LABEL)}`}${right(mean, 7)} ${pad(unit, 11)}${right(sure, 15)}${right(spread, 14)}`.trimEnd();

/** Trucks of one kind as one line with their mean hours, every other machine by itself. */
function alike(machines: Findings["machines"]): { name: string; hours: Record<string, number> }[] {
  const groups = new Map<string, Findings["machines"][number][]>();
  for (const machine of machines) {
    const name = machine.kind === "truck" ? machine.name.replace(/ \d+$/u, "") : machine.name;
    groups.set(name, [...(groups.get(name) ?? []), machine]);
  }
  return [...groups].map(([name, members]) => {
    const hours: Record<string, number> = {};
    for (const member of members) for (const [state, h] of Object.entries(member.hours)) hours[state] = (hours[state] ?? 0) + h / members.length;
    return { name: members.length > 1 ? `${name}, mean of ${members.length}` : name, hours };
  });
}

/** Wall clock of the finish, with its spread between days. */
function finish({ mean, p10, p90 }: Measure, start: number): string {
  const at = (hours: number) => clockOf(start + hours * 3600);
  return at(p10) === at(p90) ? at(mean) : `${at(mean)}, on most days ${at(p10)} – ${at(p90)}`;
}
