/** What every test of the page in a browser begins with: the stage, the visits to it, and what an accessibility checker finds amiss. */
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, vi } from "vitest";
import { PATIENCE, setStage, type Stage, type Visit } from "./stage.ts";

/** Sets the stage for the tests of a file, and gives what opens visits to it; they end with the test that opened them. */
export function onStage(): { readonly stage: () => Stage; visit(...how: Parameters<Stage["open"]>): Promise<Visit> } {
  vi.setConfig({ testTimeout: 5 * PATIENCE });
  let stage: Stage;
  const visits: Visit[] = [];
  beforeAll(async () => { stage = await setStage(); }, 5 * PATIENCE);
  afterAll(async () => { await stage?.close(); });
  afterEach(async () => { for (const visit of visits.splice(0)) await visit.close(); });
  return {
    stage: () => stage,
    async visit(...how) {
      const opened = await stage.open(...how);
      visits.push(opened);
      return opened;
    },
  };
}

/** Waits until something about the page holds. The page forbids scripts made of text, so the asking is done from outside. */
export const until = (what: () => Promise<unknown>) => expect.poll(what, { timeout: PATIENCE, interval: 20 }).toBeTruthy();

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Rules of WCAG 2.2 AA and of good practice that are broken, with where. `target-size` only runs when its tag is asked for. */
export async function broken(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  const found = await page.evaluate(`axe.run(document, { runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] } })
    .then((result) => result.violations.flatMap((rule) => rule.nodes.map((node) => rule.id + ": " + node.target.join(" ") + " " + node.failureSummary)))`);
  return found as string[];
}
