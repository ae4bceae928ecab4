/** Plays the day: moves the cursor with the clock of the screen. Nothing is simulated here. */
import { signal } from "@preact/signals";
import { nextChange } from "../sim/harvest/replay.ts";
import { cursor, rehearsed, time } from "./state.ts";

export const playing = signal(false);
/** s of the day in one second */ export const speed = signal(300);

export function toggle(): void {
  if (playing.value) {
    playing.value = false;
    return;
  }
  const day = rehearsed.value?.replay.day;
  if (!day) return;
  if (time.value >= day.until) cursor.value = day.from;
  playing.value = true;
  requestAnimationFrame(begin);
}

/** Goes to a time, s after midnight, and stays there. */
export function goTo(seconds: number): void {
  playing.value = false;
  cursor.value = seconds;
}

/** To the next or the last change of what some machine does. */
export function step(way: 1 | -1): void {
  if (rehearsed.value) goTo(nextChange(rehearsed.value.replay, time.value, way));
}

/** Who asked for less motion sees the day in stills, one a second. */
const stills = matchMedia("(prefers-reduced-motion: reduce)");

function begin(last: number): void {
  const frame = (now: number): void => {
    const day = rehearsed.value?.replay.day;
    if (!playing.value || !day) return;
    if (stills.matches && now - last < 1000) {
      requestAnimationFrame(frame);
      return;
    }
    // A tab that was away for a while goes on where it was.
    const passed = Math.min(now - last, stills.matches ? 1000 : 100) / 1000;
    last = now;
    cursor.value = Math.min(day.until, Math.round((time.value + passed * speed.value) * 100) / 100);
    if (cursor.value >= day.until) playing.value = false;
    else requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
}
