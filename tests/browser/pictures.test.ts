import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { LONG, type Visit } from "./stage.ts";
import { onStage, until } from "./visiting.ts";

const { visit } = onStage();

async function day(...how: Parameters<typeof visit>): Promise<Visit> {
  const opened = await visit(...how);
  await opened.page.locator(".lines svg").waitFor();
  return opened;
}

const clockShown = (page: Page) => page.locator(".clock").innerText();
/** Marks of the machine pointed at: in the strip, in the lines, in the hours, in rows. */
const marks = async (page: Page) => ({
  strip: await page.locator(".strip .outline").count(),
  line: await page.locator(".truck-line-pointed:not(.truck-line-pointed-waits)").count(),
  hours: await page.locator("[aria-labelledby=machines] .outline").count(),
  rows: await page.locator("tr.pointed th").allInnerTexts(),
});
const NONE = { strip: 0, line: 0, hours: 0, rows: [] };

describe("pointing", () => {
  it("at a truck marks it in the strip, in its line, in the hours and in the table, and leaving takes the marks away", async () => {
    const { page, complaints } = await day();
    await page.locator("details.twin", { hasText: "Who does what now" }).locator("summary").click();
    expect(await marks(page)).toEqual(NONE);
    await page.locator(".strip .truck").nth(2).hover();
    const all = await marks(page);
    expect(all).toMatchObject({ strip: 1, line: 1, hours: 1 });
    expect(all.rows).toHaveLength(1);
    await page.locator("h1").hover();
    expect(await marks(page)).toEqual(NONE);
    for (const other of [page.locator("tr[data-machine] th").nth(1), page.locator("[aria-labelledby=machines] [data-machine='2'] text").first()]) {
      await other.hover();
      const there = await marks(page);
      expect(there).toMatchObject({ strip: 1, line: 1, hours: 1 });
      expect(there.rows).toHaveLength(1);
      expect(there.rows).not.toEqual(all.rows);
    }
    expect(complaints).toEqual([]);
  });

  it("by keyboard goes from truck to truck, and a click holds the mark until the next", async () => {
    const { page } = await day();
    await page.locator(".lines").focus();
    await page.keyboard.press("t");
    const label = () => page.locator(".lines .no-hit .label-strong").textContent();
    const first = await label();
    await page.keyboard.press("t");
    expect(await label()).not.toBe(first);
    await page.keyboard.press("Shift+T");
    expect(await label()).toBe(first);
    await page.keyboard.press("Escape");
    expect(await marks(page)).toEqual(NONE);
    // The marked truck is drawn last, so it is found by its number.
    const third = page.locator(".strip .truck", { has: page.locator("text", { hasText: /^3$/ }) });
    await third.click();
    await page.locator("h1").hover();
    expect(await marks(page)).toMatchObject({ strip: 1, line: 1, hours: 1 });
    await third.click();
    await page.locator("h1").hover();
    expect(await marks(page)).toEqual(NONE);
  });

  it("at a minute shows it in every picture over time with its figures, and a click goes there", async () => {
    const { page } = await day();
    const before = await clockShown(page);
    const picture = page.locator(".deciding svg.over-time").first();
    expect(await picture.evaluate((svg) => Boolean(svg))).toBe(true);
    await picture.hover({ position: { x: 300, y: 100 } });
    const clocks = await page.locator(".cursor-second text").allTextContents();
    expect(clocks).toHaveLength(3);
    expect(new Set(clocks).size).toBe(1);
    expect(await clockShown(page)).toBe(before);
    for (const said of await page.locator(".deciding .now").allInnerTexts()) expect(said).toContain(`${clocks[0]}:`);
    await picture.click({ position: { x: 300, y: 100 } });
    expect(await clockShown(page)).toContain(clocks[0]!);
    await page.locator("h1").hover();
    expect(await page.locator(".cursor-second").count()).toBe(0);
  });
});

describe("the strip by keyboard", () => {
  it("plays, steps to events and goes to the ends, as the line beside it says", async () => {
    const { page } = await day("#at=10:00");
    expect(await page.locator("#keys").innerText()).toMatch(/space.*arrows.*Home and End.*N and P/);
    await page.locator(".day [role=group]").first().focus();
    await page.keyboard.press("ArrowRight");
    expect(await clockShown(page)).toContain("10:01");
    await page.keyboard.press("PageDown");
    expect(await clockShown(page)).toContain("09:46");
    const time = async () => Number(await page.getByRole("slider", { name: "Time of day" }).inputValue());
    const here = await time();
    await page.keyboard.press("n");
    const next = await time();
    expect(next).toBeGreaterThan(here);
    await page.keyboard.press("n");
    await page.keyboard.press("p");
    expect(await time()).toBe(next);
    await page.keyboard.press("Home");
    expect(await clockShown(page)).toMatch(/0[67]:/);
    await page.keyboard.press("Space");
    await until(async () => (await page.locator(".play").innerText()) === "Pause");
  });
});

describe("saving a picture", () => {
  it("gives a picture of its own as SVG and PNG, and its table as CSV, named after the plan", async () => {
    const { page, complaints } = await day();
    const saved = async (picture: string, kind: string) => {
      const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: `Save as ${kind}: ${picture}` }).click()]);
      return { name: download.suggestedFilename(), bytes: readFileSync((await download.path())!) };
    };
    const svg = await saved("Tipped and packed", "SVG");
    expect(svg.name).toMatch(/^[a-z0-9-]+-tipped-and-packed\.svg$/);
    const text = svg.bytes.toString("utf8");
    expect(text).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg"/);
    expect(text).toContain("Atkinson Hyperlegible Next");
    expect(text).toContain("<pattern");
    expect(text).not.toMatch(/class=|var\(--/);
    // Read as a picture of its own, it is well formed and as large as it says.
    const { width, height } = await page.evaluate(`(() => { const svg = new DOMParser().parseFromString(${JSON.stringify(text)}, "image/svg+xml").documentElement; return { width: Number(svg.getAttribute("width")), height: Number(svg.getAttribute("height")) }; })()`) as { width: number; height: number };
    expect(width).toBeGreaterThan(300);
    const png = await saved("Tipped and packed", "PNG");
    expect(png.bytes.subarray(1, 4).toString("latin1")).toBe("PNG");
    expect([png.bytes.readUInt32BE(16), png.bytes.readUInt32BE(20)]).toEqual([2 * width, 2 * height]);
    const csv = await saved("Where the hours went", "CSV");
    expect(csv.bytes.toString("utf8").split("\r\n")[1]).toMatch(/^[^,]+,\d+,\d+,\d/);
    expect(complaints).toEqual([]);
  });

  it("can be done under every picture of the day", async () => {
    const { page } = await day();
    for (const picture of await page.locator("[data-picture]").all()) {
      expect(await picture.locator("svg[role=img]").count()).toBeGreaterThan(0);
      expect(await picture.getByRole("button", { name: /^Save as SVG/ }).count()).toBe(1);
      expect(await picture.locator("table, details.twin").count()).toBeGreaterThan(0);
    }
    expect(await page.locator("[data-picture]").count()).toBe(9);
  });
});

describe("where a figure comes from", () => {
  it("is reached from the pictures, has the numbers in its formula, says where it lies in its range, and leads on to what it rests on", async () => {
    const { page } = await day();
    await page.locator(".sure .where-from button", { hasText: "Dry matter density" }).click();
    const row = page.locator("#figure-dryDensity");
    expect(await row.evaluate((details) => (details as unknown as { open: boolean }).open)).toBe(true);
    const said = async (name: string, term: string) => page.locator(`#figure-${name} dt`, { hasText: term }).locator("xpath=following-sibling::dd[1]").innerText();
    expect(await said("dryDensity", "With the numbers")).toMatch(/^[\d,.]+\st \/ [\d,.]+\sm³ = \d+ kg\/m³/);
    expect(await said("dryDensity", "Range of the source")).toMatch(/(Inside it\.|Outside the range)/);
    await row.locator(".to-figure", { hasText: "Dry matter stored" }).click();
    expect(await said("dryMatterStored", "With the numbers")).toMatch(/ x .* = /);
    expect(await page.evaluate("document.activeElement.closest('details').id")).toBe("figure-dryMatterStored");
  });

  it("has the cautions that concern it beside it, in the words of the list", async () => {
    const { page } = await day();
    const here = page.locator("figure", { hasText: "Density with depth" }).locator(".caution-here");
    expect(await here.count()).toBeGreaterThan(0);
    await here.first().locator("summary").click();
    const text = (await here.first().locator("p").innerText()).slice(0, 60);
    expect(await page.locator(".cautions").innerText()).toContain(text);
  });
});

describe("the pictures", () => {
  it.each(LONG ? [1440, 820, 360] : [820])("have no label that touches another and none cut off, %i px wide", async (width) => {
    for (const hash of ["#example=low-meadow", "#example=two-choppers-one-clamp"]) {
      const { page } = await day(hash, { width });
      // Letters do not fill the height of their line: two lines may share 4 px.
      const wrong = await page.evaluate(`[...document.querySelectorAll("[data-picture]:not(.day) svg[role=img]")].flatMap((svg) => {
        const whole = svg.getBoundingClientRect();
        const boxes = [...svg.querySelectorAll("text")].filter((text) => text.textContent).map((text) => [text.textContent, text.getBoundingClientRect()]);
        return boxes.flatMap(([name, a], i) => [
          ...(a.left < whole.left - 4 || a.right > whole.right + 4 ? [name + " is cut"] : []),
          ...boxes.slice(i + 1).filter(([, b]) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 4).map(([other]) => name + " | " + other),
        ]);
      })`);
      expect(wrong, hash).toEqual([]);
    }
  });
});

describe("the clamp", () => {
  it("keeps the colours of its lifts when they are many and thin: lines take a tenth of them at the most, and one hatch goes over all that is under target", async () => {
    const lines = async (hash: string) => {
      const { page } = await day(hash);
      const { length } = await page.locator(".strip .lift:not(.lift-open)").all();
      expect(await page.locator(".strip .hatch").count()).toBeLessThanOrEqual(2);
      return { length, ink: Number(await page.locator(".strip .lift-lines").getAttribute("stroke-width")) };
    };
    const many = await lines("#example=us-corn-150-acres&at=20:00");
    expect(many.length).toBeGreaterThan(120);
    // 61 m drawn on some 280 px: more than 120 lifts are less than 3 px thick.
    expect(many.ink).toBeLessThan(0.3);
    const few = await lines("#example=us-corn-150-acres&at=06:40");
    expect(few.length).toBeLessThan(12);
    expect(few.ink).toBeGreaterThan(many.ink);
  });
});

describe("a line of trucks", () => {
  it("tells how long the first has waited, and no time where it has only just come", async () => {
    const said = async (at: string) => {
      const { page } = await day(`#example=low-meadow&at=${at}`);
      return (await page.locator(".strip text", { hasText: /^\d wait/ }).first().textContent())!;
    };
    expect(await said("07:00")).toMatch(/^\d wait$/);
    expect(await said("10:24")).toMatch(/^\d wait, the first \d+ min$/);
  });
});
