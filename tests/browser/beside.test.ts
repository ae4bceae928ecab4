import type { Page } from "playwright-core";
import { extractText, getDocumentProxy } from "unpdf";
import { describe, expect, it } from "vitest";
import { PATIENCE } from "./stage.ts";
import { broken, onStage, until } from "./visiting.ts";

const { visit } = onStage();

const sheet = (hash: string, width = 1280) => visit(hash, { width });

const figuresIn = (text: string): number[] => [...text.matchAll(/[\d,]*\d(?:\.\d+)?/g)].map(([figure]) => Number(figure.replaceAll(",", "")));
const cells = (page: Page, measure: string) => page.locator(".side").getByRole("row", { name: new RegExp(`^${measure}`) }).locator("td").allInnerTexts();
/** Waits until the pairs of days are compared. */
const compared = (page: Page) => page.locator(".apart li").first().waitFor({ timeout: PATIENCE });

const BROOK = "#sheet=beside&example=bunker-12x45&beside=pile-for-12x45";

describe("plans side by side", () => {
  it("are held against the plan as opened on the same luck; the second column is what that plan says of itself, and the model's scatter is told", async () => {
    const { page, complaints } = await sheet("#example=bunker-12x45&trucks.0=6");
    const seeds: unknown[] = [];
    page.on("request", (request) => { if (request.url().endsWith("/rehearsals")) seeds.push((request.postDataJSON() as { seed?: number }).seed); });
    await page.getByRole("link", { name: "Side by side" }).click();
    await compared(page);
    await until(async () => page.url().includes("beside=as-opened"));
    // Those without a seed are the page's own, of the plan itself.
    expect(new Set(seeds.filter((seed) => seed !== undefined))).toEqual(new Set([1]));
    const [now, other] = await cells(page, "Dry matter density");
    const [a, aLow, aHigh] = figuresIn(now!);
    const [b, bLow, bHigh] = figuresIn(other!);
    expect(bLow! <= a! && a! <= bHigh! && aLow! <= b! && b! <= aHigh!).toBe(true);
    expect(other).toMatch(/inside the scatter of the published relation|the same/);

    const { page: opened } = await sheet("#example=bunker-12x45");
    const itsOwn = await opened.locator("#figure-dryDensity .amount").innerText();
    expect(b).toBe(figuresIn(itsOwn)[0]);
    expect(complaints).toEqual([]);
  });

  it("begin with the plan that an example names, and with none where any other would do as well; money that does not compare is said in a sentence", async () => {
    const { page } = await sheet("#sheet=beside&example=bunker-12x45");
    await until(async () => page.url().includes("beside=pile-for-12x45"));
    await page.getByRole("combobox", { name: "Plan B" }).selectOption({ label: "Nine hundred cows, the pile" });
    const answer = page.locator(".beside .answer");
    await answer.waitFor({ timeout: PATIENCE });
    await until(async () => (await answer.innerText()) === "What a tonne fed costs is told in different money, and does not compare.");

    const { page: alone } = await sheet("#sheet=beside&example=low-meadow");
    await alone.getByText("Nothing is set beside it yet.").waitFor();
    expect(await alone.locator(".choices .side-choice").count()).toBe(1);
    await alone.getByRole("button", { name: "Set another beside it" }).click();
    await until(async () => alone.url().includes("beside="));
  });

  it("may be the reader's own crop and crew in another plan's storage, which is held in the address", async () => {
    const { page, complaints } = await sheet("#sheet=beside&example=bunker-12x45&trucks.0=6&beside=as-opened");
    const choice = page.getByRole("combobox", { name: "Plan B" });
    await choice.selectOption({ label: "This plan, stored as in Brook Field, the pile" });
    await compared(page);
    await until(async () => page.url().includes("beside=stored_as_pile-for-12x45"));
    const stored = (await cells(page, "Dry matter stored")).map((text) => figuresIn(text)[0]);
    expect(stored[0]).toBe(stored[1]);
    // A metre less high and without walls: more to cover.
    const [bunker, pile] = (await cells(page, "Area to cover")).map((text) => figuresIn(text)[0]!);
    expect(pile).toBeGreaterThan(bunker!);
    const widths = await page.locator("[aria-labelledby=scale] table").getByRole("row", { name: /^Width/ }).locator("td").allInnerTexts();
    expect(widths.slice(-2)).toEqual(["12", "26"]);
    const { page: again } = await sheet(new URL(page.url()).hash);
    await until(async () => (await again.getByRole("combobox", { name: "Plan B" }).inputValue()) === "stored_as_pile-for-12x45");
    expect(complaints).toEqual([]);
  });

  it("are told apart by pairs of days, with limits and what the difference is worth; the address brings the same sheet again", async () => {
    const { page, complaints } = await sheet(BROOK);
    await compared(page);
    const [bunker, pile] = await cells(page, "Dry matter density");
    const [a] = figuresIn(bunker!);
    const [b, , , difference] = figuresIn(pile!);
    expect(Math.abs(Math.abs(a! - b!) - difference!)).toBeLessThanOrEqual(1);
    expect(pile).toContain("inside the scatter of the published relation");
    const [, costs] = await cells(page, "Cost, dry matter fed");
    expect(costs).toMatch(/−[\d.]+ −[\d.]+ to −[\d.]+/);
    // What the loss ledger or the relation leaves open is no win, wherever the page speaks of it.
    const told = await page.locator(".apart").innerText();
    for (const measure of ["Dry matter fed", "Cost, dry matter fed"]) expect((await cells(page, measure))[1]).toContain("inside the range of the loss ledger");
    expect(told).toContain("by less than the loss ledger leaves open: B at cost, dry matter fed; A at dry matter fed.");
    expect(told).toContain("By the middle of what the loss ledger leaves open, dry matter fed costs least in B");
    expect(told).toMatch(/The densities of B and A differ by \d+\skg\/m³, and clamps packed alike by as much/);
    expect(told).not.toContain("is better at");
    const { page: again } = await sheet(new URL(page.url()).hash);
    await compared(again);
    expect(await again.locator(".side table").innerText()).toBe(await page.locator(".side table").innerText());

    await page.getByRole("button", { name: "Set another beside it" }).click();
    await until(async () => /beside=pile-for-12x45,/.test(page.url()));
    await until(async () => (await page.locator(".in-step .strip svg").count()) === 3);
    await page.getByRole("button", { name: "Take Brook Field, the pile away" }).click();
    await until(async () => (await page.locator(".in-step .strip svg").count()) === 2);
    expect(complaints).toEqual([]);
  });

  it("answer before anything else which feeds cheapest and what that is made of; each figure opens where it comes from in every plan, and cautions stand at the storage they concern", async () => {
    const { page } = await sheet("#sheet=beside&example=dairy-bunker-900-cows&beside=dairy-pile-900-cows");
    await compared(page);
    expect(await page.locator("main h2").first().innerText()).toBe("What tells them apart");
    const [pile, bunker] = figuresIn(await page.locator(".beside .answer").innerText());
    expect(pile).toBeLessThan(bunker!);
    expect(await page.locator(".beside .answer").innerText()).toMatch(/^Dry matter fed costs least in B: /);
    expect(await page.locator(".apart").innerText()).toMatch(/B is better at: cost, dry matter fed\.\s+Ahead on the days rehearsed, but by less than the loss ledger leaves open: A at dry matter fed\./);
    const rows = await page.locator(".cost-of-fed tbody tr").evaluateAll((all: { querySelectorAll(what: string): Iterable<{ innerText: string }> }[]) => all.map((row) => Array.from(row.querySelectorAll("td"), (cell) => Number(cell.innerText))));
    const whole = rows.at(-1)!;
    expect(whole).toEqual([bunker, pile]);
    // Each part is printed to the cent.
    whole.forEach((sum, i) => expect(Math.abs(rows.slice(0, -1).reduce((parts, row) => parts + row[i]!, 0) - sum)).toBeLessThanOrEqual(0.005 * rows.length + 1e-9));
    for (const part of ["Concrete and pad", "no interest"]) expect(await page.locator(".cost-of-fed").innerText()).toContain(part);

    await page.getByRole("button", { name: "Cost, dry matter fed" }).click();
    const opened = page.locator(".derived .derivation");
    expect(await opened.count()).toBe(2);
    expect(await opened.nth(1).innerText()).toMatch(/With the numbers[\s\S]* = [\d.]+ USD per t/);
    expect(await page.getByRole("button", { name: "Cost, dry matter fed" }).getAttribute("aria-expanded")).toBe("true");
    const cautions = page.locator(".its-cautions");
    expect(await cautions.nth(0).innerText()).toContain("Caution: wall");
    expect(await cautions.nth(1).innerText()).toContain("Caution: trucks on slopes");
    const atTheFace = page.locator("[aria-labelledby=scale] table").getByRole("row", { name: /^The face moves on, a day/ });
    const [narrow, wide] = figuresIn((await atTheFace.innerText()).replace("The face moves on, a day", ""));
    expect(narrow).toBeGreaterThan(wide!);
  });

  it("run one and the same day in step under one clock: as long as nobody is held up, the same truck is under the same spout", async () => {
    const { page } = await sheet(`${BROOK}&at=08:00`);
    const strips = page.locator(".in-step .strip svg");
    await strips.nth(1).waitFor({ timeout: PATIENCE });
    const said = () => strips.evaluateAll((drawings: { getAttribute(name: string): string }[]) => drawings.map((drawing) => drawing.getAttribute("aria-label")));
    const eight = await said();
    for (const text of eight) expect(text).toContain("The harvest at 08:00");
    // Chopper and trucks have the same luck and are never held up at either storage, so that the field and the road are the same to the letter.
    const outThere = (text: string) => text.slice(0, text.indexOf("empty on the road"));
    expect(outThere(eight[0]!)).toBe(outThere(eight[1]!));
    await page.getByRole("slider", { name: "Time of day" }).focus();
    await page.keyboard.press("ArrowRight");
    await until(async () => (await said()).every((text) => text.includes("The harvest at 08:01")));
    await page.getByRole("button", { name: "Play" }).click();
    await until(async () => (await page.locator(".in-step .clock").innerText()) > "08:05");
  });

  it("are drawn with one metre, and that sheet is printed whole, without what only a screen needs", async () => {
    const { page } = await sheet(BROOK);
    await compared(page);
    const across = await page.locator("[aria-labelledby=scale] svg[role=img] .ground").evaluateAll((lines: { getBBox(): { width: number } }[]) => lines.map((line) => line.getBBox().width));
    const measured = async (what: string) => figuresIn((await page.locator("[aria-labelledby=scale] table").getByRole("row", { name: new RegExp(`^${what}`) }).innerText()).replace(/m²?/, ""));
    const [wide, long] = [await measured("Width"), await measured("Length")];
    // 12 m and 26 m across, 45 m and 44 m lengthwise, each printed to the metre.
    const metres = [wide[0]!, long[0]!, wide[1]!, long[1]!];
    const perMetre = across[0]! / metres[0]!;
    across.forEach((px, i) => expect(Math.abs(px / metres[i]! / perMetre - 1)).toBeLessThan(0.5 / metres[i]! + 0.5 / metres[0]!));

    const cautions = await page.locator(".its-cautions details p").evaluateAll((all) => all.map((told) => (told.firstChild as unknown as { textContent: string }).textContent));
    expect(cautions.length).toBeGreaterThan(3);
    const print = await getDocumentProxy(new Uint8Array(await page.pdf({ preferCSSPageSize: true })));
    const text = (await extractText(print)).text.join(" ").replaceAll(/\s+/g, " ");
    expect(print.numPages).toBeLessThanOrEqual(2);
    // Nothing opens on paper: a caution is told whole. A line that is broken comes back with a blank in it.
    const bare = (said: string) => said.replaceAll(/\s+/g, "");
    for (const caution of cautions) expect(bare(text)).toContain(bare(caution));
    for (const part of ["Brook Field, the pile", "What tells them apart", "To one scale", "Area to cover", "Lost until it is fed", "Cost to build", "What a tonne fed costs"]) expect(text).toContain(part);
    for (const button of ["Print this sheet", "Set another beside it", "Play"]) expect(text).not.toContain(button);
  });

  it.each([1440, 320])("have nothing that axe objects to and never scroll sideways, %i px wide", async (width) => {
    const { page, complaints } = await sheet(`${BROOK}&units=us`, width);
    await compared(page);
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
    expect(await broken(page)).toEqual([]);
    expect(complaints).toEqual([]);
  });
});
