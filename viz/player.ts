/** Plays a day: moves a time with the clock of the screen. Nothing is simulated here. */
import { signal, type ReadonlySignal, type Signal } from "@preact/signals";
import { nextChange } from "../sim/harvest/replay.ts";
import { cursor, rehearsed, time } from "./state.ts";

/** s of the day in one second, as the reader has chosen. */
export const speed = signal(300);

export interface Player {
  readonly playing: Signal<boolean>;
  /** Plays or stops; from the beginning when the time is at the end. */
  toggle(): void;
  /** Goes to a time, s after midnight, and stays there. */
  goTo(seconds: number): void;
}

/** Who asked for less motion sees the day in stills, one a second. */
const stills = matchMedia("(prefers-reduced-motion: reduce)");

/**
 * @param day when it begins and ends, s after midnight; null while there is none
 * @param at the time shown; the player moves it by writing `to`, the page's cursor unless told otherwise
 * @param pace s of the day in one second; the reader's choice unless told otherwise
 */
export function playerOf(day: () => { readonly from: number; readonly until: number } | null, at: ReadonlySignal<number>, to: Signal<number | null> = cursor, pace: ReadonlySignal<number> = speed): Player {
  const playing = signal(false);

  function begin(last: number): void {
    const frame = (now: number): void => {
      const span = day();
      if (!playing.value || !span) return;
      if (stills.matches && now - last < 1000) {
        requestAnimationFrame(frame);
        return;
      }
      // A tab that was away for a while goes on where it was.
      const passed = Math.min(now - last, stills.matches ? 1000 : 100) / 1000;
      last = now;
      to.value = Math.min(span.until, Math.round((at.value + passed * pace.value) * 100) / 100);
      if (to.value >= span.until) playing.value = false;
      else requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  }

  return {
    playing,
    toggle() {
      if (playing.value) {
        playing.value = false;
        return;
      }
      const span = day();
      if (!span) return;
      if (at.value >= span.until) to.value = span.from;
      playing.value = true;
      requestAnimationFrame(begin);
    },
    goTo(seconds) {
      playing.value = false;
      to.value = seconds;
    },
  };
}

/** Plays the day of the plan. */
export const { playing, toggle, goTo } = playerOf(() => rehearsed.value?.replay.day ?? null, time);

/** To the next or the last change of what some machine does. */
export function step(way: 1 | -1): void {
  if (rehearsed.value) goTo(nextChange(rehearsed.value.replay, time.value, way));
}
