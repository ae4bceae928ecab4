/** The rest of the day drawn: it begins as the crew told it, and can be played to its end. */
import { computed } from "@preact/signals";
import { momentAt } from "../../sim/harvest/moment.ts";
import { Strip } from "../drawings/Strip.tsx";
import { nowRows } from "../page/Day.tsx";
import { PlayButton, SpeedChoice } from "../page/Replay.tsx";
import { UnderPicture } from "../page/TableTwin.tsx";
import { playerOf } from "../player.ts";
import { clock } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";
import { cursor, units } from "../state.ts";
import { words as common } from "../words.ts";
import { noonWords } from "../words/noon.ts";
import { answer } from "./rest.ts";

const span = computed(() => answer.value?.story.replay.day ?? null);
const at = computed(() => Math.min(span.value?.until ?? 0, Math.max(span.value?.from ?? 0, cursor.value ?? 0)));
const player = playerOf(() => span.value, at);

export function RestDay({ story }: { readonly story: Rehearsed }) {
  const { title, what } = noonWords.replay;
  const { from, until } = story.replay.day;
  const moment = momentAt(story.replay, at.value);
  return (
    <figure class="screen-only" data-picture>
      <figcaption><h3>{title}</h3><p class="quiet">{what}</p></figcaption>
      <div class="clock-row">
        <p class="clock" aria-live="off">{clock(at.value)}</p>
        <div class="replay" role="group" aria-label={common.replay.title}><PlayButton player={player} /><SpeedChoice /></div>
      </div>
      <input class="scrub" type="range" min={from} max={until} step={60} value={at.value} aria-label={common.replay.scrub} aria-valuetext={clock(at.value)} onInput={(event) => player.goTo(Number(event.currentTarget.value))} />
      <Strip rehearsed={story} moment={moment} units={units.value} />
      <UnderPicture name={title} head={common.nowHead} inWords={[0, 1]} rows={() => nowRows(story, moment, units.value)} />
    </figure>
  );
}
