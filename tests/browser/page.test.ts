import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { LONG } from "./stage.ts";
import { broken, onStage, until } from "./visiting.ts";

const { stage, visit } = onStage();

const verdict = (page: Page) => page.locator(".answer");
const strip = (page: Page) => page.locator(".strip svg").innerHTML();
const slider = (page: Page, name: string) => page.getByRole("slider", { name, exact: true });
const clockShown = (page: Page) => page.locator(".clock").innerText();

/** Sets a slider as a hand does: the new value, and the event that says so. */
async function setSlider(page: Page, name: string, value: number): Promise<void> {
  await slider(page, name).evaluate((element, to) => {
    const input = element as unknown as { value: string; dispatchEvent(event: unknown): void };
    input.value = String(to);
    input.dispatchEvent(new Event("input", { bubbles: true }));
  }, value);
}

const trucksShown = (page: Page, count: number) => until(async () => (await page.locator(".strip .truck").count()) === count);

/** Waits for the verdict to say something else than it did. */
async function changed(page: Page, before: string): Promise<string> {
  await until(async () => (await verdict(page).textContent()) !== before);
  return (await verdict(page).textContent())!;
}

describe("opening the page", () => {
  it("has an answer and its drawing before the reader touches anything", async () => {
    const { page, complaints } = await visit();
    expect(await verdict(page).innerText()).toMatch(/Packing (falls behind at \d\d:\d\d|keeps pace)/);
    expect(await page.getByRole("heading", { level: 1 }).innerText()).toBe("Does packing keep up?");
    expect(await page.locator(".strip .truck").count()).toBe(5);
    expect(await page.locator(".strip .lift").count()).toBeGreaterThan(10);
    expect(await slider(page, "Trucks").inputValue()).toBe("5");
    expect(complaints).toEqual([]);
    expect(stage().reports).toEqual([]);
  });

  it("stands still until it is asked to play, with or without a wish for less motion", async () => {
    for (const reducedMotion of [false, true]) {
      const { page } = await visit("", { reducedMotion });
      const before = await strip(page);
      // Ten frames: anything that moves of its own accord has moved by then.
      await page.evaluate("new Promise((done) => { let left = 10; const next = () => (left-- ? requestAnimationFrame(next) : done()); next(); })");
      expect(await strip(page)).toBe(before);
    }
  });

  it("loads less than 150 kB of text, gzipped, before the first answer", () => {
    expect(stage().firstLoadBytes).toBeGreaterThan(10_000);
    expect(stage().firstLoadBytes).toBeLessThan(150_000);
  });
});

describe("changing the plan", () => {
  it("changes the verdict when a slider moves, and says the plan in words", async () => {
    const { page, complaints } = await visit();
    const before = (await verdict(page).textContent())!;
    await setSlider(page, "Packing tractors", 5);
    const after = await changed(page, before);
    expect(after).not.toBe(before);
    expect(await page.locator(".plan").innerText()).toContain("5 tractors");
    expect(await page.locator(".strip .tractor").count()).toBe(5);
    expect(complaints).toEqual([]);
  });

  it("shows the answer to the last of many moves, whatever came in between", async () => {
    const { page } = await visit();
    for (const count of [6, 9, 3, 12, 2, 8, 1]) await setSlider(page, "Trucks", count);
    await trucksShown(page, 1);
    const said = await verdict(page).textContent();
    const { page: fresh } = await visit("#trucks.0=1");
    expect(await verdict(fresh).textContent()).toBe(said);
  });

  it("never shows an empty or a waiting verdict while it asks", async () => {
    const { page } = await visit();
    await page.evaluate(`
      window.said = [];
      new MutationObserver(() => window.said.push(document.querySelector(".answer").textContent)).observe(document.querySelector(".answer"), { childList: true, characterData: true, subtree: true });
    `);
    const before = (await verdict(page).textContent())!;
    await setSlider(page, "Layer, loose", 30);
    await changed(page, before);
    const said = await page.evaluate("window.said") as string[];
    expect(said.length).toBeGreaterThan(0);
    for (const sentence of said) expect(sentence).toMatch(/pack/i);
  });

  it("says what is wrong at the control itself, and keeps the last sound answer", async () => {
    const { page } = await visit();
    const before = await verdict(page).textContent();
    const box = page.getByRole("spinbutton", { name: /^Layer, loose, exact/ });
    await box.fill("0");
    const why = page.locator(".field.wrong .why");
    await why.waitFor();
    expect((await why.innerText()).length).toBeGreaterThan(10);
    expect(await box.getAttribute("aria-invalid")).toBe("true");
    expect(await page.getByRole("alert").innerText()).toContain("The answer above is for the last plan that could.");
    expect(await verdict(page).textContent()).toBe(before);
    await box.fill("12");
    await why.waitFor({ state: "detached" });
  });

  it("goes back to the example at one press", async () => {
    const { page } = await visit("#trucks.0=2&layer=30+cm");
    await page.getByRole("button", { name: "Back to the example" }).click();
    await trucksShown(page, 5);
    const { page: fresh } = await visit();
    expect(await verdict(page).textContent()).toBe(await verdict(fresh).textContent());
  });
});

describe("replaying the day", () => {
  it("shows the same state at the same time, whether one opens there, scrubs there, steps there, or comes back", async () => {
    const { page } = await visit("#at=12:34");
    const opened = await strip(page);
    const scrub = slider(page, "Time of day");
    const there = 12 * 3600 + 34 * 60;
    await setSlider(page, "Time of day", 9 * 3600);
    expect(await strip(page)).not.toBe(opened);
    await setSlider(page, "Time of day", there);
    expect(await strip(page)).toBe(opened);
    await scrub.focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("ArrowLeft");
    expect(await strip(page)).toBe(opened);
    await page.getByRole("button", { name: "Step on" }).click();
    const stepped = await strip(page);
    expect(stepped).not.toBe(opened);
    const time = Number(await scrub.inputValue());
    await setSlider(page, "Time of day", 8 * 3600);
    await setSlider(page, "Time of day", time);
    expect(await strip(page)).toBe(stepped);
  });

  it("plays forward to the end of the day, pauses where it is told, and starts again from the morning", async () => {
    const { page, complaints } = await visit("#at=12:00");
    await page.getByRole("combobox", { name: "Speed" }).selectOption({ label: "30 min a second" });
    await page.getByRole("button", { name: "Play" }).click();
    await until(async () => (await clockShown(page)).includes("13:"));
    await page.getByRole("button", { name: "Pause" }).click();
    const paused = await strip(page);
    const time = Number(await slider(page, "Time of day").inputValue());
    await setSlider(page, "Time of day", 8 * 3600);
    await setSlider(page, "Time of day", time);
    expect(await strip(page)).toBe(paused);
    await slider(page, "Time of day").focus();
    await page.keyboard.press("End");
    await page.keyboard.press("Space");
    await until(async () => /0[78]:/.test(await clockShown(page)));
    expect(complaints).toEqual([]);
  });

  it("keeps every truck's number from field to clamp and back", async () => {
    const { page } = await visit();
    const numbers = async () => (await page.locator(".strip .truck-number").allTextContents()).sort();
    for (const hour of [7, 9, 12, 16]) {
      await setSlider(page, "Time of day", hour * 3600 + 600);
      expect(await numbers()).toEqual(["1", "2", "3", "4", "5"]);
    }
  });

  it("moves every picture by the one time cursor", async () => {
    const { page } = await visit();
    await setSlider(page, "Time of day", 10 * 3600);
    const cursors = await page.locator(".cursor").evaluateAll((paths) => paths.map((path) => (path as unknown as { getAttribute(name: string): string }).getAttribute("d").split(",")[0]));
    expect(cursors).toHaveLength(3);
    expect(new Set(cursors).size).toBe(1);
    expect(await clockShown(page)).toContain("10:00");
  });
});

describe("the address", () => {
  it("holds plan, time and units, and brings them back", async () => {
    const { page } = await visit();
    await setSlider(page, "Trucks", 7);
    await page.getByRole("radio", { name: "US" }).check();
    await setSlider(page, "Time of day", 11 * 3600);
    for (const part of ["trucks.0=7", "units=us", "at=11:00"]) await until(async () => page.url().includes(part));
    await trucksShown(page, 7);
    const shown = await strip(page);
    const { page: other } = await visit(new URL(page.url()).hash);
    expect(await slider(other, "Trucks").inputValue()).toBe("7");
    expect(await strip(other)).toBe(shown);
  });

  it("opens other worked examples", async () => {
    const { page } = await visit();
    const choice = page.getByRole("combobox", { name: "Example" });
    const ids = await choice.locator("option").evaluateAll((options) => options.map((option) => (option as unknown as { value: string }).value));
    expect(ids.length).toBeGreaterThan(1);
    for (const id of LONG ? ids : ids.slice(0, 2)) {
      const { page: other, complaints } = await visit(`#example=${id}`);
      expect(await other.locator(".strip .truck").count()).toBeGreaterThan(0);
      expect(complaints).toEqual([]);
    }
  });
});

describe("a server that does not answer", () => {
  it("is told of in words, the last answer stays, and the next change asks again", async () => {
    const { page } = await visit();
    const before = (await verdict(page).textContent())!;
    await page.route("**/api/**", (route) => route.abort());
    await setSlider(page, "Packing tractors", 5);
    await page.getByRole("alert").waitFor();
    expect(await page.getByRole("alert").innerText()).toContain("The server does not answer.");
    expect(await verdict(page).textContent()).toBe(before);
    await page.getByRole("combobox", { name: "Example" }).selectOption("low-meadow");
    await page.getByRole("alert").waitFor();
    expect(await page.getByRole("combobox", { name: "Example" }).inputValue()).toBe("contractor-corn-day");
    await page.unroute("**/api/**");
    await setSlider(page, "Packing tractors", 6);
    await changed(page, before);
    expect(await page.getByRole("alert").count()).toBe(0);
  });
});

describe("units", () => {
  it("change the display and nothing else: nothing is asked of the server, and the way back ends where it began", async () => {
    const { page } = await visit();
    const asked: string[] = [];
    page.on("request", (request) => { if (request.url().includes("/api/")) asked.push(request.url()); });
    const shown = async () => (await page.locator("main").innerText()).replaceAll("\u00a0", " ");
    const before = await shown();
    await page.getByRole("radio", { name: "US" }).check();
    const us = await shown();
    expect(us).toMatch(/lb DM\/ft³/);
    expect(us).not.toMatch(/kg DM\/m³|\d km\b/);
    await page.getByRole("radio", { name: "Metric" }).check();
    expect(await shown()).toBe(before);
    expect(asked).toEqual([]);
  });
});

describe("for everybody", () => {
  it.each(LONG ? [1440, 820, 360, 320] : [1440])("has nothing that axe objects to, %i px wide, closed and with everything opened", async (width) => {
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
    for (const hidden of [".controls", ".replay", ".example"]) expect(await page.locator(hidden).isVisible()).toBe(false);
  });
});

/** Figures out of a cell: thousands without their comma. */
const figuresIn = (text: string) => (text.match(/\d[\d,]*(?:\.\d+)?/g) ?? []).map((figure) => Number(figure.replaceAll(",", "")));

describe("from cut to fed", () => {
  it("falls from what is stored to what is fed by the lines that count, shows a line that is off as not counted, and gives the delay in words", async () => {
    const { page, complaints } = await visit("#example=us-corn-150-acres");
    const ledger = page.locator(".ledger");
    const rows = async (): Promise<Map<string, string[]>> => new Map((await ledger.locator("tbody tr").all().then((all) => Promise.all(all.map(async (row) =>
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
  });
});

describe("the strip", () => {
  it.each(LONG ? [1440, 820, 360] : [360])("has no label that touches another, %i px wide", async (width) => {
    for (const hash of ["", "#at=07:05", "#example=two-choppers-one-clamp", "#example=us-corn-150-acres"]) {
      const { page } = await visit(hash, { width });
      // Letters do not fill the height of their line: two lines may share 4 px.
      const touching = await page.evaluate(`(() => {
        const boxes = [...document.querySelectorAll(".strip text:not(.truck-number)")].filter((text) => text.textContent).map((text) => [text.textContent, text.getBoundingClientRect()]);
        return boxes.flatMap(([name, a], i) => boxes.slice(i + 1)
          .filter(([, b]) => Math.min(a.right, b.right) > Math.max(a.left, b.left) && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 4)
          .map(([other]) => name + " | " + other));
      })()`);
      expect(touching).toEqual([]);
    }
  });
});

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
