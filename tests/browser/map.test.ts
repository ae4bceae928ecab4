import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { feature, mapOf, polygon, rectangle } from "../ground/laid.ts";
import { LONG } from "./stage.ts";
import { broken, onStage, until } from "./visiting.ts";

const { stage, visit } = onStage();

const FARM = new URL("../../scenarios/maps/hollow-farm.geojson", import.meta.url).pathname;
const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });
const value = (page: Page, id: string) => page.locator(`#${id}`).inputValue();

async function openMap(page: Page): Promise<void> {
  await button(page, "Open the whole plan").first().click();
  await button(page, "Fields from a map file").click();
  await page.locator(".from-map").waitFor();
}

const give = (page: Page, file: string | { name: string; mimeType: string; buffer: Buffer }) => page.locator(".from-map input[type=file]").setInputFiles(file);

describe("fields from a map file on the page", () => {
  it("are drawn and measured, answer at once when their rows are turned, go into the plan and come out of it again", async () => {
    const { page, complaints } = await visit();
    await openMap(page);
    await give(page, FARM);
    await page.getByText("3 fields understood.").waitFor();
    expect(await page.locator(".plots svg.plot").count()).toBe(3);
    await page.getByLabel(/stands at \(latitude, longitude\)/).first().fill("52.105, 8.285");
    await page.keyboard.press("Tab");
    const strip = page.locator(".plots > li").first();
    await until(async () => /0\.81\skm to .* times 1\.2/.test((await strip.textContent())!));
    expect(await strip.locator("output").textContent()).toMatch(/418\sm/);
    await page.getByRole("spinbutton", { name: "Long Strip: Rows run, ° from north" }).fill("0");
    await until(async () => /334\sm/.test((await strip.locator("output").textContent())!));

    const before = (await page.locator(".figures").textContent())!;
    await button(page, "Pond Field: into the plan").click();
    await page.getByText("In the plan as Pond Field.").waitFor();
    // What the check measured comes with the answer.
    await until(async () => (await value(page, "plan-fields-1-area")) === "21.79");
    expect(await page.locator(".as-usual #plan-fields-1-area").count()).toBe(1);
    await until(async () => (await page.locator(".figures").textContent()) !== before);
    expect(await broken(page)).toEqual([]);
    await button(page, "Pond Field: take it out again").click();
    await until(async () => (await page.locator("#plan-fields-1-area").count()) === 0);
    expect(complaints).toEqual([]);
    expect(stage().reports).toEqual([]);
  });

  it("are refused with the place where they cannot be understood, and the others can be used", async () => {
    const { page } = await visit("#units=us", { width: 320 });
    await openMap(page);
    const ring = rectangle({ lat: 52.1, lon: 8.3 }, 0, 300, 200);
    const text = mapOf(feature(polygon([ring[0]!, ring[2]!, ring[1]!, ring[3]!]), { name: "Bow" }), feature(polygon(ring), { name: "Good" }));
    await give(page, { name: "two.geojson", mimeType: "application/geo+json", buffer: Buffer.from(text) });
    await page.getByText("1 field understood, 1 refused.").waitFor();
    expect(await page.locator(".from-map .trouble").textContent()).toContain("crosses or touches itself at 52.10000 N, 8.30000 E");
    expect(await page.locator(".plots").textContent()).toMatch(/14\.83\sacre/);
    expect(await page.evaluate("document.documentElement.scrollWidth <= innerWidth")).toBe(true);
    if (LONG) expect(await broken(page)).toEqual([]);
    expect(await page.locator(".from-map .trouble").count()).toBe(1);
    await give(page, { name: "picture.gpx", mimeType: "application/gpx+xml", buffer: Buffer.from([0xff, 0xfe, 0x00]) });
    await page.getByText("picture.gpx is no text in UTF-8.").waitFor();
  });

  it("come by file: chosen, and the keyboard stays on the button, or dropped in the box, one at a time, and beside the box nothing happens to the page", async () => {
    const { page } = await visit();
    await openMap(page);
    const input = page.getByLabel("Open a map file");
    await input.focus();
    await input.setInputFiles(FARM);
    await page.getByText("3 fields understood.").waitFor();
    expect(await input.evaluate((element) => element === element.ownerDocument.activeElement)).toBe(true);

    const text = mapOf(feature(polygon(rectangle({ lat: 52.1, lon: 8.3 }, 0, 300, 200)), { name: "Good" }));
    const drop = async (names: string[]) => {
      const dataTransfer = await page.evaluateHandle(`(() => { const data = new DataTransfer(); for (const name of ${JSON.stringify(names)}) data.items.add(new File([${JSON.stringify(text)}], name)); return data; })()`);
      await page.locator(".from-map .file-choice").dispatchEvent("dragover", { dataTransfer });
      await page.locator(".from-map .file-choice.over").dispatchEvent("drop", { dataTransfer });
    };
    await drop(["one.geojson", "two.geojson"]);
    await page.getByText("One file at a time: 2 were dropped, and none was read.").waitFor();
    await page.getByText("3 fields understood.").waitFor();
    await drop(["one.geojson"]);
    await page.getByText("1 field understood.").waitFor();
    expect(await page.getByText("One file at a time").count()).toBe(0);

    // The browser shows a file that is dropped where nobody refuses it, in the place of the page.
    const isRefused = await page.evaluate(`(() => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(["a"], "a.csv"));
      return !document.querySelector("h1").dispatchEvent(new DragEvent("dragover", { dataTransfer, bubbles: true, cancelable: true }));
    })()`);
    expect(isRefused).toBe(true);
  });
});
