/** Small columns side by side, all to one scale, one a number; a line across all of them where there is something to reach. */

export interface Column {
  readonly count: number;
  /** written over it */ readonly over: string;
  /** written under its number */ readonly foot: string | null;
  /** its name where the picture is told in words */ readonly said: string;
  /** class and share of the whole height, from below */ readonly parts: readonly (readonly [look: string, share: number])[];
  /** the whole height is outlined, and means something */ readonly frame: boolean;
}

interface ColumnsProps { readonly columns: readonly Column[]; readonly line: { readonly at: number; readonly said: string } | null; readonly width: number; readonly name: string }

/** px */
const HEIGHT = 152;
const TOP = 24;
const FOOT = 44;
const LEAST = 60;
const MOST = 110;

export function Columns({ columns, line, width, name }: ColumnsProps) {
  const step = Math.min(MOST, Math.max(LEAST, width / columns.length));
  const bar = Math.min(56, step - 20);
  const whole = Math.max(width, step * columns.length);
  const y = (share: number) => TOP + (1 - share) * HEIGHT;
  return (
    <div class="scroll" tabIndex={0} role="group" aria-label={name}>
      <svg width={whole} height={TOP + HEIGHT + FOOT} viewBox={`0 0 ${whole} ${TOP + HEIGHT + FOOT}`} role="img" aria-label={`${name}. ${columns.map(({ said, over, foot }) => `${said}: ${over}${foot === null ? "" : `, ${foot}`}`).join("; ")}.`}>
        {columns.map(({ count, over, foot, parts, frame }, i) => {
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
              <text class={foot === null ? "label middle" : "label middle strong"} x={middle} y={TOP + HEIGHT + 18}>{count}</text>
              {foot !== null && <text class="label label-quiet middle" x={middle} y={TOP + HEIGHT + 36}>{foot}</text>}
            </g>
          );
        })}
        <path class="ground" d={`M0,${TOP + HEIGHT} H${step * columns.length}`} />
        {line && <><path class="target" d={`M0,${y(line.at)} H${step * columns.length}`} /><text class="label" x={0} y={y(line.at) + 16}>{line.said}</text></>}
      </svg>
    </div>
  );
}
