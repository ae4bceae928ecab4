/** Several days on the page: the answer, its pictures, another farm, and a plan of one day made one of several. */
import { readFileSync } from "node:fs";
import { getDocumentProxy } from "unpdf";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { dateOf, dayOf } from "../../sim/scenario/dates.ts";
import { checkScenario } from "../../sim/scenario/read.ts";
import { campaigns } from "../../sim/study/campaigns.ts";
import { carryOut } from "../../sim/study/work.ts";
import { PLAIN, writeAddress } from "../../viz/address.ts";
import type { Document } from "../../viz/document.ts";
import { LONG } from "./stage.ts";
import { broken, onStage, until } from "./visiting.ts";

const { visit } = onStage();

/** The worked campaign without luck: one campaign a start, so that the answer is there at once. */
const document = (() => {
  const written = parse(readFileSync(new URL("../../scenarios/campaign/corn-two-weeks.yaml", import.meta.url), "utf8")) as Document & { readonly campaign: Document };
  return { ...written, variation: "none", campaign: { ...written.campaign, starts: "2026-09-12", rain: ["2026-09-16"] } };
})();

function engine() {
  const checked = checkScenario(document);
  if ("problems" in checked) throw new Error("unsound");
  return carryOut(campaigns([checked.scenario], { campaigns: 1 }));
}

describe("the sheet for several days", () => {
  it("says when to start as the engine does, and starts then at a press", async () => {
    const { page, complaints } = await visit(writeAddress({ ...PLAIN, sheet: "campaign", example: "corn-two-weeks", own: document }));
    await page.locator(".campaign .answer").waitFor();
    const { whenToStart, shown, storages, notes } = engine();
    expect((await page.locator(".campaign .answer").innerText()).replaceAll("\u00a0", " ")).toBe(whenToStart.inWords);
    expect(await page.locator(".calendar circle:not(.finish-median)").count()).toBe(shown.days.reduce((sum, { fields }) => sum + fields.length, 0));
    expect(await page.locator(".campaign .scroll tbody tr").count()).toBe(storages.length);
    const said = (await page.locator(".campaign").innerText()).replaceAll("\u00a0", " ");
    for (const note of notes) expect(said).toContain(note);
    expect(await broken(page)).toEqual([]);
    expect((await getDocumentProxy(new Uint8Array(await page.pdf({ preferCSSPageSize: true, format: "A4" })))).numPages).toBeLessThanOrEqual(2);

    await page.getByRole("button", { name: `Start on ${whenToStart.best.starts}` }).click();
    await until(async () => (await page.getByRole("heading", { name: `Started on ${whenToStart.best.starts}` }).count()) === 1);
    await until(async () => page.url().includes("plan="));

    expect(complaints).toEqual([]);

    // What is refused from here on the browser writes down itself.
    const rain = page.getByLabel("Or rain on these days");
    await rain.fill("2026-09-31");
    await rain.press("Tab");
    await until(async () => (await page.locator("#rain-days-wrong").innerText()).includes("2026-09-31"));
    await rain.fill([0, 1].map((later) => dateOf(dayOf(whenToStart.best.starts)! + later)).join("; "));
    await rain.press("Tab");
    await until(async () => (await page.locator(".calendar svg").getAttribute("aria-label", { timeout: 5000 }).catch(() => null))?.includes("2 of them lost to rain"));
  });

  it.runIf(LONG)("makes a campaign of a plan of one day, goes on to another farm, and fits a phone", async () => {
    const { page } = await visit("#sheet=campaign&example=low-meadow&units=us", { width: 320 });
    await page.getByRole("button", { name: "Make it a campaign of several days" }).click();
    await page.locator(".starts svg").waitFor();
    await page.getByRole("button", { name: "Another farm" }).click();
    await page.getByLabel("Farm 2").selectOption("contractor-corn-day");
    await until(async () => (await page.locator(".calendar").innerText()).length > 0 && page.url().includes("farms=contractor-corn-day"));
    await page.locator(".calendar svg").waitFor();
    expect(await broken(page)).toEqual([]);
    expect(await page.locator("html").evaluate((html) => html.scrollWidth - html.clientWidth)).toBe(0);
  });
});
