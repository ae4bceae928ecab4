/**
 * How quick the page is, in figures to read and not to pass or fail by: `npx tsx tests/browser/measure.ts`. They hang on the machine
 * and on what else it does. The server runs from source on this process's own thread.
 */
import type { Page } from "playwright-core";
import { setStage } from "./stage.ts";

const MOVES = 40;
/** s of playing */ const PLAYED = 5;

/** Moves before the counted ones: a first run of anything takes longer than its tenth. */
const WARMING = 10;

/** ms from a slider's move to a verdict that says something else, sorted. Every move asks for a plan that was never asked for, so that no answer is kept from before. */
async function verdictTimes(page: Page, id: string, from: number, step: number): Promise<number[]> {
  const times = await page.evaluate(`(async () => {
    const slider = document.getElementById(${JSON.stringify(id)});
    const answer = document.querySelector(".answer");
    const times = [];
    for (let i = 0; i < ${WARMING + MOVES}; i++) {
      const moved = performance.now();
      const changed = new Promise((done) => {
        const observer = new MutationObserver(() => { observer.disconnect(); done(performance.now() - moved); });
        observer.observe(answer, { childList: true, characterData: true, subtree: true });
        // A plan that rounds to the same sentence changes nothing, and is not counted.
        setTimeout(() => { observer.disconnect(); done(null); }, 2000);
      });
      slider.value = ${from} + i * ${step};
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      times.push(await changed);
      // The next move comes when the drawing has followed and the page has nothing to do.
      await new Promise((done) => setTimeout(done, 150));
    }
    return times.slice(${WARMING}).filter((ms) => ms !== null).sort((a, b) => a - b);
  })()`);
  return times as number[];
}

/** ms between frames while the day plays, sorted. */
async function frameTimes(page: Page): Promise<number[]> {
  await page.locator(".play").click();
  return await page.evaluate(`new Promise((done) => {
    const frames = [];
    let last = performance.now();
    const next = (now) => {
      frames.push(now - last);
      last = now;
      if (frames.reduce((sum, ms) => sum + ms, 0) < ${PLAYED * 1000}) requestAnimationFrame(next);
      else done(frames.slice(1).sort((a, b) => a - b));
    };
    requestAnimationFrame(next);
  })`) as number[];
}

const at = (sorted: readonly number[], share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!.toFixed(1);

const stage = await setStage();
console.log(`first load, gzipped, without fonts: ${(stage.firstLoadBytes / 1000).toFixed(1)} kB`);
for (const [what, example] of [["one rehearsal", "contractor-corn-day"], ["100 rehearsals", "low-meadow"]] as const) {
  const { page, close } = await stage.open(`#example=${example}`);
  const times = await verdictTimes(page, "tractor.1-slider", 8, 0.5);
  console.log(`slider moved to verdict changed, ${what}, ${times.length} moves: median ${at(times, 0.5)} ms, 95 % within ${at(times, 0.95)} ms`);
  await close();
}
for (const count of [5, 60]) {
  const { page, close } = await stage.open(`#trucks.0=${count}&at=09:00`, { width: 1440 });
  const frames = await frameTimes(page);
  console.log(`playing with ${count} trucks: ${(1000 / (frames.reduce((sum, ms) => sum + ms, 0) / frames.length)).toFixed(0)} frames a second, 95 % of frames within ${at(frames, 0.95)} ms`);
  await close();
}
await stage.close();
