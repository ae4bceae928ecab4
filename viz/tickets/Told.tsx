/** What the day tells: its figures with the size of the sample behind each, loads by the hour, the longest gaps, and whose the tonnes are. */
import { daysIn, type DayOfLoads, type Part, type Spread } from "../../sim/study/tickets/loads.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { clock, quantity, span } from "../quantity.ts";
import { measureIn } from "../sentences.ts";
import { units } from "../state.ts";
import { ticketWords } from "../words/tickets.ts";
import { HourBars } from "./HourBars.tsx";
import { byHour, gapsThatStandOut } from "./hours.ts";
import { dayShown, type Worked } from "./taken.ts";

const DAY = 86_400;
const GAPS = 5;

/** A figure in the reader's unit. */
export function measured(value: number, unit: string, digits = 1): string {
  const { unit: name, factor } = measureIn(units.value, unit);
  return `${formatNumber(value * factor, digits)}${name === "" ? "" : ` ${name}`}`;
}

export function Told({ worked: { reading, scenario, weighed } }: { readonly worked: Worked }) {
  const words = ticketWords.told;
  const lists = daysIn(reading.tickets);
  const most = weighed.days.reduce((best, day, i) => (day.loads > weighed.days[best]!.loads ? i : best), 0);
  const place = Math.min(dayShown.value ?? most, lists.length - 1);
  const midnight = Math.floor(lists[place]![0]!.at / DAY) * DAY;
  const ofDay = lists[place]!.map((ticket) => ({ ...ticket, at: ticket.at - midnight, out: null }));
  const pauses = scenario?.shift.breaks ?? [];
  const gaps = gapsThatStandOut(ofDay, pauses);
  const hours = byHour(ofDay);
  const w = ticketWords.hours;
  const mass = (kg: number) => quantity(kg, "mass", units.value, 1);
  const gapSaid = gaps.map(({ from, to }) => w.gapHere(clock(from), clock(to)));
  return (
    <section aria-labelledby="told">
      <h2 id="told">{words.title}</h2>
      {lists.length > 1 && (
        <label class="setting screen-only"><span>{words.whichDay}</span>
          <select value={place} onChange={(event) => { dayShown.value = Number(event.currentTarget.value); }}>
            {weighed.days.map(({ loads }, i) => <option key={i} value={i}>{words.day(i + 1, lists.length, loads)}</option>)}
          </select>
        </label>
      )}
      {lists.length > 1 && <p class="on-paper">{words.day(place + 1, lists.length, weighed.days[place]!.loads)}</p>}
      <div class="two">
        <DayTable day={weighed.days[place]!} midnight={midnight} />
        <div class="part-tables">
          {(["owner", "field", "truck", "storage"] as const).map((key) => <Parts key={key} name={words.parts[key]} parts={weighed[`${key}s`]} />)}
        </div>
      </div>
      <HourBars name={w.title} what={w.what} unit={w.loads} bars={hours.map(({ from, loads }) => ({ from, value: loads }))} gaps={gaps}
        summary={w.summary(hours.map(({ from, loads }) => `${clock(from)} ${loads}`), gapSaid)} head={w.head} rows={() => hours.map(({ from, loads, mass: kg }) => [clock(from), String(loads), mass(kg)])} />
    </section>
  );
}

function DayTable({ day, midnight }: { readonly day: DayOfLoads; readonly midnight: number }) {
  const words = ticketWords.told;
  const { figures } = words;
  const rate = (label: string, value: number | null, unit: string): string[][] => (value === null ? [] : [[label, measured(value, unit), "", words.tickets(day.loads)]]);
  const spread = (label: string, value: Spread | null, unit: string, from: (n: number) => string, digits = 1): string[][] =>
    (value === null ? [[label, words.notTold, "", ""]] : [[label, measured(value.mean, unit, digits), value.sd === null ? "" : measured(value.sd, unit, digits), from(value.n)]]);
  const rows = [
    [figures.period, words.period(clock(day.first - midnight), clock(day.last - midnight)), "", words.tickets(day.loads)],
    [figures.loads, formatNumber(day.loads, 0), "", ""],
    [figures.tonnes, measured(day.tonnes, "t"), "", words.tickets(day.loads)],
    ...rate(figures.loadsPerHour, day.loadsPerHour, "1"), ...rate(figures.tonnesPerHour, day.tonnesPerHour, "t/h"), ...rate(figures.steadyPace, day.steadyPace, "t/h"),
    ...spread(figures.load, day.load, "t", words.tickets, 2), ...spread(figures.cycle, day.cycle, "min", words.rounds), ...spread(figures.stay, day.stay, "min", words.tickets), ...spread(figures.between, day.between, "min", words.gaps),
  ];
  return (
    <div>
      <div class="scroll" tabIndex={0} role="group" aria-label={words.title}>
        <table class="wraps">
          <thead><tr>{words.head.map((text, i) => <th key={text} scope="col" class={i === 0 ? "left" : ""}>{text}</th>)}</tr></thead>
          <tbody>{rows.map(([label, ...cells]) => <tr key={label}><th scope="row" class="left">{label}</th>{cells.map((text, i) => <td key={i}>{text}</td>)}</tr>)}</tbody>
        </table>
      </div>
      <p class="quiet">{words.spreadNote}</p>
      {day.gaps.length > 0 && (
        <>
          <h3>{words.gapsTitle}</h3>
          <ul>{day.gaps.slice(0, GAPS).map(({ from, to, worked }) => <li key={from}>{words.gap(clock(from - midnight), clock(to - midnight), span(worked))}</li>)}</ul>
        </>
      )}
    </div>
  );
}

function Parts({ name, parts }: { readonly name: string; readonly parts: readonly Part[] }) {
  const words = ticketWords.told;
  if (parts.every((part) => part.name === null)) return null;
  return (
    <div>
      <h3>{name}</h3>
      <div class="scroll" tabIndex={0} role="group" aria-label={name}>
        <table>
          <thead><tr><td /><th scope="col">{words.partHead[1]}</th><th scope="col">{words.partHead[2]}</th></tr></thead>
          <tbody>{parts.map((part) => <tr key={part.name}><th scope="row" class="left">{part.name ?? words.nobody}</th><td>{part.loads}</td><td>{measured(part.tonnes, "t")}</td></tr>)}</tbody>
        </table>
      </div>
    </div>
  );
}
