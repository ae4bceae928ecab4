/** Every start that was tried: how much of the crop is cut inside the window, too wet before it, too dry behind it. */
import { scaleBand, scaleLinear } from "d3";
import { formatNumber } from "../../sim/scenario/units.ts";
import type { TriedStart, WhenToStart } from "../../sim/study/campaignstart.ts";
import { put } from "../document.ts";
import { UnderPicture } from "../page/TableTwin.tsx";
import { change } from "../plan/Slot.tsx";
import { percent, shownIn, unitName } from "../quantity.ts";
import { units } from "../state.ts";
import { ON_PAPER, useWidth } from "../useWidth.ts";
import { campaignWords } from "../words/campaign.ts";
import { DATE, short } from "./dates.ts";

const HEIGHT = 220;
const TOP = 26;
const FOOT = 40;
const LEFT = 40;
/** px that one start takes at the most: the first one tried is not all of them. */
const WIDEST = 96;

export interface StartsProps {
  readonly tried: readonly TriedStart[];
  /** null while more are being tried */ readonly found: WhenToStart | null;
  /** as planned */ readonly starts: string;
  readonly currency: string | null;
}

export function Starts({ tried, found, starts, currency }: StartsProps) {
  const words = campaignWords.tried;
  const [ref, width] = useWidth<HTMLDivElement>(ON_PAPER.whole);
  const x = scaleBand(tried.map((each) => each.starts), [LEFT, Math.max(LEFT + 1, Math.min(width, LEFT + tried.length * WIDEST))]).paddingInner(0.25).paddingOuter(0.1);
  const y = scaleLinear([0, 1], [HEIGHT - FOOT, TOP]);
  const named = (each: string) => [each === found?.best.starts && words.best, each === found?.latest?.starts && words.latest, each === starts && words.planned].filter((name) => name !== false);
  const every = Math.max(1, Math.ceil(DATE / Math.max(1, x.step())));
  return (
    <figure data-picture class="starts">
      <figcaption><h2>{words.title}</h2><p>{words.what}</p></figcaption>
      <p class="quiet keys">{([["swatch side-inside", words.inside], ["swatch side-wet", words.wet], ["swatch side-dry", words.dry], ["swatch-line", words.ends]] as const).map(([mark, name]) => <span key={name}><span class={mark} /> {name}</span>)}</p>
      <div ref={ref}>
        {width > 0 && (
          <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} role="img" aria-label={words.summary(tried.map((each) => words.part(each.starts, `${percent(each.inside)} %`)))}>
            {[0, 0.5, 1].map((share) => (
              <g key={share}><line class="hairline" x1={LEFT} x2={width} y1={y(share)} y2={y(share)} /><text class="tick" x={LEFT - 6} y={y(share) + 5} text-anchor="end">{percent(share)}</text></g>
            ))}
            {tried.map((each, i) => {
              const left = x(each.starts)!;
              const middle = left + x.bandwidth() / 2;
              return (
                <g key={each.starts}>
                  <rect class="side-inside" x={left} width={x.bandwidth()} y={y(each.inside)} height={y(0) - y(each.inside)} />
                  <rect class="side-wet" x={left} width={x.bandwidth()} y={y(each.inside + each.tooWet)} height={y(0) - y(each.tooWet)} />
                  <rect class="side-dry" x={left} width={x.bandwidth()} y={y(each.inside + each.tooWet + each.tooDry)} height={y(0) - y(each.tooDry)} />
                  <line class="ends-inside" x1={left - 3} x2={left + x.bandwidth() + 3} y1={y(each.endsInside)} y2={y(each.endsInside)} />
                  {i % every === 0 && <text class="tick" x={Math.min(middle, width - DATE / 2)} y={HEIGHT - FOOT + 18} text-anchor="middle">{short(each.starts)}</text>}
                  {named(each.starts).length > 0 && <path class="mark-start" d={`M${middle - 5},${TOP - 12}h10l-5,8z`} />}
                </g>
              );
            })}
          </svg>
        )}
      </div>
      <p class="quiet">{tried.filter((each) => named(each.starts).length > 0).map((each) => `${each.starts}: ${named(each.starts).join(", ")}.`).join(" ")}</p>
      {found?.by === "day" && found.best.starts !== starts && <p class="screen-only"><button type="button" onClick={() => change((now) => put(now, ["campaign", "starts"], found.best.starts))}>{words.take(found.best.starts)}</button></p>}
      <UnderPicture name={words.title} head={[...words.head, ...(currency === null ? [] : [words.cost(currency, unitName("mass", units.value))])]} rows={() => tried.map((each) => [
        each.starts, ...[each.inside, each.tooWet, each.tooDry, each.endsInside, each.allIn].map((share) => percent(share)),
        ...(currency === null ? [] : [each.costPerDryTonne === null ? "" : formatNumber(each.costPerDryTonne / shownIn(1000, "mass", units.value), 2)]),
      ])} />
    </figure>
  );
}
