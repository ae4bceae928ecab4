import { describe, expect, it } from "vitest";
import { clockShown, setSlider, slider, strip } from "./day.ts";
import { LONG } from "./stage.ts";
import { onStage, until } from "./visiting.ts";

const { visit } = onStage();

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

describe("the strip", () => {
  it.each(LONG ? [1440, 820, 360] : [360])("has no label that touches another and none cut off, %i px wide", async (width) => {
    for (const hash of ["", "#at=07:05", "#example=two-choppers-one-clamp", "#example=two-choppers-one-clamp&at=07:24", "#example=us-corn-150-acres", "#example=dairy-pile-900-cows&at=13:38"]) {
      const { page } = await visit(hash, { width });
      // Letters do not fill the height of their line: two lines may share 4 px.
      const touching = await page.evaluate(`(() => {
        const whole = document.querySelector(".strip svg").getBoundingClientRect();
        const boxes = [...document.querySelectorAll(".strip text:not(.truck-number)")].filter((text) => text.textContent).map((text) => [text.textContent, text.getBoundingClientRect()]);
        return boxes.flatMap(([name, a], i) => a.right > whole.right + 4 ? [name + " is cut"] : boxes.slice(i + 1)
          .filter(([, b]) => Math.min(a.right, b.right) > Math.max(a.left, b.left) && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 4)
          .map(([other]) => name + " | " + other));
      })()`);
      expect(touching, hash).toEqual([]);
    }
  });
});
