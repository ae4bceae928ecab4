/** The day sheet as a crew gets it: on one sheet of paper, in A4 and Letter, read back out of the print. */
import { extractText, getDocumentProxy } from "unpdf";
import { describe, expect, it } from "vitest";
import { exampleNames } from "../scenarios/example.ts";
import { LONG, PATIENCE, type Visit } from "./stage.ts";
import { broken, onStage } from "./visiting.ts";

const { visit } = onStage();

async function sheet(hash: string, width = 1280): Promise<Visit> {
  const opened = await visit(`#sheet=crew${hash}`, { width });
  await opened.page.locator(".crew .plan-behind").waitFor();
  return opened;
}

/** Points of a paper, wide and high. */
const PAPERS = { a4: [595, 842], letter: [612, 792] } as const;

async function printed({ page }: Visit): Promise<{ readonly pages: number; readonly paper: readonly number[]; readonly text: readonly string[] }> {
  const print = await getDocumentProxy(new Uint8Array(await page.pdf({ preferCSSPageSize: true })));
  const { width, height } = (await print.getPage(1)).getViewport({ scale: 1 });
  const { text } = await extractText(print);
  return { pages: print.numPages, paper: [Math.round(width), Math.round(height)], text: text.map((page) => page.replaceAll(/\s+/g, " ")) };
}

describe("the printed day sheet", () => {
  it.each(LONG ? exampleNames.flatMap((name) => [["metric", "a4", name], ["us", "letter", name]] as const) : [
    ["metric", "a4", "two-choppers-one-clamp"], ["us", "letter", "haylage-drying"],
  ] as const)("in %s units is two sides of %s: %s", async (units, paper, id) => {
    const print = await printed(await sheet(`&example=${id}&units=${units}`));
    expect(print.pages).toBe(2);
    expect(print.paper).toEqual(PAPERS[paper]);
  });

  it("says what the plan knows, leaves lines for the rest, and prints every caution", async () => {
    const visit = await sheet("&example=contractor-corn-day-living");
    const { pages, text: [front, back] } = await printed(visit);
    expect(pages).toBe(2);
    expect(front).toMatch(/Packed and rolled between \d\d:\d\d and \d\d:\d\d on 8 of 10 days/);
    expect(front).toMatch(/A load comes every [\d.]+ min/);
    expect(front).toMatch(/[\d.]+ min of packing for each load of 16\.0 t/);
    expect(front).toMatch(/Layer: 15 cm loose, a mark on the stick/);
    expect(front).toMatch(/no steeper than 1:3\. Ten paces along \(7\.5 m\) rise by 2\.5 m/);
    expect(front).toMatch(/Stop it only when \d+ loads lie on the apron \(\d+ t\)/);
    expect(front).toMatch(/Stop the chopper over 70 % moisture/);
    expect(front).toMatch(/cover from about \d\d:\d\d to \d\d:\d\d with 4 people\. Film [\d,]+ m²/);
    for (const blank of ["Gate", "Wires", "Radio channel", "Phone", "Narrow places, and who gives way", "at most", "Driver", "Swap with", "Fuel at", "Rain"]) expect(front).toContain(blank);
    for (const part of ["What really happened", "Mass, t", "Moisture, %", "Apron, loads", "Before anybody starts", "Local codes"]) expect(back).toContain(part);
    const cautions = await visit.page.locator(".crew-cautions li").allInnerTexts();
    expect(cautions.length).toBeGreaterThan(5);
    // A line that is broken in the print comes back with a blank in it.
    const bare = (text: string) => text.replaceAll(/\s+/g, "");
    for (const caution of cautions) expect(bare(back!)).toContain(bare(caution));
    // The layer is drawn as long as it is: 96 px an inch, by definition.
    await visit.page.emulateMedia({ media: "print" });
    expect((await visit.page.locator(".stick svg").boundingBox())!.width).toBeCloseTo((15 / 2.54) * 96, 0);
  });

  it("tells a crew that buries to let the chopper go on, and what to do with the loads meanwhile; sets nothing that is read in a cab under 8.5 pt; and says where the weights on the film come from", async () => {
    const { page } = await sheet("&example=contractor-corn-day-living");
    const stops = (await page.locator(".stops").innerText()).replaceAll("\u00a0", " ");
    expect(stops).toMatch(/Let the chopper go on even when packing is behind\. Stop it only when \d loads lie on the apron \(\d+ t\)/);
    expect(stops).toMatch(/keep the trucks moving\. Push each load up as soon as it lies there/);
    expect(stops).not.toMatch(/Stop the chopper when/);
    const cover = await page.locator("section[aria-labelledby=crew-cover]").innerText();
    expect(cover).toMatch(/[\d,]+ tyres, or [\d,]+ bags\./);
    for (const mark of ["common practice, no source", "assumption of this project"]) expect(cover).toContain(mark);
    await page.emulateMedia({ media: "print" });
    const sizes = await page.locator(".crew :is(h1, h2, p, li, th, td, .quiet):not(.from-where, .plan-behind *)").evaluateAll((all) => all.map((element) => parseFloat((globalThis as unknown as { getComputedStyle(of: unknown): { fontSize: string } }).getComputedStyle(element).fontSize)));
    expect(sizes.length).toBeGreaterThan(50);
    // 96 px an inch, 72 pt.
    expect(Math.min(...sizes) * 0.75).toBeGreaterThanOrEqual(8.49);
  });

  it("speaks the reader's English, and leaves what is called so in print its words", async () => {
    const { page } = await sheet("&example=contractor-corn-day&words=uk");
    const stops = await page.locator(".stops").innerText();
    expect(stops).toContain("Stop the forager");
    expect(stops).toContain("Managing forage in bunker silos");
  });

  it("leads back to the very plan, changes and all", async () => {
    const first = await sheet("&example=contractor-corn-day-living&layer=10+cm&trucks.0=7");
    const { text: [front, back] } = await printed(first);
    expect(front).toContain("7 × Tipper");
    expect(front).toContain("Layer: 10 cm loose");
    const address = /https?:\S+(?: \S+)*?layer=10\+cm\S*/.exec(back!)![0].replaceAll(" ", "");
    const again = await visit(`#${address.split("#")[1]!}`);
    await again.page.locator(".crew .plan-behind").waitFor();
    await expect.poll(() => again.page.locator(".crew").innerText(), { timeout: PATIENCE }).toBe(await first.page.locator(".crew").innerText());
    expect(await first.page.locator(".square").count()).toBe(1);
    // This server listens to its own machine alone: nobody else gets there by the square, which the screen says and the paper need not.
    expect(await first.page.locator(".plan-behind").innerText()).toContain("This address opens on this machine only.");
    expect(back).not.toContain("this machine only");
  });
});

describe("the day sheet on the screen", () => {
  it.each(LONG ? [1440, 320] : [320])("has nothing that axe objects to and never scrolls sideways, %i px wide", async (width) => {
    const { page, complaints } = await sheet("&example=two-choppers-one-clamp", width);
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
    expect(await broken(page)).toEqual([]);
    expect(complaints).toEqual([]);
  });

  it("shows a driver on a phone all that is told of a field, and leaves out what is filled in by hand", async () => {
    const { page } = await sheet("&example=contractor-corn-day", 375);
    const table = page.locator("section[aria-labelledby=crew-fields] .scroll");
    expect(await table.evaluate((box) => box.scrollWidth - box.clientWidth)).toBeLessThanOrEqual(0);
    expect(await table.getByRole("columnheader", { name: "Moisture, %" }).isVisible()).toBe(true);
    expect(await page.getByRole("columnheader", { name: "Gate" }).count()).toBe(0);
  });
});
