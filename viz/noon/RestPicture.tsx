/** What still gets done and when, on the rest of the day's own time line: a bar a field, the spread of the end, the times that decide. */
import { scaleLinear } from "d3";
import type { RestOfDay } from "../../sim/findings/types.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { UnderPicture } from "../page/TableTwin.tsx";
import { clock, quantity, secondsOfClock } from "../quantity.ts";
import { units } from "../state.ts";
import { useWidth } from "../useWidth.ts";
import { noonWords } from "../words/noon.ts";

const ROW = 44;
const BAR = 10;
const TOP = 40;
const SIDE = 8;
/** Room for a name at the foot of an upright, px. */
const NAME = 76;

interface RestPictureProps { readonly rest: RestOfDay; readonly scenario: Scenario }

/** s after midnight of the engine's clock, which counts days past midnight. */
export function secondsOf(said: string): number {
  const [, time, days] = /^(\d\d:\d\d)(?: \(\+(\d+) days?\))?$/.exec(said)!;
  return secondsOfClock(time!)! + Number(days ?? 0) * 86_400;
}

export function RestPicture({ rest, scenario }: RestPictureProps) {
  const { picture } = noonWords;
  const [ref, width] = useWidth<HTMLDivElement>();
  const from = secondsOf(rest.from);
  const { early, median, late } = rest.closedAt;
  const end = scenario.shift.end;
  const until = Math.max(end, secondsOf(late)) + 900;
  const x = scaleLinear([from, until], [SIDE, Math.max(SIDE + 1, width - SIDE)]);
  const fields = rest.fields.filter(({ standingT }) => standingT > 0);
  const height = TOP + (fields.length + 1) * ROW + 24;
  const mass = (t: number) => quantity(t * 1000, "mass", units.value);
  const said = (field: RestOfDay["fields"][number]) => (field.doneAt === null ? `${field.name}: ${picture.left(mass(field.leftT))}` : picture.done(field.name, field.doneAt, field.doneOn));
  const closed = `${picture.closed}: ${median}${early === late ? "" : ` (${early}–${late})`}`;
  const hours = Array.from({ length: Math.floor(until / 3600) - Math.ceil(from / 3600) + 1 }, (_, i) => (Math.ceil(from / 3600) + i) * 3600);
  const every = Math.max(1, Math.ceil((hours.length * 64) / Math.max(1, width)));
  const uprights = [{ at: end, name: picture.shift }, ...(rest.stopCutting.at === null ? [] : [{ at: secondsOf(rest.stopCutting.at), name: picture.stop }])];
  return (
    <figure class="rest-picture" data-picture>
      <figcaption><h3>{picture.title}</h3></figcaption>
      <div ref={ref}>
        {width > 0 && (
          <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={picture.summary(rest.from, [...fields.map(said), closed])}>
            {hours.map((hour, i) => i % every === 0 && <text key={hour} class="tick" x={Math.min(Math.max(x(hour), 22), width - 22)} y={height - 6} text-anchor="middle">{clock(hour)}</text>)}
            <line class="axis" x1={SIDE} x2={width - SIDE} y1={height - 22} y2={height - 22} />
            {uprights.map(({ at, name }, i) => (
              <g key={name} class="upright">
                <line x1={x(at)} x2={x(at)} y1={TOP - 8 - 12 * i} y2={height - 22} />
                <text x={Math.min(x(at), width - NAME)} y={TOP - 12 - 12 * i} text-anchor={x(at) > width - NAME ? "start" : "end"} dx={x(at) > width - NAME ? 0 : -4}>{name}</text>
              </g>
            ))}
            {fields.map((field, i) => {
              const to = field.doneAt === null ? Math.min(end, until) : secondsOf(field.doneAt);
              return (
                <g key={field.name} transform={`translate(0 ${TOP + i * ROW})`}>
                  <text x={SIDE} y={14}>{said(field)}</text>
                  <rect class={field.doneOn === 0 ? "field-bar unfinished" : "field-bar"} x={x(from)} y={20} width={Math.max(1, x(to) - x(from))} height={BAR} />
                </g>
              );
            })}
            <g transform={`translate(0 ${TOP + fields.length * ROW})`}>
              <text x={SIDE} y={14}>{closed}</text>
              <line class="spread" x1={x(secondsOf(early))} x2={x(secondsOf(late))} y1={25} y2={25} />
              <line class="median" x1={x(secondsOf(median))} x2={x(secondsOf(median))} y1={18} y2={32} />
            </g>
          </svg>
        )}
      </div>
      <UnderPicture name={picture.title} head={picture.head} rows={() => [
        ...rest.fields.map((field) => [field.name, mass(field.standingT), field.doneAt ?? "", picture.of100(field.doneOn), mass(field.leftT)]),
        [picture.closed, "", median, "", ""],
      ]} />
    </figure>
  );
}
