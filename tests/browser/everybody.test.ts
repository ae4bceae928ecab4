import type { Page } from "playwright-core";
import { getDocumentProxy } from "unpdf";
import { describe, expect, it } from "vitest";
import { changed, clockShown, setSlider, verdict } from "./day.ts";
import { LONG } from "./stage.ts";
import { broken, onStage, until } from "./visiting.ts";

const { visit } = onStage();

describe("for everybody", () => {
  it.each(LONG ? [1440, 820, 360, 320] : [1440, 360])("has nothing that axe objects to, %i px wide, closed and with everything opened", async (width) => {
    const { page } = await visit("", { width });
    expect(await broken(page)).toEqual([]);
    await page.evaluate("document.querySelectorAll('details').forEach((details) => { details.open = true; })");
    await page.locator(".twin table").first().waitFor();
    expect(await broken(page)).toEqual([]);
  });

  it("has nothing that axe objects to when the plan is unsound, nor in US units", async () => {
    const { page } = await visit("#units=us");
    await page.getByRole("spinbutton", { name: /^Layer, loose, exact/ }).fill("0");
    await page.locator(".field.wrong .why").waitFor();
    expect(await broken(page)).toEqual([]);
  });

  it.each(LONG ? [1440, 820, 360, 320] : [320])("never scrolls sideways at %i px", async (width) => {
    for (const hash of ["", "#example=two-choppers-one-clamp", "#units=us&rule=hold"]) {
      const { page } = await visit(hash, { width });
      expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
    }
  });

  it.each([375, 320])("has a head of three rows on a phone of %i px, every sheet in it with its name, the choices of how to see it behind one press, and room for a thumb on each", async (width) => {
    const { page } = await visit("", { width });
    const texts = async (part: string) => (await page.locator(part).allInnerTexts()).map((text) => text.split("\n")[0]);
    const rowsOf = async (part: string) => {
      const boxes = await Promise.all((await page.locator(part).all()).map(async (one) => (await one.boundingBox())!));
      for (const box of boxes) {
        expect(box.height).toBeGreaterThanOrEqual(36);
        expect(box.x + box.width).toBeLessThanOrEqual(width);
      }
      return new Set(boxes.map(({ y, height }) => Math.round(y + height / 2))).size;
    };
    const inHead = ".masthead > .name, .masthead :is(a, button)";
    expect(await texts(inHead)).toEqual(["Clampside", "The day", "What to change", "Side by side", "Rest of the day", "Several days", "Weigh tickets", "Lessons", "Day sheet", "View"]);
    expect(await rowsOf(inHead)).toBeLessThanOrEqual(3);
    expect(await page.getByRole("radio", { name: "US" }).isVisible()).toBe(false);
    await page.getByRole("button", { name: /^View/ }).focus();
    await page.keyboard.press("Enter");
    expect(await texts(".masthead label")).toEqual(["Metric", "US", "Words", "Paper"]);
    expect(await rowsOf(".masthead label")).toBeLessThanOrEqual(2);
    await page.keyboard.press("Tab");
    await page.keyboard.press("ArrowRight");
    await until(async () => page.url().includes("units=us"));
    expect(await broken(page)).toEqual([]);
  });

  it("has the plan's sliders one press away from the answer for whoever works by key, at any width", async () => {
    for (const width of [1440, 820]) {
      const { page } = await visit("", { width });
      await page.locator(".in-short button").last().focus();
      await page.keyboard.press("Tab");
      const link = page.getByRole("link", { name: "Change the plan" });
      expect(await page.evaluate("document.activeElement.textContent")).toBe("Change the plan");
      expect((await link.boundingBox())!.height).toBeGreaterThanOrEqual(36);
      await page.keyboard.press("Enter");
      await page.keyboard.press("Tab");
      expect(await page.evaluate("document.activeElement.id")).toBe("pace.0-slider");
    }
  });

  it("can be worked by keyboard alone: change the plan, play the day, open a figure", async () => {
    const { page } = await visit();
    const before = (await verdict(page).textContent())!;
    const reach = async (wanted: string) => {
      for (let presses = 0; presses < 120; presses++) {
        await page.keyboard.press("Tab");
        if (await page.evaluate(`document.activeElement.matches(${JSON.stringify(wanted)})`)) return;
      }
      throw new Error(`${wanted} is not reached by the tab key`);
    };
    await reach(".play");
    await reach(".scrub");
    const time = await clockShown(page);
    await page.keyboard.press("PageUp");
    expect(await clockShown(page)).not.toBe(time);
    await reach("#rule");
    await reach(".figure-row summary");
    await page.keyboard.press("Enter");
    expect(await page.locator(".figure-row[open] .derivation dd").first().innerText()).not.toBe("");
    await page.locator("[id='tractors-slider']").focus();
    await page.keyboard.press("ArrowRight");
    await changed(page, before);
  });

  it("keeps whoever works by key in the part of the page where a button goes away under his hands: the answer comes there", async () => {
    const has = (page: Page, part: string) => until(() => page.evaluate(`document.activeElement.matches(${JSON.stringify(part)})`));
    const press = async (page: Page, name: string | RegExp) => {
      await page.getByRole("button", { name, exact: true }).focus();
      await page.keyboard.press("Enter");
    };
    const { page: noon } = await visit("#sheet=noon&example=low-meadow");
    await noon.locator(".rest-picture svg").waitFor();
    await press(noon, "Try every change that is still possible");
    await has(noon, "[aria-labelledby=today]");
    await noon.locator(".noon .card").first().waitFor();
    await noon.keyboard.press("Tab");
    await has(noon, "[aria-labelledby=today] *");

    const { page: change } = await visit("#sheet=change");
    await press(change, "Draw it");
    await has(change, "[aria-labelledby=multiples]");

    const { page: day } = await visit("#trucks.0=6");
    await press(day, "Back to the example");
    await has(day, "form.controls");
    // A button that can be pressed no more has the focus no more.
    const { page: lesson } = await visit("#sheet=lessons&lesson=another-truck");
    await lesson.getByRole("button", { name: /^Under 1 %/ }).click();
    await press(lesson, /^Take one back.*Under/);
    await has(lesson, "[aria-labelledby=step]");
    // Whoever presses beside it has left it, and is not called back.
    await setSlider(day, "Trucks", 7);
    await day.getByRole("button", { name: "Back to the example" }).focus();
    await day.locator(".clock").click();
    await day.evaluate("location.hash = '#example=contractor-corn-day'");
    await day.getByRole("button", { name: "Back to the example" }).waitFor({ state: "detached" });
    expect(await day.evaluate("document.activeElement === document.body")).toBe(true);
  });

  it("gives every drawing a name and a table with the same figures", async () => {
    const { page } = await visit();
    for (const drawing of await page.locator("main svg[role=img]").all()) expect((await drawing.getAttribute("aria-label"))!.length).toBeGreaterThan(20);
    const twin = page.locator("details.twin", { hasText: "Lift by lift" });
    await twin.locator("summary").click();
    expect(await twin.locator("tbody tr").count()).toBe(85);
    await page.locator("details.twin", { hasText: "Tipped and packed" }).locator("summary").click();
    const last = page.locator("details.twin", { hasText: "Tipped and packed" }).locator("tbody tr").last();
    expect(await last.locator("td").allInnerTexts()).toEqual(["1,350", "1,350", "0", "0"]);
  });

  it("prints the answer, the drawing and the figures, and leaves out what only a screen can do", async () => {
    const { page } = await visit();
    await page.emulateMedia({ media: "print" });
    expect(await verdict(page).isVisible()).toBe(true);
    expect(await page.locator(".strip svg").isVisible()).toBe(true);
    for (const hidden of [".controls", ".replay", ".plan-choice", ".masthead nav", ".masthead select"]) expect(await page.locator(hidden).first().isVisible()).toBe(false);
    // No choice on paper says which plan it is.
    expect(await page.locator(".verdict .plan").innerText()).toMatch(/^Contractor's corn day: 1 chopper at /);
    expect(await page.locator("[aria-labelledby=cautions]").isVisible()).toBe(true);
    expect((await getDocumentProxy(new Uint8Array(await page.pdf({ preferCSSPageSize: true })))).numPages).toBeLessThanOrEqual(2);
  });
});
