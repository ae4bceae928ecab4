/** The day and its answer as they come out of a printer, whatever paper is in it and whatever screen they are printed from. */
import { extractText, getDocumentProxy } from "unpdf";
import { describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import { exampleNames } from "../scenarios/example.ts";
import { LONG } from "./stage.ts";
import { onStage } from "./visiting.ts";

const { visit } = onStage();

/** The text of each sheet, without the blanks that a broken line brings. */
async function sheets(page: Page, format: "A4" | "Letter"): Promise<string[]> {
  const print = await getDocumentProxy(new Uint8Array(await page.pdf({ preferCSSPageSize: true, format })));
  return (await extractText(print)).text.map(bare);
}

const bare = (text: string): string => text.replaceAll(/\s+/g, "");

/** Letters of a sheet that is worth its paper: some twenty lines in either column. */
const WORTH_A_SHEET = 1000;

/** The two that fill their sheets the most: notes, cautions and money in words that are longer in US units, and a tall drawing. */
const FULLEST = ["dairy-bunker-900-cows", "two-choppers-one-clamp"];

describe("the day on paper", () => {
  it.each((LONG ? exampleNames : FULLEST).flatMap((name) => (LONG ? ["metric", "us"] : ["us"]).map((units) => [name, units] as const)))(
    "takes two sheets of A4 and two of Letter, neither of them for a few lines, with every caution and note: %s in %s units", async (name, units) => {
      const { page, complaints } = await visit(`#example=${name}&units=${units}`);
      const said = await page.locator("section:is([aria-labelledby=cautions], [aria-labelledby=notes]) li").evaluateAll((items) => items.map((item) => (item.firstChild as unknown as { textContent: string }).textContent));
      expect(said.length).toBeGreaterThan(10);
      for (const format of ["Letter", "A4"] as const) {
        const print = await sheets(page, format);
        expect(print.length).toBe(2);
        for (const sheet of print) expect(sheet.length).toBeGreaterThan(WORTH_A_SHEET);
        for (const sentence of said) expect(print.join("")).toContain(bare(sentence));
      }
      expect(complaints).toEqual([]);
    });

  it("is the same from any screen, and leaves the screen as it was", async () => {
    const { page } = await visit("#example=low-meadow");
    const width = () => page.locator(".strip svg").getAttribute("width");
    const before = await width();
    const wide = await sheets(page, "A4");
    expect(await width()).toBe(before);
    const { page: phone } = await visit("#example=low-meadow", { width: 375 });
    expect(await sheets(phone, "A4")).toEqual(wide);
  });

  it("sets no word smaller than can be read at a desk, in the drawings neither", async () => {
    const { page } = await visit("#example=low-meadow");
    expect(await smallest(page)).toBeGreaterThan(7.9);
  });
});

describe("weigh tickets on paper", () => {
  it.each(["metric", "us"])("take two sheets of A4 and two of Letter: what was read of which file, what it tells, the plan it was held against, and no word on what only a screen can do; in %s units", async (units) => {
    const { page, complaints } = await visit(`#sheet=tickets&example=low-meadow&units=${units}`);
    await page.getByRole("button", { name: "Low Meadow, a morning with a stop" }).click();
    await page.getByRole("button", { name: "Hold the day against the plan" }).click();
    await page.locator(".judged-words p").first().waitFor();
    const cannot = await page.locator("section[aria-labelledby=patch] li").allInnerTexts();
    expect(cannot.length).toBeGreaterThan(2);
    for (const format of ["Letter", "A4"] as const) {
      const print = await sheets(page, format);
      expect(print.length).toBe(2);
      for (const sheet of print) expect(sheet.length).toBeGreaterThan(WORTH_A_SHEET / 2);
      for (const said of ["Read: low-meadow-stop.csv", "Low Meadow, day one", "time of leaving", "Best explained by the stop", ...cannot]) expect(print.join("")).toContain(bare(said));
      for (const said of ["Choose a file", "Decimal mark", "Put it into the plan", "How the shape was chosen", "How they vary"]) expect(print.join("")).not.toContain(bare(said));
      // The judgement stands whole on its sheet.
      expect(print[1]).toContain(bare("Was the plan right?"));
    }
    expect(await smallest(page)).toBeGreaterThan(7.9);
    expect(complaints).toEqual([]);
  });
});

describe("several days on paper", () => {
  it.each(["metric", "us"])("take two sheets at the most, the day by day on the last, and name the plan; in %s units", async (units) => {
    const { page, complaints } = await visit(`#sheet=campaign&example=corn-two-weeks&units=${units}`);
    await page.locator(".campaign .answer").waitFor();
    await page.locator(".calendar svg").waitFor();
    const notes = await page.locator("section[aria-labelledby=campaign-notes] li").allInnerTexts();
    expect(notes.length).toBeGreaterThan(0);
    for (const format of ["Letter", "A4"] as const) {
      const print = await sheets(page, format);
      expect(print.length).toBeLessThanOrEqual(2);
      expect(print[0]!.length).toBeGreaterThan(WORTH_A_SHEET);
      expect(print.at(-1)).toContain(bare("Day by day"));
      for (const said of ["Corn over two weeks", ...notes]) expect(print[0]).toContain(bare(said));
      for (const said of ["Another farm", "The same as a table"]) expect(print.join("")).not.toContain(bare(said));
    }
    expect(await smallest(page)).toBeGreaterThan(7.9);
    expect(complaints).toEqual([]);
  });
});

describe("what to change on paper", () => {
  it("gives what was asked for the whole sheet where nothing was asked for beside it, in words that can be read", async () => {
    const { page } = await visit("#sheet=change&example=contractor-corn-day");
    await page.getByText(/^Each remedy is rehearsed .* One day each/).waitFor();
    const crew = page.locator("[aria-labelledby=crew]");
    await crew.getByRole("button", { name: "Search" }).click();
    await crew.locator("figure svg").waitFor();
    expect(await smallest(page)).toBeGreaterThan(7.9);
    await page.emulateMedia({ media: "print" });
    const width = async (what: string) => (await page.locator(what).boundingBox())!.width;
    expect(await width("[aria-labelledby=crew]")).toBe(await width(".change"));
    expect(await page.locator("[aria-labelledby=multiples]").isVisible()).toBe(false);
  });
});

/** pt of the smallest word of a print, as the sheet has it; the number on a truck's plate is none. */
async function smallest(page: Page): Promise<number> {
  const print = await getDocumentProxy(new Uint8Array(await page.pdf({ preferCSSPageSize: true, format: "A4" })));
  const heights: number[] = [];
  for (let number = 1; number <= print.numPages; number++) {
    const { items } = await (await print.getPage(number)).getTextContent();
    for (const item of items) if ("height" in item && /[a-z]{2}/i.test(item.str) && item.height > 0) heights.push(item.height);
  }
  return Math.min(...heights);
}
