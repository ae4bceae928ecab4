/** Play, pause, step, scrub, speed: ways to move the one time cursor. */
import { byKey } from "../keys.ts";
import { clock } from "../quantity.ts";
import { goTo, playing, speed, step, toggle, type Player } from "../player.ts";
import { cursor, rehearsed, time } from "../state.ts";
import { words } from "../words.ts";
import { pictures } from "../words/pictures.ts";

export function ReplayButtons() {
  return (
    <div class="replay" role="group" aria-label={words.replay.title}>
      <PlayButton player={{ playing, toggle }} />
      <button type="button" onClick={() => step(-1)}>{words.replay.back}</button>
      <button type="button" onClick={() => step(1)}>{words.replay.forward}</button>
      <SpeedChoice />
      {cursor.value !== null && !playing.value && <button type="button" class="plain" onClick={() => { cursor.value = null; }}>{words.replay.telling}</button>}
      <p class="quiet how">{pictures.pointHere} <span class="keys" id="keys">{pictures.keys}</span></p>
    </div>
  );
}

export function PlayButton({ player: { playing: on, toggle: turn } }: { readonly player: Pick<Player, "playing" | "toggle"> }) {
  return <button type="button" class="play" onClick={turn}>{on.value ? words.replay.pause : words.replay.play}</button>;
}

export function SpeedChoice() {
  return (
    <label class="speed">
      <span>{words.replay.speed}</span>
      <select value={String(speed.value)} onChange={(event) => { speed.value = Number(event.currentTarget.value); }}>
        {Object.entries(words.replay.speeds).map(([value, text]) => <option key={value} value={value}>{text}</option>)}
      </select>
    </label>
  );
}

/** The slider of the day; it stands right above the charts and has their time axis. */
export function Scrubber() {
  const day = rehearsed.value?.replay.day;
  if (!day) return null;
  return (
    <input class="scrub" type="range" min={day.from} max={day.until} step="any" value={time.value}
      aria-label={words.replay.scrub} aria-valuetext={clock(time.value)} aria-describedby="keys"
      onInput={(event) => goTo(Number(event.currentTarget.value))} onKeyDown={byKey} />
  );
}
