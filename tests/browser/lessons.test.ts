/** A room is walked through a lesson: nothing is given away before it has predicted, and the figures answer. */
import { getDocumentProxy } from "unpdf";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { LESSONS } from "../../viz/lessons/all-lessons.ts";
import { LONG, PATIENCE, type Visit } from "./stage.ts";
import { broken, onStage } from "./visiting.ts";

const { visit } = onStage();

async function lesson(hash: string, width = 1440): Promise<Visit> {
  const opened = await visit(`#sheet=lessons${hash}`, { width });
  await opened.page.locator(".lessons").waitFor();
  return opened;
}

const go = (page: Page) => page.locator(".go").click();
const heading = (page: Page) => page.locator(".lesson-question");

describe("the lessons", () => {
  it("are a list of links, and each link opens its lesson", async () => {
    const { page } = await lesson("");
    const links = page.locator(".lesson-list h2 a");
    expect(await links.count()).toBe(7);
    await links.nth(2).click();
    await page.locator("h1", { hasText: "Hold, bury or ease" }).waitFor();
    await expect.poll(() => page.evaluate("location.hash")).toContain("lesson=who-pays");
  });

  it("are opened by an address that the browser tells of late, the page being about to write its own", async () => {
    const { page } = await lesson("");
    // Browsers change the address at once and say so in their own time: here in more than the page takes to write what it shows.
    await page.addInitScript(`addEventListener("hashchange", (late) => {
      if (late.isTrusted) { late.stopImmediatePropagation(); setTimeout(() => dispatchEvent(new HashChangeEvent("hashchange")), 800); }
    })`);
    await page.reload();
    await page.getByRole("radio", { name: "US" }).check();
    await expect.poll(() => page.evaluate("location.hash")).toContain("units=us");
    await page.getByRole("radio", { name: "Metric" }).check();
    await page.evaluate('location.hash = "#sheet=lessons&lesson=another-truck"');
    await page.locator(".lesson-question").waitFor();
    expect(await page.evaluate("location.hash")).toContain("lesson=another-truck");
  });

  it("play the day in stills, one a second, for whoever asked for less motion", async () => {
    const { page } = await visit("#sheet=lessons&lesson=another-truck", { reducedMotion: true });
    await page.locator(".choice-vote").first().click();
    await go(page);
    await page.getByRole("button", { name: "Play the day" }).click();
    // Half a second of the screen's own clock, which is what playing goes by.
    const shown = await page.evaluate(`new Promise((done) => {
      const times = new Set(), begun = performance.now();
      const next = (now) => { times.add(document.querySelector(".lesson-clock .clock").textContent); if (now - begun < 500) requestAnimationFrame(next); else done(times.size); };
      requestAnimationFrame(next);
    })`);
    expect(shown).toBeLessThanOrEqual(2);
    const clock = page.locator(".lesson-clock .clock");
    const early = await clock.innerText();
    await expect.poll(() => clock.innerText(), { timeout: PATIENCE }).not.toBe(early);
  });

  it("walk a room from its prediction to a change of its own, and keep the answer back until then", async () => {
    const asked: string[] = [];
    const { page, complaints } = await lesson("&lesson=another-truck&step=explain");
    page.on("request", (request) => { if (request.method() === "POST") asked.push(request.postData() ?? ""); });
    // A link to a later step does not give the answer away.
    await page.getByRole("status").filter({ hasText: "A prediction comes first" }).waitFor();
    expect(await page.locator(".explained, .truth, .side-figures").count()).toBe(0);
    expect(await page.locator(".go").count()).toBe(0);
    expect(await broken(page)).toEqual([]);

    const choice = page.locator(".choice-vote", { hasText: "5 % or more" });
    await choice.click();
    await choice.click();
    await page.locator(".choice-vote", { hasText: "Under 1 %" }).click();
    expect(await page.locator(".vote-count").allInnerTexts()).toEqual(["2", "0", "1", "0"]);
    await go(page);
    await page.locator(".strip svg").waitFor();
    expect(await broken(page)).toEqual([]);
    await go(page);
    expect(await page.locator(".outcome").innerText()).toMatch(/The room said: 5\s%\sor more \(2\) and Under 1\s% \(1\)\.\s+What came out: Under 1\s%\./);
    expect(await page.locator(".strip svg").count()).toBe(2);
    expect(await broken(page)).toEqual([]);
    await go(page);
    expect(await page.locator(".explained").innerText()).toContain("stands in line at the clamp");
    expect(await page.evaluate("document.activeElement.className")).toBe("lesson-question");
    await go(page);
    expect(await page.getByRole("slider").count()).toBe(1);
    await page.getByRole("slider", { name: "Trucks" }).fill("7");
    await expect.poll(() => page.locator(".explained").innerText(), { timeout: PATIENCE }).toContain("here trucks are short");
    expect(await page.locator(".side-figures").innerText()).toContain("Fifteen trucks, with your change");
    expect(await broken(page)).toEqual([]);
    // Every plan was rehearsed by the server, on the same luck.
    expect(asked.filter((body) => body.includes("Two choppers, one clamp")).every((body) => (JSON.parse(body) as { seed: number }).seed === 1)).toBe(true);
    expect(complaints).toEqual([]);
  });

  it("keep what a slider was turned to in the address, which brings it back when the page is loaded again; a slider that is drawn leaves no trail behind the page, and another lesson has nothing of it", async () => {
    const { page, complaints } = await lesson("&lesson=another-truck");
    await page.locator(".choice-vote").first().click();
    await page.locator(".steps a", { hasText: "Try" }).click();
    const slider = page.getByRole("slider", { name: "Trucks" });
    await slider.focus();
    const trail = await page.evaluate("history.length");
    for (let press = 0; press < 3; press++) await page.keyboard.press("ArrowRight");
    await expect.poll(() => page.evaluate("location.hash")).toContain("turned.trucks=18");
    expect(await page.evaluate("history.length")).toBe(trail);
    await page.reload();
    await slider.waitFor();
    expect(await slider.inputValue()).toBe("18");
    await page.locator(".side-figures", { hasText: "with your change" }).waitFor();
    await page.getByRole("link", { name: /^Next lesson/ }).click();
    await page.locator("h1", { hasText: "A second tipping place" }).waitFor();
    expect(await page.evaluate("location.hash")).not.toContain("turned");
    await page.goBack();
    await slider.waitFor();
    expect(await slider.inputValue()).toBe("18");
    await page.getByRole("button", { name: "Back to the lesson's plan" }).click();
    await expect.poll(() => page.evaluate("location.hash")).not.toContain("turned");
    expect(complaints).toEqual([]);
  });

  it.runIf(LONG)("take a number where one is asked for, and set it beside what came out", async () => {
    const { page } = await lesson("&lesson=coin-toss");
    await page.getByRole("spinbutton").fill("90");
    await page.getByRole("button", { name: "Take down this guess" }).click();
    await page.getByText("The room guesses: 90.").waitFor();
    await go(page);
    await page.locator(".strip svg").waitFor();
    await page.locator(".steps a", { hasText: "See" }).click();
    expect(await page.locator(".outcome").innerText()).toMatch(/The room said: 90\.\s+What came out: (4[5-9]|5[0-5]) of 100\./);
  });

  it.runIf(LONG)("keep the votes of the room when the page is loaded again", async () => {
    const { page } = await lesson("&lesson=who-pays");
    await page.locator(".choice-vote", { hasText: "Hold" }).click();
    await page.reload();
    await page.locator(".vote-count").first().waitFor();
    expect(await page.locator(".vote-count").allInnerTexts()).toEqual(["1", "0", "0", "0"]);
  });

  it.runIf(LONG)("are as large as a projector needs on a wide screen, and fit a narrow one", async () => {
    const wide = await lesson("&lesson=drier-crop", 1440);
    const size = (page: Page) => heading(page).evaluate((element) => (element as unknown as { getBoundingClientRect(): { height: number } }).getBoundingClientRect().height);
    const large = await size(wide.page);
    await wide.page.getByRole("checkbox").uncheck();
    expect(large / (await size(wide.page))).toBeCloseTo(1.4, 1);
    for (const width of [820, 320]) {
      const { page } = await lesson("&lesson=drier-crop", width);
      await page.locator(".choice-vote").first().click();
      for (const step of ["Run", "See", "Explain", "Try"]) {
        await page.locator(".steps a", { hasText: step }).click();
        await page.locator(".step .strip svg, .step .explained, .step .side-figures").first().waitFor();
        expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
        if (width === 320) expect(await broken(page)).toEqual([]);
      }
    }
  });

  it("print a handout of one page each, the shorter paper included", async () => {
    const { page } = await lesson("", 1280);
    // Letter is the shorter paper: what fits there fits on A4, of which one is tried.
    for (const [id, units] of [...LESSONS.map(({ id }) => [id, "us"] as const), ["who-pays", "metric"] as const]) {
      await page.evaluate(`location.hash = "#sheet=lessons&lesson=${id}&step=handout&units=${units}"`);
      await page.locator(".address", { hasText: `lesson=${id}` }).waitFor();
      await page.locator(".explained li").first().waitFor();
      const print = await getDocumentProxy(new Uint8Array(await page.pdf({ preferCSSPageSize: true })));
      const { width } = (await print.getPage(1)).getViewport({ scale: 1 });
      expect([id, print.numPages, Math.round(width)]).toEqual([id, 1, units === "us" ? 612 : 595]);
    }
  });
});
