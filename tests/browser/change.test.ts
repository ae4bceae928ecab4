import { describe, expect, it } from "vitest";
import { PATIENCE } from "./stage.ts";
import { broken, onStage } from "./visiting.ts";

const { visit } = onStage();

describe("what to change", () => {
  it("ranks remedies by itself; one that is tried changes the plan and the verdict as its card said, and can be taken back", async () => {
    const { page, complaints } = await visit("#sheet=change&example=contractor-corn-day");
    const answer = page.locator(".change .answer");
    const card = page.locator(".card", { has: page.getByRole("heading", { name: /^A thinner layer: 10 cm/ }) });
    await card.waitFor({ timeout: PATIENCE });
    const before = await answer.innerText();
    // Packing falls behind, so what makes the clamp denser comes first, the most first; a caution is told whole once, and named from then on.
    await page.getByText(/^Each remedy is rehearsed .* One day each/).waitFor({ timeout: PATIENCE });
    const gains = (await page.locator(".card").allInnerTexts()).map((text) => Number(/density, kg\/m³\s+\+(\d+)/.exec(text)?.[1] ?? 0));
    expect(gains[0]).toBeGreaterThan(0);
    expect(gains[0]).toBe(Math.max(...gains));
    const whole = await page.locator(".cards .card-caution").allInnerTexts();
    expect(whole.length).toBeGreaterThan(0);
    expect(new Set(whole).size).toBe(whole.length);
    expect(await page.locator(".cards .caution-here").count()).toBeGreaterThan(0);
    // One day was rehearsed: nothing is said of a hundred, and an earlier end is no time of day.
    expect((await page.locator(".cards").innerText()).match(/of 100 days/)).toBeNull();
    expect(await page.locator(".card").first().innerText()).toContain("Packing keeps pace, as it did not before.");
    expect(await page.locator(".card", { hasText: "start earlier" }).first().locator(".effects").first().innerText()).toMatch(/Clamp closes, h:min\s+−\d:\d\d/);
    const gain = Number(/\+(\d+)/.exec(await card.locator(".better", { hasText: "density" }).locator("dd").innerText())![1]);
    await card.getByRole("button", { name: /^Try it/ }).click();
    await expect.poll(() => answer.innerText(), { timeout: PATIENCE }).not.toBe(before);
    const density = (text: string) => Number(/ends at (\d+)/.exec(text)![1]);
    // The day has no chance in it, so the card's difference is the verdict's own, each rounded.
    expect(Math.abs(density(await answer.innerText()) - density(before) - gain)).toBeLessThanOrEqual(1);
    await expect.poll(() => page.url(), { timeout: PATIENCE }).toContain("plan=");

    await page.getByRole("button", { name: /^Take it back/ }).click();
    await expect.poll(() => answer.innerText(), { timeout: PATIENCE }).toBe(before);
    await expect.poll(() => page.url(), { timeout: PATIENCE }).not.toContain("plan=");

    const small = page.locator("[aria-labelledby=multiples]");
    await small.getByRole("button", { name: "Draw it" }).click();
    await small.locator("svg").waitFor({ timeout: PATIENCE });
    expect(await small.locator("svg .strong").allTextContents()).toEqual(["5"]);
    // Chosen once something is drawn, packing tractors are drawn at once: one column a number, the target a line across.
    await small.getByRole("combobox").selectOption("tractors");
    await expect.poll(() => small.locator("svg .target").count(), { timeout: PATIENCE }).toBe(1);
    expect(await small.locator("svg .part-density").count()).toBeGreaterThanOrEqual(4);
    expect(await small.locator("svg .strong").allTextContents()).toEqual(["1"]);
    await page.locator("[aria-labelledby=price]").getByRole("button").click();
    await page.locator("[aria-labelledby=price] table").waitFor({ timeout: PATIENCE });
    expect(await page.locator("[aria-labelledby=price] table").innerText()).toContain("90 of 100 days");
    // A price is of the plan that it was worked out for: with another plan it is gone, and the picture of trucks and tractors follows.
    const told = () => small.locator("svg[role=img]").getAttribute("aria-label");
    const old = await told();
    await card.getByRole("button", { name: /^Try it/ }).click();
    await page.locator("[aria-labelledby=price]").getByRole("button", { name: "Work it out" }).waitFor({ timeout: PATIENCE });
    expect(await page.locator("[aria-labelledby=price] table").count()).toBe(0);
    await expect.poll(told, { timeout: PATIENCE }).not.toBe(old);
    await page.getByRole("button", { name: /^Take it back/ }).click();
    await page.locator("[aria-labelledby=price] table").waitFor({ timeout: PATIENCE });
    expect(await broken(page)).toEqual([]);
    expect(complaints).toEqual([]);
  });

  it("tells as tried only what is tried on the plan that is shown, also to whoever goes back to the plan before it", async () => {
    const { page } = await visit("#example=contractor-corn-day");
    await page.getByRole("link", { name: "What to change" }).click();
    await page.locator(".card").first().getByRole("button", { name: /^Try it/ }).click();
    await page.locator(".tried").waitFor();
    await expect.poll(() => page.url(), { timeout: PATIENCE }).toContain("plan=");
    // Another sheet and back by the head of the page: it is tried still.
    await page.getByRole("link", { name: "Day sheet" }).click();
    await page.getByRole("link", { name: "What to change" }).click();
    expect(await page.locator(".tried li").count()).toBe(1);
    await page.goBack();
    await page.goBack();
    await page.goBack();
    await expect.poll(() => page.url(), { timeout: PATIENCE }).not.toContain("plan=");
    await page.getByRole("link", { name: "What to change" }).click();
    await page.locator(".card").first().waitFor({ timeout: PATIENCE });
    expect(await page.locator(".tried").count()).toBe(0);
  });

  it("keeps in the address what the reader looks for first, and ranks by it when the page is loaded again", async () => {
    const { page, complaints } = await visit("#sheet=change&example=contractor-corn-day");
    await page.getByText(/^Each remedy is rehearsed .* One day each/).waitFor({ timeout: PATIENCE });
    const names = () => page.locator(".cards h3").allInnerTexts();
    const densest = await names();
    const first = page.getByRole("combobox", { name: "First" });
    await first.selectOption("finish");
    await expect.poll(names).not.toEqual(densest);
    const soonest = await names();
    await expect.poll(() => page.url()).toContain("order=finish");
    await page.reload();
    await page.getByText(/^Each remedy is rehearsed .* One day each/).waitFor({ timeout: PATIENCE });
    expect(await first.inputValue()).toBe("finish");
    expect(await names()).toEqual(soonest);
    expect(complaints).toEqual([]);
  });

  it("searches for a crew within the ranges asked for, and takes the plan it found", async () => {
    const { page, complaints } = await visit("#sheet=change&example=contractor-corn-day");
    const crew = page.locator("[aria-labelledby=crew]");
    await crew.getByRole("button", { name: "Search" }).waitFor({ timeout: PATIENCE });
    const to = crew.getByRole("spinbutton", { name: /^Packing tractors beside/ }).last();
    await to.fill("6");
    const asked = page.waitForRequest((request) => request.method() === "POST" && request.postData()!.includes("crewup"));
    // The key that asks is the one that ends the figure.
    await to.press("Enter");
    expect(((await asked).postDataJSON() as { scenario: { search: { tractors: { to: number } } } }).scenario.search.tractors.to).toBe(6);
    await expect.poll(() => page.url(), { timeout: PATIENCE }).toContain("plan=");
    await crew.locator(".card").waitFor({ timeout: 2 * PATIENCE });
    const found = await crew.locator(".card h3").innerText();
    const before = await page.locator(".change .answer").innerText();
    await crew.getByRole("button", { name: "Take this plan" }).click();
    await expect.poll(() => page.locator(".change .answer").innerText(), { timeout: PATIENCE }).not.toBe(before);
    const trucks = /: (\d+) trucks/.exec(found)![1]!;
    expect(await page.locator(".change .plan").innerText()).toContain(`${trucks} truck`);
    expect(complaints).toEqual([]);
  });

  it("says what stands in the way where no crew does, and goes on at a press: beyond the ends of the search, or to the remedies of the nearest plan", async () => {
    const { page, complaints } = await visit("#sheet=change&example=contractor-corn-day");
    const crew = page.locator("[aria-labelledby=crew]");
    await crew.getByRole("button", { name: "Search" }).waitFor({ timeout: PATIENCE });
    const tractors = crew.getByRole("spinbutton", { name: /^Packing tractors beside/ });
    await tractors.last().fill("1");
    await tractors.last().press("Enter");
    await crew.getByRole("heading", { name: /^None does/ }).waitFor({ timeout: PATIENCE });
    expect(await crew.locator(".in-the-way").innerText()).toMatch(/^The clamp comes to \d+\skg\/m³; the target is 240\skg\/m³\.$/);
    // A day without luck is met always or never: there is no lesser certainty to ask for.
    expect(await crew.getByRole("button", { name: /^Ask for/ }).count()).toBe(0);
    expect(await broken(page)).toEqual([]);

    const search = async (name: RegExp) => {
      const asked = page.waitForRequest((request) => request.method() === "POST" && request.postData()!.includes("crewup"));
      await crew.getByRole("button", { name }).click();
      return ((await asked).postDataJSON() as { scenario: { search: { tractors: { to: number }; rules?: readonly string[] } } }).scenario.search;
    };
    expect((await search(/1 to 3 packing tractors$/)).tractors.to).toBe(3);
    expect(await tractors.last().inputValue()).toBe("3");
    await crew.getByRole("heading", { name: /^None does/ }).waitFor({ timeout: PATIENCE });
    const trucks = /nearest: (\d+) trucks/.exec(await crew.locator(".card h3").innerText())![1]!;
    await crew.getByRole("button", { name: "Take this plan and see its remedies" }).click();
    expect(await page.evaluate("document.activeElement.id")).toBe("remedies");
    await expect.poll(() => page.locator(".change .plan").innerText(), { timeout: PATIENCE }).toContain(`${trucks} truck`);
    expect((await search(/^Search with every rule$/)).rules!.length).toBeGreaterThan(2);
    await expect.poll(() => crew.getByRole("button", { name: "Search with every rule" }).count(), { timeout: PATIENCE }).toBe(0);
    expect(complaints).toEqual([]);
  });

  it("shows a ranking while the search goes on, and stops it on the server when told to", async () => {
    const { page, complaints } = await visit("#sheet=change&example=contractor-corn-day-living");
    const crew = page.locator("[aria-labelledby=crew]");
    await crew.getByRole("checkbox", { name: "Any rule" }).check();
    await crew.getByRole("spinbutton", { name: /^Trucks/ }).last().fill("12");
    await crew.getByRole("button", { name: "Search" }).click();
    await crew.locator("tbody tr").first().waitFor({ timeout: PATIENCE });
    expect(await crew.locator("tbody tr").first().innerText()).toMatch(/truck.*of 100 days/s);
    const cancelled = page.waitForRequest((request) => request.method() === "DELETE");
    await crew.getByRole("button", { name: "Stop" }).click();
    await crew.getByRole("alert").filter({ hasText: "Given up." }).waitFor({ timeout: PATIENCE });
    const { state } = (await (await page.request.get((await cancelled).url())).json()) as { state: string };
    expect(state).toBe("cancelled");
    expect(complaints).toEqual([]);
  });
});
