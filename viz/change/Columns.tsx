/** Small columns side by side, all to one scale, one a number; a line across all of them where there is something to reach. */

export interface Column {
  readonly count: number;
  /** the one that the plan has */ readonly isNow: boolean;
  /** written over it */ readonly over: string;
  /** written under its number, line by line */ readonly foot: readonly string[];
  /** its name where the picture is told in words */ readonly said: string;
  /** class and share of the whole height, from below */ readonly parts: readonly (readonly [look: string, share: number])[];
  /** the whole height is outlined, and means something */ readonly frame: boolean;
}

interface ColumnsProps { readonly columns: readonly Column[]; readonly line: { readonly at: number; readonly said: string } | null; readonly width: number; readonly name: string }

/** px */
const HEIGHT = 152;
const TOP = 24;
const FOOT = 26;
const FOOT_LINE = 18;
const LEAST = 74;
const MOST = 110;
/** What is written at the end of the line. */
const SAID = 84;

export function Columns({ columns, line, width, name }: ColumnsProps) {
  const margin = line ? SAID : 0;
  const step = Math.min(MOST, Math.max(LEAST, (width - margin) / columns.length));
  const bar = Math.min(56, step - 20);
  const end = step * columns.length;
  const whole = Math.max(width, end + margin);
  const height = TOP + HEIGHT + FOOT + FOOT_LINE * Math.max(...columns.map(({ foot }) => foot.length));
  const y = (share: number) => TOP + (1 - share) * HEIGHT;
  return (
    <div class="scroll" tabIndex={0} role="group" aria-label={name}>
      <svg width={whole} height={height} viewBox={`0 0 ${whole} ${height}`} role="img" aria-label={`${name}. ${columns.map(({ said, over, foot }) => [`${said}: ${over}`, ...foot].join(", ")).join("; ")}.`}>
        {columns.map(({ count, isNow, over, foot, parts, frame }, i) => {
          const middle = (i + 0.5) * step;
          let below = 0;
          return (
            <g key={count}>
              {parts.map(([look, share]) => {
                below += Math.max(0, share);
                return <rect key={look} class={look} x={middle - bar / 2} y={y(below)} width={bar} height={Math.max(0, share) * HEIGHT} />;
              })}
              {frame && <rect class="part-whole" x={middle - bar / 2} y={TOP} width={bar} height={HEIGHT} />}
              <text class="label middle" x={middle} y={(frame ? TOP : Math.min(y(below), line ? y(line.at) : HEIGHT)) - 8}>{over}</text>
              <text class={isNow ? "label middle strong" : "label middle"} x={middle} y={TOP + HEIGHT + 18}>{count}</text>
              {foot.map((text, l) => <text key={text} class="label label-quiet middle" x={middle} y={TOP + HEIGHT + 36 + l * FOOT_LINE}>{text}</text>)}
            </g>
          );
        })}
        <path class="ground" d={`M0,${TOP + HEIGHT} H${end}`} />
        {line && <><path class="target" d={`M0,${y(line.at)} H${end}`} /><text class="label" x={end + 6} y={y(line.at) + 5}>{line.said}</text></>}
      </svg>
    </div>
  );
}
