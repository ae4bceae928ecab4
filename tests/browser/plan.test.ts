import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { LONG } from "./stage.ts";
import { broken, onStage, until } from "./visiting.ts";

const { stage, visit } = onStage();

const verdict = async (page: Page) => (await page.locator(".answer").textContent())!;
const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });
const figure = (page: Page, name: string) => page.getByRole("spinbutton", { name, exact: true }).last();

async function openWhole(page: Page): Promise<void> {
  await button(page, "Open the whole plan").first().click();
  await page.locator("form.whole-plan").waitFor();
}

async function openKeeping(page: Page): Promise<void> {
  await button(page, "Keep, open, files").click();
  await page.locator(".keeping").waitFor();
}

/** Does something, and waits until the verdict says something else than before. */
async function changing(page: Page, act: () => Promise<unknown>): Promise<void> {
  const before = await verdict(page);
  await act();
  await until(async () => (await verdict(page)) !== before);
}

describe("the whole plan", () => {
  it("stands before whoever opens it, the first time as well, when it has to be fetched", async () => {
    const { page } = await visit();
    const top = async () => Math.round((await page.locator("form.whole-plan").boundingBox())!.y);
    await openWhole(page);
    await until(async () => (await top()) === 0);
    expect(await page.evaluate("document.activeElement.id")).toBe("whole-plan");
    await button(page, "Close the whole plan").first().click();
    await openWhole(page);
    await until(async () => (await top()) === 0);
  });

  it("is open again where an address says so, the page standing at its top, and closed for whoever goes back to before it was opened", async () => {
    const { page } = await visit();
    await openWhole(page);
    await until(async () => page.url().includes("whole=open"));
    const { page: again } = await visit(new URL(page.url()).hash);
    await again.locator("form.whole-plan").waitFor();
    expect(await again.evaluate("scrollY")).toBe(0);
    await again.evaluate("location.hash = '#example=low-meadow'");
    await again.locator("form.whole-plan").waitFor({ state: "detached" });
    await button(page, "Close the whole plan").first().click();
    await until(async () => !page.url().includes("whole="));
  });

  it("is changed by mouse and by keyboard from a cold start, and the verdict follows each change", async () => {
    const { page, complaints } = await visit();
    await openWhole(page);
    expect(await broken(page)).toEqual([]);

    const mass = figure(page, "Roller: Mass, t");
    await mass.scrollIntoViewIfNeeded();
    const box = (await mass.boundingBox())!;
    await changing(page, async () => {
      await page.mouse.move(box.x + 10, box.y + 10);
      await page.mouse.down();
      await page.mouse.move(box.x + 70, box.y + 10, { steps: 3 });
      await page.mouse.up();
    });
    expect(Number(await mass.inputValue())).toBe(26);

    await changing(page, async () => {
      await figure(page, "Blade: Mass, t").focus();
      await page.keyboard.press("Shift+ArrowUp");
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("ArrowDown");
    });
    expect(await figure(page, "Blade: Mass, t").inputValue()).toBe("22");

    const area = figure(page, "Long Strip: Area, ha");
    await area.click();
    await page.keyboard.type("40 acre");
    await page.keyboard.press("Tab");
    expect(await area.inputValue()).toBe("16.2");
    await until(async () => /16\.2\sha cut/.test((await page.locator(".strip").textContent())!));
    // 40 acres are 16.19 ha; at 45 t/ha that is 728 t, and two such fields bring 1,457 t.
    await button(page, "Add a field").click();
    await until(async () => (await page.locator(".figures").textContent())!.includes("1,457"));
    expect(await figure(page, "Long Strip 2: Area, ha").inputValue()).toBe("16.2");
    expect(complaints).toEqual([]);
    expect(stage().reports).toEqual([]);
  });

  it("has a name of the reader's own, under which the day goes on to its crew", async () => {
    const { page } = await visit();
    await openWhole(page);
    expect(await page.locator(".desk .plan").innerText()).not.toContain("Contractor's corn day:");
    await page.getByLabel("Name of the plan", { exact: true }).fill("Home farm, Monday");
    await page.keyboard.press("Tab");
    await until(async () => (await page.locator(".desk .plan").innerText()).startsWith("Home farm, Monday: "));
    await page.getByRole("link", { name: "Day sheet" }).click();
    await page.getByRole("heading", { name: "Day sheet: Home farm, Monday" }).waitFor();
  });

  it("leads whoever adds or copies something to its first input, where the next key takes the place of what was taken over", async () => {
    const { page } = await visit();
    await openWhole(page);
    const has = () => page.evaluate("document.activeElement.getAttribute('aria-label')");
    await button(page, "Add a field").focus();
    await page.keyboard.press("Enter");
    await until(async () => (await has()) === "Long Strip 2: Name");
    await page.keyboard.type("Mill Ley");
    await page.keyboard.press("Tab");
    await page.getByLabel("Mill Ley: Name").waitFor();
    expect(await has()).toBe("Mill Ley: Area, ha");
    await button(page, "Copy Tipper").focus();
    await page.keyboard.press("Enter");
    await until(async () => (await has()) === "Tipper 2: How many");
    await button(page, "Add a break").focus();
    await page.keyboard.press("Enter");
    await until(async () => /Length of the break/.test(String(await has())));
  });

  it("tells a wrong value at its place, keeps the last sound answer, and goes on with the rest", async () => {
    const { page } = await visit();
    await openWhole(page);
    const before = await verdict(page);
    const area = figure(page, "Long Strip: Area, ha");
    await area.fill("9000");
    const why = page.locator("#plan-fields-0-area-wrong");
    await why.waitFor();
    expect(await why.innerText()).toMatch(/^This is "9000\sha": .*up to 5000\sha would do/);
    expect(await area.getAttribute("aria-invalid")).toBe("true");
    expect(await verdict(page)).toBe(before);
    await figure(page, "Roller: Mass, t").fill("30");
    await figure(page, "Long Strip: Road, km").fill("far away");
    expect(await page.locator("#plan-fields-0-distance-wrong").count()).toBe(0);
    await page.keyboard.press("Tab");
    await page.locator("#plan-fields-0-distance-wrong").waitFor();
    expect(await broken(page)).toEqual([]);
    await figure(page, "Long Strip: Road, km").fill("2.4");
    await changing(page, () => area.fill("30"));
    expect(await why.count()).toBe(0);
    expect(await figure(page, "Roller: Mass, t").inputValue()).toBe("30");
  });

  it.runIf(LONG)("shows limits and what is usual on request, and goes back to the usual", async () => {
    const { page } = await visit();
    await openWhole(page);
    await button(page, "Chopper: More to say (8)").click();
    const turn = figure(page, "Chopper: Turn, s");
    await turn.fill("90");
    await button(page, "Turn: back to usual").click();
    await until(async () => (await turn.inputValue()) === "25");
    expect(await page.locator(".rows li", { has: turn }).innerText()).toMatch(/usual: 25\ss \(assumption of this project\)/);
    const help = button(page, "Help: Chopper Turn");
    await help.click();
    expect(await help.getAttribute("aria-expanded")).toBe("true");
    expect(await page.locator("p.help").innerText()).toMatch(/up to 30\smin/);
  });

  it.runIf(LONG)("fits a phone, and its targets a hand in a glove", async () => {
    const { page } = await visit("#paper=sun", { width: 360 });
    await openWhole(page);
    expect(await page.evaluate("document.documentElement.scrollWidth <= innerWidth")).toBe(true);
    expect(await broken(page)).toEqual([]);
    // A box to tick is pressed anywhere on its label.
    const heights = (await page.evaluate("[...document.querySelectorAll('.whole-plan :is(button, input, select, summary)')].map((e) => (e.closest('label') ?? e).getBoundingClientRect().height).filter(Boolean)")) as number[];
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
  });
});

describe("an address", () => {
  it("that calls for a plan nobody here has says so on every sheet, and no longer once another is chosen", async () => {
    const { page } = await visit("#example=mill-farm&trucks.0=7");
    const missing = page.locator(".missing");
    expect(await missing.innerText()).toMatch(/^There is no plan "mill-farm" here\. Shown in its place: Contractor's corn day\./);
    await page.getByRole("link", { name: "Day sheet" }).click();
    await page.locator(".crew").waitFor();
    expect(await missing.isVisible()).toBe(true);
    await page.getByRole("link", { name: "The day", exact: true }).click();
    await page.getByLabel("Example").selectOption("low-meadow");
    await missing.waitFor({ state: "detached" });
  });

  it("that holds a plan whole misses nothing", async () => {
    const { page: own } = await visit();
    await openWhole(own);
    await figure(own, "Roller: Mass, t").fill("30");
    await until(async () => own.url().includes("plan="));
    const { page } = await visit(new URL(own.url()).hash.replace("example=contractor-corn-day", "example=mill-farm"));
    expect(await page.locator(".missing").count()).toBe(0);
    expect(await page.locator(".plan").first().innerText()).toContain("30 t");
  });
});

describe("keeping plans", () => {
  it("saves, saves anew, shows revisions and goes back to one, takes away, and loses nothing when somebody else saved meanwhile", async () => {
    const { page } = await visit();
    await openKeeping(page);
    await page.getByLabel("Name", { exact: true }).fill("Home farm, Monday");
    await button(page, "Save as").click();
    await page.getByText("Saved: Home farm, Monday, revision 1.").waitFor();
    // What is kept stands before the files, and is no example any more.
    expect((await page.locator(".keeping h3").allInnerTexts()).slice(0, 3)).toEqual(["This plan", "Kept plans", "Files"]);
    expect(await page.getByRole("combobox", { name: "Plan", exact: true }).inputValue()).toBe("home-farm-monday");
    await openWhole(page);
    await changing(page, () => figure(page, "Roller: Mass, t").fill("30"));
    await button(page, "Save").click();
    await page.getByText("Saved: Home farm, Monday, revision 2.").waitFor();

    await button(page, "Revisions of Home farm, Monday").click();
    await changing(page, () => button(page, "Back to revision 1").click());
    expect(await figure(page, "Roller: Mass, t").inputValue()).toBe("16");
    expect(await broken(page)).toEqual([]);

    const address = `${stage().url}api/v1/scenarios/home-farm-monday`;
    const theirs = await fetch(address, { headers: { Accept: "application/json" } });
    const changed = { ...((await theirs.json()) as object), seed: 9 };
    await fetch(address, { method: "PUT", body: JSON.stringify(changed), headers: { "Content-Type": "application/json", "If-Match": theirs.headers.get("ETag")! } });
    await button(page, "Save").click();
    await page.getByText("Somebody saved Home farm, Monday since you opened it.").waitFor();
    await button(page, "Open theirs, lay mine aside").click();
    await until(async () => (await figure(page, "Roller: Mass, t").inputValue()) === "30");
    await button(page, "Take it back up").click();
    await until(async () => (await figure(page, "Roller: Mass, t").inputValue()) === "16");
    await button(page, "Save").click();
    await button(page, "Save mine as the newest revision").click();
    await page.getByText("Saved: Home farm, Monday, revision 4.").waitFor();

    await button(page, "Take away Home farm, Monday").click();
    await button(page, "Yes, take it away").click();
    await page.getByText("Home farm, Monday is taken away.").waitFor();
    expect(await page.locator(":focus").getAttribute("id")).toBe("keep-name");
    expect(await figure(page, "Roller: Mass, t").inputValue()).toBe("16");
  });

  it("writes a file, refuses a broken one with line and column, and opens a sound one", async () => {
    const { page } = await visit();
    await openKeeping(page);
    const saving = page.waitForEvent("download");
    await button(page, "Save as a YAML file").click();
    const download = await saving;
    expect(download.suggestedFilename()).toMatch(/\.yaml$/);
    const text = readFileSync(await download.path(), "utf8");
    expect(parse(text)).toMatchObject({ name: "Contractor's corn day", fields: [{ area: "30 ha" }] });

    const before = await verdict(page);
    const give = (name: string, content: string) => page.getByLabel("Open a file").setInputFiles({ name, mimeType: "application/yaml", buffer: Buffer.from(content) });
    await give("broken.yaml", text.replace("30 ha", "30 kg"));
    await page.getByText(/Line \d+, column \d+: fields\[0\]\.area is "30\skg"/).waitFor();
    await give("torn.yaml", "fields: [");
    await page.getByText(/Line \d+, column \d+: This is no sound YAML/).waitFor();
    await give("large.yaml", "#".repeat(1_000_001));
    await page.getByText("large.yaml is too large: up to 1,000,000 bytes would do.").waitFor();
    expect(await verdict(page)).toBe(before);
    await changing(page, () => give("mine.yaml", text.replace("30 ha", "12 ha").replace("spreads: 220 t/h", "spreads: 20 t/h")));
    await page.getByText("mine.yaml is open.").waitFor();
  });

  it("carries all that is kept out in one file and in again, and tells what was taken and what was refused", async () => {
    const { page } = await visit();
    await openKeeping(page);
    await page.getByLabel("Name", { exact: true }).fill("To carry");
    await button(page, "Save as").click();
    await page.getByText("Saved: To carry, revision 1.").waitFor();
    const saving = page.waitForEvent("download");
    await button(page, "Save all that is kept as one file").click();
    const download = await saving;
    expect(download.suggestedFilename()).toBe("clampside-archive.jsonl");
    const text = readFileSync(await download.path(), "utf8");
    const give = (name: string, content: string) => page.locator(".keeping input[accept='.jsonl']").setInputFiles({ name, mimeType: "text/plain", buffer: Buffer.from(content) });
    await give("home.jsonl", text);
    await page.getByText(/home\.jsonl is taken in: .*here already/).waitFor();
    await give("cut.jsonl", text.slice(0, text.length / 2));
    await page.locator(".keeping .trouble", { hasText: "Not done:" }).waitFor();
  });
});
