import { describe, expect, it } from "vitest";
import { changed, setSlider, slider, strip, trucksShown, verdict } from "./day.ts";
import { LONG } from "./stage.ts";
import { onStage, until } from "./visiting.ts";

const { stage, visit } = onStage();

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

  it("puts the luck of a usual day into a plan without any at one press, and says so wherever the plan is told", async () => {
    const { page } = await visit();
    const before = (await verdict(page).textContent())!;
    await page.getByRole("link", { name: "What to change" }).click();
    expect(await page.locator(".change .plan").innerText()).toMatch(/^Contractor's corn day: 1 chopper at .* No luck is in it\./);
    await page.getByRole("link", { name: "The day", exact: true }).click();
    await page.getByRole("button", { name: "Put in a usual day's luck" }).click();
    await changed(page, before);
    await until(async () => (await page.locator(".clock-row").innerText()).includes("One day of 100"));
    expect(await page.locator(".plan").innerText()).not.toContain("No luck");
    await page.getByRole("button", { name: "Back to the example" }).first().click();
    await until(async () => (await verdict(page).textContent()) === before);
  });

  it("shows the answer to the last of many moves, whatever came in between", async () => {
    const { page } = await visit();
    for (const count of [6, 9, 3, 12, 2, 8, 1]) await setSlider(page, "Trucks", count);
    await trucksShown(page, 1);
    const said = await verdict(page).textContent();
    const { page: fresh } = await visit("#trucks.0=1");
    expect(await verdict(fresh).textContent()).toBe(said);
  });

  it("looks at the first ten days while a slider is held, and at all of them once it rests", async () => {
    const { page } = await visit("#example=low-meadow");
    const asked: unknown[] = [];
    page.on("request", (request) => { if (request.method() === "POST" && request.url().endsWith("/rehearsals")) asked.push((request.postDataJSON() as { rehearsals?: number }).rehearsals ?? "all"); });
    await slider(page, "Trucks").evaluate((element) => {
      const input = element as unknown as { value: string; dispatchEvent(event: unknown): void };
      for (const count of ["6", "3", "8"]) {
        input.value = count;
        input.dispatchEvent(new Event("input", { bubbles: true }));
      }
    });
    await trucksShown(page, 8);
    await until(async () => (await page.locator(".clock-row").innerText()).includes("One day of 100"));
    expect(asked).toEqual([10, 10, "all"]);
    const { page: fresh } = await visit("#example=low-meadow&trucks.0=8");
    expect(await verdict(page).textContent()).toBe(await verdict(fresh).textContent());
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

  it("says so where a crew is turned to nobody or to half a truck, in the reader's words and not in those of a file", async () => {
    const { page } = await visit();
    const before = await verdict(page).textContent();
    const why = page.locator(".field.wrong .why");
    const crew = page.getByRole("spinbutton", { name: "Packing tractors, exact" });
    await crew.fill("0");
    await why.waitFor();
    expect(await why.innerText()).toMatch(/^This is 0: a whole number from 1 to 12 would do\./);
    expect(await crew.inputValue()).toBe("0");
    expect(await verdict(page).textContent()).toBe(before);
    await crew.fill("2");
    await why.waitFor({ state: "detached" });
    await page.getByRole("spinbutton", { name: "Trucks, exact" }).fill("2.5");
    await why.waitFor();
    expect(await why.innerText()).toMatch(/^This is 2\.5: a whole number from 1 to/);
  });

  it("goes back to the example at one press", async () => {
    const { page } = await visit("#trucks.0=2&layer=30+cm");
    await page.getByRole("button", { name: "Back to the example" }).click();
    await trucksShown(page, 5);
    const { page: fresh } = await visit();
    expect(await verdict(page).textContent()).toBe(await verdict(fresh).textContent());
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

  it.each([["any question", "**/api/**", "#sheet=beside&example=bunker-12x45", ".side-choice select"], ["a rehearsal", "**/rehearsals", "#sheet=noon&example=low-meadow", ".noon .answer"]])(
    "to %s is asked once more at a press where there is no answer yet", async (_, asked, hash, answered) => {
      const { page } = await visit("#sheet=lessons");
      await page.route(asked, (route) => route.abort());
      await page.evaluate(`location.hash = ${JSON.stringify(hash)}`);
      await page.reload();
      await page.getByText("The server does not answer.").waitFor();
      await page.unroute(asked);
      await page.getByRole("button", { name: "Ask again" }).click();
      await page.locator(answered).waitFor();
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
