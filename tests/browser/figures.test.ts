import { describe, expect, it } from "vitest";
import { clockOf } from "../../sim/findings/clock.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { example } from "../scenarios/example.ts";
import { setSlider } from "./day.ts";
import { onStage, until } from "./visiting.ts";

const { visit } = onStage();

describe("every figure", () => {
  it("opens to its formula, what went in, its source and its mark", async () => {
    const { page } = await visit();
    const rows = page.locator(".figure-row");
    expect(await rows.count()).toBeGreaterThan(15);
    for (const row of await rows.all()) {
      await row.locator("> summary").click();
      const terms = await row.locator("dt").allInnerTexts();
      expect(terms).toEqual(expect.arrayContaining(["Formula", "Source", "Mark"]));
    }
  });
});

/** Figures out of a cell: thousands without their comma. */
const figuresIn = (text: string) => (text.match(/\d[\d,]*(?:\.\d+)?/g) ?? []).map((figure) => Number(figure.replaceAll(",", "")));

describe("from cut to fed", () => {
  it("falls from what is stored to what is fed by the lines that count, shows a line that is off as not counted, and gives the delay in words", async () => {
    const { page, complaints } = await visit("#example=us-corn-150-acres");
    const ledger = page.locator(".ledger");
    const rows = async (): Promise<Map<string, string[]>> => new Map((await ledger.locator(".twin tbody tr").all().then((all) => Promise.all(all.map(async (row) =>
      [await row.locator("th").innerText(), await row.locator("td").allInnerTexts()] as const)))));
    const open = () => ledger.locator("summary", { hasText: "The same as a table" }).click();
    await open();
    const counts = (table: Map<string, string[]>) => {
      const stored = figuresIn(table.get("Dry matter stored")![0]!)[0]!;
      const lost = [...table.values()].filter((cells) => cells[3] === "counted").reduce((sum, cells) => sum + figuresIn(cells[0]!)[0]!, 0);
      // Every figure is rounded to a tonne at the worst: seven of them to half a tonne each.
      expect(Math.abs(stored - lost - figuresIn(table.get("Dry matter left to feed")![0]!)[0]!)).toBeLessThanOrEqual(3.5);
    };
    const whole = await rows();
    expect([...whole.keys()]).toEqual(["Dry matter cut", "Dry matter stored", "Effluent", "Fermentation", "Loose packing", "Top layer", "Delay before sealing", "Open face", "Dry matter left to feed"]);
    expect(whole.get("Delay before sealing")!.slice(0, 4)).toEqual(["", "", "", "no figure"]);
    expect(await ledger.locator(".evidence").innerText()).toContain("Seal without delay");
    counts(whole);

    // The same plan with the open face switched off, as a scenario file may have it.
    await page.route("**/api/v1/rehearsals", async (route) => {
      const body = route.request().postDataJSON() as { scenario: object };
      await route.continue({ postData: JSON.stringify({ ...body, scenario: { ...body.scenario, losses: { face: "off" } } }) });
    });
    const before = (await ledger.locator("svg").getAttribute("aria-label"))!;
    await setSlider(page, "Trucks", 9);
    await until(async () => (await ledger.locator("svg").getAttribute("aria-label")) !== before);
    const without = await rows();
    expect(without.get("Open face")![3]).toBe("not counted");
    expect(figuresIn(without.get("Open face")![0]!)[0]).toBeGreaterThan(0);
    expect(await ledger.locator("svg .lost-off").count()).toBe(1);
    counts(without);
    expect(complaints).toEqual([]);
  });

  it("tells how the herd empties the clamp, and what a tonne comes to, with dry matter lost beside the total and not in it", async () => {
    const { page } = await visit("#example=us-corn-150-acres");
    const feeding = page.getByRole("region", { name: "Feeding out" }).locator("tbody tr").first();
    const [advance, least, pace, days, open] = await feeding.locator("td").allInnerTexts();
    expect(pace).toBe(figuresIn(advance!)[0]! < figuresIn(least!)[0]! ? "slower than advised" : "fast enough");
    const [central, low, high] = figuresIn(days!);
    expect(low).toBeLessThan(central!);
    expect(high).toBeGreaterThan(central!);
    expect(open).toMatch(/^\d+ days, better \d+$/);
    const money = page.getByRole("region", { name: "Money" });
    const inTotal = await money.locator("table").first().locator("tbody tr:not(.total) td:nth-of-type(1)").allInnerTexts();
    const total = figuresIn(await money.locator(".total td").first().innerText())[0]!;
    // Each line and the total are rounded to one.
    expect(Math.abs(inTotal.reduce((sum, text) => sum + figuresIn(text)[0]!, 0) - total)).toBeLessThanOrEqual((inTotal.length + 1) / 2);
    expect(await money.locator("table").first().innerText()).not.toContain("Dry matter lost");
    expect(await money.locator(".beside-total").innerText()).toContain("Dry matter lost");
    expect(await money.locator(".per-tonne tbody tr").count()).toBe(3);
    // In a table of its own, and under the column that it is no part of.
    const right = async (cell: string) => { const { x, width } = (await money.locator(cell).first().boundingBox())!; return Math.round(x + width); };
    expect(await right(".beside-total tbody td")).toBe(await right(".total td"));
  });
});

describe("what is asked next", () => {
  it("stands under the answer, says what the figures and the day sheet say, and leads to where it comes from", async () => {
    const { page } = await visit("#example=low-meadow");
    const short = page.locator(".in-short");
    const told = async (name: string) => (await short.locator("div", { has: page.getByRole("button", { name, exact: true }) }).locator("dd").innerText()).replaceAll(/\s+/g, " ").trim();
    const row = async (name: string) => (await page.locator(".figure-row", { hasText: name }).first().locator("summary").first().innerText()).replaceAll(/\s+/g, " ");
    expect(await row("Chopper waiting")).toContain((await told("Chopper waiting")).replace(/ most days.*/, ""));
    expect(await row("Cost, fresh, delivered")).toContain((await told("Cost, fresh, delivered")).replace(/ most days.*/, ""));
    expect(await row("Dry matter fed")).toContain((await told("Dry matter fed")).replace(/ \d+ to.*/, ""));
    const [at, early, late] = (await told("Packed and closed")).match(/\d\d:\d\d/g)!;
    await short.getByRole("button", { name: "Packed and closed" }).focus();
    await page.keyboard.press("Enter");
    await page.locator("#figure-finishedAt[open] .derivation").waitFor();
    expect(await page.evaluate("document.activeElement.matches('#figure-finishedAt summary')")).toBe(true);
    await page.getByRole("link", { name: "Day sheet" }).click();
    await page.getByText(`between ${early} and ${late} on 8 of 10 days, about ${at} on the average`).waitFor();
  });

  it("says when all is closed to the nearest minute, as the sentences and the terminal do", async () => {
    const plan = example("contractor-corn-day");
    const closed = plan.shift.start + rehearse(plan, { rehearsals: 1 }).findings.measures.finishedAt!.mean * 3600;
    // Most of a minute past the one before it, so that cutting it off would show.
    expect(closed % 60).toBeGreaterThan(30);
    const { page } = await visit("#example=contractor-corn-day");
    await page.locator(".in-short", { hasText: clockOf(closed) }).waitFor();
  });

  it("keeps its place free until the answer is there, so that nothing below it jumps", async () => {
    const { page } = await visit();
    expect(await page.locator(".in-short").evaluate((box) => box.clientHeight)).toBeLessThanOrEqual(72);
  });
});
