/** What is asked next, once it is known whether packing keeps up: when it is done, who waits, what is left to feed, what it costs. Each leads to where it comes from. */
import { clockOf } from "../../sim/findings/clock.ts";
import { massIn } from "../ledger.ts";
import { unitName } from "../quantity.ts";
import { findings, rehearsed, units } from "../state.ts";
import { words } from "../words.ts";
import { figureText, openFigure } from "./Figures.tsx";

interface Short { readonly name: "finishedAt" | "chopperWaiting" | "dryMatterFed" | "costPerTonne"; readonly figure: string; readonly range: string }

export function InShort() {
  return (
    <dl class="in-short screen-only">
      {shortOf().map(({ name, figure, range }) => (
        <div key={name}>
          <dt><button type="button" class="plain to-figure" onClick={() => openFigure(name)}>{words.short[name]}</button></dt>
          <dd><strong>{figure}</strong> <span class="quiet">{range}</span></dd>
        </div>
      ))}
    </dl>
  );
}

function shortOf(): Short[] {
  const answer = findings.value;
  const day = rehearsed.value;
  if (!answer || !day) return [];
  const { measures, ledger, money: { currency } } = answer;
  const { finishedAt, dryMatterFed } = measures;
  const one = answer.rehearsals === 1;
  const told = (name: "chopperWaiting" | "costPerTonne"): Short[] => {
    const measure = measures[name];
    if (!measure) return [];
    const { say, unit } = figureText(name, measure, units.value, currency);
    return [{ name, figure: `${say(measure.mean)} ${unit}`, range: one ? "" : mostDays(say(measure.p10), say(measure.p90)) }];
  };
  const at = (hours: number) => clockOf(day.scenario.shift.start + hours * 3600);
  return [
    ...(finishedAt ? [{ name: "finishedAt" as const, figure: at(finishedAt.mean), range: one ? "" : mostDays(at(finishedAt.p10), at(finishedAt.p90)) }] : []),
    ...told("chopperWaiting"),
    ...(dryMatterFed ? [{ name: "dryMatterFed" as const, figure: `${massIn(dryMatterFed.mean, units.value)} ${unitName("mass", units.value)}`, range: words.short.ledger(words.figures.range(massIn(ledger.fedT.low, units.value), massIn(ledger.fedT.high, units.value))) }] : []),
    ...told("costPerTonne"),
  ];
}

const mostDays = (low: string, high: string): string => (low === high ? "" : words.short.mostDays(words.figures.range(low, high)));
