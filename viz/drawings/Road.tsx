/** The road, true to scale: loaded trucks on the upper line, empty ones on the lower, a mark for every so many minutes of loaded driving. */
import { range } from "d3";
import { GAP } from "../ground.ts";
import { words } from "../words.ts";

/** px from one number to the next, at the least: the first has the unit behind it. */
const NUMBER_ROOM = 44;

interface RoadProps {
  readonly from: number;
  readonly until: number;
  readonly y: number;
  /** s, loaded, from one end to the other */ readonly seconds: number;
  readonly label: string;
}

export function Road({ from, until, y, seconds, label }: RoadProps) {
  const minutes = seconds / 60;
  const each = [1, 2, 5, 10, 20].find((step) => minutes / step <= 8 && ((until - from) * step) / minutes >= NUMBER_ROOM) ?? 30;
  const low = y + GAP.lane;
  return (
    <g>
      <path class="ground" d={`M${from},${y} H${until}`} />
      <path class="ground ground-low" d={`M${from},${low} H${until}`} />
      {range(0, minutes + 1e-6, each).map((minute) => {
        const x = from + ((until - from) * minute) / minutes;
        return (
          <g key={minute}>
            <path class="tick" d={`M${x},${low} v5`} />
            {until - from > 150 && <text class="label label-quiet" x={minute === 0 ? x - 4 : x} y={low + 18} text-anchor={minute === 0 ? "start" : until - x < NUMBER_ROOM / 3 ? "end" : "middle"}>{minute === 0 ? words.strip.fromZero : minute}</text>}
          </g>
        );
      })}
      <text class="label label-quiet" x={until - 8} y={y + 82} text-anchor="end">{label}</text>
    </g>
  );
}
