import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { setStage, type Stage } from "./stage.ts";

const PATIENCE = 60_000;
vi.setConfig({ testTimeout: 5 * PATIENCE });

let stage: Stage;
beforeAll(async () => { stage = await setStage(); }, 300_000);
afterAll(async () => { await stage?.close(); });

const figuresIn = (text: string): number[] => [...text.matchAll(/[\d,]*\d(?:\.\d+)?/g)].map(([figure]) => Number(figure.replaceAll(",", "")));
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

describe("plans side by side", () => {
  it("are rehearsed on the same luck, told apart day by day, played in step and drawn to one scale, and the address keeps which", async () => {
    const visit = await stage.open("#sheet=beside&example=dairy-bunker-900-cows&beside=dairy-pile-900-cows");
    const { page, complaints } = visit;
    const seeds: unknown[] = [];
    page.on("request", (request) => { if (request.url().endsWith("/rehearsals")) seeds.push((request.postDataJSON() as { seed?: number }).seed); });
    await page.locator("#scale").waitFor({ timeout: PATIENCE });
    const density = page.getByRole("row", { name: /^Dry matter density/ }).locator("td");
    const [, bunker, pile] = await density.allInnerTexts();
    const [a, aLow, aHigh] = figuresIn(bunker!);
    const [b, bLow, bHigh] = figuresIn(pile!);
    expect([aLow! < a! && a! < aHigh!, bLow! < b! && b! < bHigh!]).toEqual([true, true]);
    expect(Math.abs(Math.abs(a! - b!) - figuresIn(pile!)[3]!)).toBeLessThanOrEqual(1);
    expect(pile).toContain("inside the scatter of the published relation");
    await page.locator("#apart ~ ul li").first().waitFor({ timeout: PATIENCE });
    expect(await page.locator("#apart ~ ul").first().innerText()).toMatch(/is better at/);

    // One clock for both strips.
    const strips = page.locator(".in-step .strip svg");
    expect(await strips.count()).toBe(2);
    const before = await strips.allTextContents();
    await page.getByRole("slider", { name: "Time of day" }).focus();
    await page.keyboard.press("Home");
    await expect.poll(async () => (await strips.allTextContents()).every((text, i) => text !== before[i]), { timeout: PATIENCE }).toBe(true);

    // One metre for both storages: 18 m across a bunker, 40 m across the pile, in the same proportion on the page.
    const widths = await page.locator(".to-scale svg").evaluateAll((drawings: { querySelector(what: string): { getBBox(): { width: number } } }[]) => drawings.map((drawing) => drawing.querySelector("path").getBBox().width));
    await page.locator(".beside .twin summary").last().click();
    const told = (await page.locator(".beside .twin table tbody tr").allInnerTexts()).map((row) => Number(row.split("\t")[3]));
    expect(widths[1]! / widths[0]!).toBeCloseTo(told[1]! / told[0]!, 1);

    await page.getByRole("button", { name: "Set another beside it" }).click();
    await expect.poll(() => page.url(), { timeout: PATIENCE }).toMatch(/beside=dairy-pile-900-cows,/);
    await expect.poll(() => page.locator(".in-step .strip svg").count(), { timeout: PATIENCE }).toBe(3);
    expect(new Set(seeds).size).toBeLessThanOrEqual(1);
    await page.evaluate(axe);
    const violations = (await page.evaluate(`axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }).then((result) => result.violations.map(({ id, nodes }) => id + " " + nodes[0].target))`)) as string[];
    expect(violations).toEqual([]);
    expect(complaints).toEqual([]);
    await visit.close();
  });
});
