/**
 * How quick the page is in a real browser: a slider's move to the changed verdict, frames while the day plays, bytes before the first
 * answer. The server is the one that is shipped.
 */
import type { Page } from "playwright-core";
import { setStage } from "../browser/stage.ts";
import { builtServer } from "./builtserver.ts";
import type { Case, Figure } from "./case.ts";

export const PAGE_CASES: readonly Case[] = [{ name: "page: in a browser", run: page }];

const MOVES = 40;
/** s of playing */ const PLAYED = 5;

/** Moves before the counted ones: a first run of anything takes longer than its tenth. */
const WARMING = 10;

/** ms, sorted, from a slider's move to a verdict that says something else, and to the one that stays: of many days the first few answer before all. Every move asks for a plan that was never asked for, so that no answer is kept from before. */
async function verdictTimes(page: Page, id: string, from: number, step: number): Promise<{ first: number[]; whole: number[] }> {
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
      const first = await changed;
      while (answer.getAttribute("aria-busy") === "true") await new Promise(requestAnimationFrame);
      times.push({ first, whole: performance.now() - moved });
      // The next move comes when the drawing has followed and the page has nothing to do.
      await new Promise((done) => setTimeout(done, 150));
    }
    return times.slice(${WARMING}).filter(({ first }) => first !== null);
  })()`) as { first: number; whole: number }[];
  const sorted = (which: "first" | "whole") => times.map((each) => each[which]).sort((a, b) => a - b);
  return { first: sorted("first"), whole: sorted("whole") };
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

const at = (sorted: readonly number[], share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;

/** Plans of one rehearsal, of a hundred, and in the other units. */
const PLANS = [["one day", "contractor-corn-day", 8, 0.5], ["100 days", "low-meadow", 8, 0.5], ["US units", "us-corn-150-acres&units=us", 20_000, 1000]] as const;

async function page(): Promise<readonly Figure[]> {
  const stage = await setStage(async (page) => ({ ...(await builtServer({ page })), reports: [] }));
  const figures: Figure[] = [{ name: "first load, no fonts", value: stage.firstLoadBytes / 1000, unit: "kB gzipped", bar: 150 }];
  try {
    for (const [what, example, from, step] of PLANS) {
      const visit = await stage.open(`#example=${example}`);
      const { first, whole } = await verdictTimes(visit.page, "tractor.1-slider", from, step);
      figures.push(
        { name: `verdict, ${what}`, value: at(first, 0.5), unit: "ms, median", bar: 50 }, { name: `verdict, ${what}`, value: at(first, 0.95), unit: "ms, 95 % within", bar: 100 },
        { name: `all drawn, ${what}`, value: at(whole, 0.5), unit: "ms, median" }, { name: `all drawn, ${what}`, value: at(whole, 0.95), unit: "ms, 95 % within" },
      );
      await visit.close();
    }
    for (const count of [5, 60]) {
      const visit = await stage.open(`#trucks.0=${count}&at=09:00`, { width: 1440 });
      const frames = await frameTimes(visit.page);
      figures.push({ name: `frame, ${count} trucks`, value: frames.reduce((sum, ms) => sum + ms, 0) / frames.length, unit: "ms, mean", bar: 1000 / 55 });
      await visit.close();
    }
    return figures;
  } finally {
    await stage.close();
  }
}
