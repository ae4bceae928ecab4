/** The campaign that is shown, day by day: how dry each field was cut against the window, what came in, and how the storages filled. */
import { max, min, scaleBand, scaleLinear } from "d3";
import { dateOf, dayOf } from "../../sim/scenario/dates.ts";
import type { PlannedCampaigns, ToldDay } from "../../sim/study/campaigns.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { UnderPicture } from "../page/TableTwin.tsx";
import { number, percent, quantity, shownIn, unitName } from "../quantity.ts";
import { units } from "../state.ts";
import { ON_PAPER, useWidth } from "../useWidth.ts";
import { campaignWords } from "../words/campaign.ts";
import { DATE, short } from "./dates.ts";

const LEFT = 44;
const DRY = 170;
const MASS = 110;
const FILL = 54;
const TOP = 24;
const FOOT = 26;
/** A field's row, and from which width of a day on it is named on every day, px. */
const ROW = 30;
const ROOMY = 120;
/** The row of the finish, px. */
const FINISH = 40;
/** Room for a name over its row, px. */
const NAME = 24;

/** Where nothing was stored there is no window to draw. */
const NO_WINDOW = [0, 0] as const;

const dryMatterIn = (share: number): string => percent(share, 1);

/** Storages by farm and name, each with how full it is after every day on which it is told of. */
function fills(days: readonly ToldDay[]): { readonly name: string; readonly farm: string; readonly after: readonly number[] }[] {
  const names = new Map(days.flatMap(({ farm, storages }) => storages.map(({ name }) => [`${farm}\n${name}`, { farm, name }] as const)));
  return [...names.values()].map(({ farm, name }) => {
    let full = 0;
    return { farm, name, after: days.map((day) => (full = (day.farm === farm ? day.storages.find((each) => each.name === name)?.filled : undefined) ?? full)) };
  }).filter(({ after }) => after.at(-1)! > 0);
}

/** Every day of the calendar from the first one shown to the last on which the harvest may end. */
function datesOf(days: readonly ToldDay[], late: string | undefined): string[] {
  const [from, to] = [dayOf(days[0]!.date)!, Math.max(dayOf(days.at(-1)!.date)!, late === undefined ? 0 : dayOf(late.slice(0, 10))!)];
  return Array.from({ length: to - from + 1 }, (_, i) => dateOf(from + i));
}

export function Calendar({ result }: { readonly result: PlannedCampaigns }) {
  const { shown: { days }, storages, farms, finish } = result;
  const words = campaignWords.calendar;
  const [ref, width] = useWidth<HTMLDivElement>(ON_PAPER.whole);
  const cut = days.flatMap(({ date, fields }) => fields.map((field) => ({ date, ...field })));
  const windowOf = (farm: string) => (storages.find((each) => each.farm === farm) ?? storages[0])?.window ?? NO_WINDOW;
  const ends = [...days.flatMap(({ farm }) => windowOf(farm)), ...cut.map(({ dryMatter }) => dryMatter)];
  const filling = fills(days);
  const dates = datesOf(days, finish?.late);
  const fields = [...new Map(days.flatMap(({ farm, fields: cut }) => cut.map(({ name }) => [`${farm}\n${name}`, { farm, name }] as const))).values()];
  const x = scaleBand(dates, [LEFT, Math.max(LEFT + 1, width)]).paddingInner(0.2).paddingOuter(0.1);
  const y = scaleLinear([(min(ends) ?? 0) - 0.02, (max(ends) ?? 1) + 0.02], [TOP + DRY, TOP]).nice();
  const fieldTop = TOP + DRY + 14;
  const massTop = fieldTop + fields.length * ROW + 34;
  const mass = scaleLinear([0, max(days, ({ freshT }) => shownIn(freshT * 1000, "mass", units.value)) || 1], [massTop + MASS, massTop]).nice(3);
  const fillTop = massTop + MASS + 16;
  const finishTop = fillTop + filling.length * FILL;
  const height = finishTop + (finish ? FINISH : 0) + FOOT;
  const moment = (said: string) => {
    const [date, hours, minutes] = said.split(/[ :]/) as [string, string, string];
    return x(date)! + ((Number(hours) + Number(minutes) / 60) / 24) * x.bandwidth();
  };
  const called = (name: string, farm: string) => (farms.length > 1 ? `${name}, ${farm}` : name);
  const unit = unitName("mass", units.value);
  const every = Math.max(1, Math.ceil(DATE / Math.max(1, x.step())));
  const said = (day: ToldDay) => (day.lost ? words.lost : [...day.fields.map(({ name, dryMatter, side }) => words.field(name, dryMatterIn(dryMatter), side)), quantity(day.freshT * 1000, "mass", units.value)].join("; "));
  return (
    <figure data-picture class="calendar">
      <figcaption><h2>{words.title}</h2><p>{result.campaigns > 1 ? words.shown : words.one}</p></figcaption>
      <div ref={ref}>
        {width > 0 && (
          <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={words.summary(days.length, days.filter(({ lost }) => lost).length, days.map((day) => words.day(day.date, said(day))).join(". "))}>
            <text class="panel" x={0} y={TOP - 10}>{words.dryMatter}</text>
            {dates.map((date) => {
              const [low, high] = windowOf((days.find((day) => day.date === date) ?? days.at(-1)!).farm);
              return <rect key={date} class="window" x={x(date)! - (x.step() - x.bandwidth()) / 2} width={x.step()} y={y(high)} height={y(low) - y(high)} />;
            })}
            <text class="tick" x={width - 4} y={y(windowOf(days.at(-1)!.farm)[1]) + 16} text-anchor="end">{words.window}</text>
            {y.ticks(4).map((tick) => <g key={tick}><line class="hairline" x1={LEFT} x2={width} y1={y(tick)} y2={y(tick)} /><text class="tick" x={LEFT - 6} y={y(tick) + 5} text-anchor="end">{Math.round(100 * tick)}</text></g>)}
            <text class="panel" x={0} y={massTop - 10}>{words.delivered(unit)}</text>
            {mass.ticks(2).map((tick) => <g key={tick}><line class="hairline" x1={LEFT} x2={width} y1={mass(tick)} y2={mass(tick)} /><text class="tick" x={LEFT - 6} y={mass(tick) + 5} text-anchor="end">{tick.toLocaleString("en")}</text></g>)}
            {dates.map((date, i) => i % every === 0 && <text key={date} class="tick" x={Math.min(x(date)! + x.bandwidth() / 2, width - DATE / 2)} y={height - 6} text-anchor="middle">{short(date)}</text>)}
            {days.map((day, i) => {
              const left = x(day.date)!;
              const bars = shownIn(day.freshT * 1000, "mass", units.value);
              return (
                <g key={day.date}>
                  {day.lost && <><rect fill="url(#pause)" x={left} width={x.bandwidth()} y={TOP} height={massTop + MASS - TOP} /><text class="tick" x={left + x.bandwidth() / 2} y={massTop + MASS - 6} text-anchor="middle">{words.rain}</text></>}
                  <rect class="mass-bar" x={left} width={x.bandwidth()} y={mass(bars)} height={massTop + MASS - mass(bars)} />
                  {day.fields.map(({ name, dryMatter, side }) => <circle key={name} class={side === "inside" ? "cut-inside" : "cut-outside"} cx={left + x.bandwidth() / 2} cy={y(dryMatter)} r={6}><title>{words.field(name, dryMatterIn(dryMatter), side)}</title></circle>)}
                  {day.fields.map(({ name, dryMatter, side }) => {
                    const row = fields.findIndex((each) => each.name === name && each.farm === day.farm);
                    const base = fieldTop + (row + 1) * ROW;
                    const isFirst = days.findIndex((each) => each.farm === day.farm && each.fields.some((field) => field.name === name)) === i;
                    const isLate = x.bandwidth() < ROOMY && left > (LEFT + width) / 2;
                    return (
                      <g key={name}>
                        {(isFirst || x.bandwidth() >= ROOMY) && <text class="tick" x={isLate ? left + x.bandwidth() : left} y={base - 11} text-anchor={isLate ? "end" : "start"}>{words.cut(called(name, day.farm), dryMatterIn(dryMatter))}</text>}
                        <rect class={side === "inside" ? "cut-inside" : "cut-outside"} x={left} width={x.bandwidth()} y={base - 7} height={6} />
                      </g>
                    );
                  })}
                </g>
              );
            })}
            {filling.map(({ farm, name, after }, s) => {
              const base = fillTop + (s + 1) * FILL - 4;
              return (
                <g key={farm + name}>
                  <text class="tick" x={0} y={base - FILL + NAME - 4}>{words.filled(called(name, farm))}: {percent(after.at(-1)!)} %</text>
                  {days.map(({ date }, i) => <rect key={date} class="fill-bar" x={x(date)!} width={x.bandwidth()} y={base - Math.min(1, after[i]!) * (FILL - NAME)} height={Math.min(1, after[i]!) * (FILL - NAME)} />)}
                  <line class="hairline" x1={LEFT} x2={width} y1={base} y2={base} />
                </g>
              );
            })}
            {finish && (
              <g>
                <text class="tick" x={0} y={finishTop + 16}>{result.campaigns > 1 ? words.spread(short(finish.early), short(finish.late)) : words.allIn(short(finish.median))}</text>
                <line class="finish" x1={moment(finish.early)} x2={moment(finish.late)} y1={finishTop + 28} y2={finishTop + 28} />
                <circle class="finish-median" cx={moment(finish.median)} cy={finishTop + 28} r={5} />
              </g>
            )}
          </svg>
        )}
      </div>
      <UnderPicture name={words.title} head={words.head(unit, unitName("density", units.value), result.cost?.currency ?? null)} inWords={[0, 1, 2, 9]} rows={() => days.map((day) => [
        day.date, day.farm, day.lost ? words.lost : day.fields.map(({ name, dryMatter, side }) => words.field(name, dryMatterIn(dryMatter), side)).join("; "), day.lost ? "" : String(day.loads),
        number(day.freshT * 1000, "mass", units.value), day.dryMatter === null ? "" : dryMatterIn(day.dryMatter), day.density === null ? "" : number(day.density, "density", units.value), day.closedAt ?? "", day.lost ? "" : formatNumber(day.cost, 0),
        day.storages.filter(({ filled }) => filled > 0).map(({ name, filled }) => words.storage(name, `${percent(filled)} %`)).join(", "),
      ])} />
    </figure>
  );
}
