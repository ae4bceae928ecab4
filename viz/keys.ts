/** The day by keyboard, the same on the strip, on the time line and on every picture over time. */
import { goTo, step, toggle } from "./player.ts";
import { hold, holdNext } from "./pointing.ts";
import { rehearsed, time } from "./state.ts";

/** s that an arrow key moves the time, and that a page key does. */
const ARROW = 60;
const PAGE = 900;

const MOVES: Readonly<Record<string, number>> = {
  ArrowRight: ARROW, ArrowUp: ARROW, ArrowLeft: -ARROW, ArrowDown: -ARROW, PageUp: PAGE, PageDown: -PAGE, Home: -Infinity, End: Infinity,
};
const DOES: Readonly<Record<string, (event: KeyboardEvent) => void>> = {
  " ": toggle, n: () => step(1), p: () => step(-1), t: (event) => holdNext(event.shiftKey ? -1 : 1), escape: () => hold(null),
};

/** Keys with control, alt or command held belong to the browser. */
export function byKey(event: KeyboardEvent): void {
  const day = rehearsed.value?.replay.day;
  if (!day || event.ctrlKey || event.altKey || event.metaKey) return;
  const by = MOVES[event.key];
  const does = DOES[event.key.toLowerCase()];
  if (by !== undefined) goTo(Math.min(day.until, Math.max(day.from, Math.round(time.value / ARROW) * ARROW + by)));
  else if (does) does(event);
  else return;
  event.preventDefault();
}
