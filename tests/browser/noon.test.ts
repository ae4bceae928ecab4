/** A day under way, told and answered on the page as a crew would at noon. */
import { readFileSync } from "node:fs";
import { getDocumentProxy } from "unpdf";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { readNow } from "../../sim/scenario/now.ts";
import { takenUp } from "../../sim/harvest/takeup.ts";
import { readScenario } from "../../sim/scenario/read.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { LONG, type Visit } from "./stage.ts";
import { broken, onStage, until } from "./visiting.ts";

const { visit } = onStage();
const scenarios = new URL("../../scenarios/", import.meta.url);

async function noon(hash: string, width?: number): Promise<Visit> {
  const opened = await visit(`#sheet=noon${hash}`, width === undefined ? {} : { width });
  await opened.page.locator(".rest-picture svg").waitFor();
  return opened;
}

/** What the engine says of low-meadow's own noon. */
function rest() {
  const read = readScenario(readFileSync(new URL("low-meadow.yaml", scenarios), "utf8"));
  if ("problems" in read) throw new Error("unsound");
  const told = readNow(readFileSync(new URL("now/low-meadow-noon.yaml", scenarios), "utf8"), read.scenario);
  if ("problems" in told) throw new Error("unsound");
  return rehearse(read.scenario, { start: takenUp(read.scenario, told.now) }).findings.rest!;
}

describe("the sheet for the rest of the day", () => {
  it("tries changes on the day as it was told last, also where the press on the button is what ends the telling", async () => {
    const { page } = await noon("&example=low-meadow");
    await page.getByLabel("Tipped so far: Long Strip, t").fill("310");
    const asked = page.waitForRequest((request) => request.method() === "POST" && request.postData()!.includes("fixes"));
    await page.getByRole("button", { name: "Try every change that is still possible" }).click();
    expect(((await asked).postDataJSON() as { from: { delivered: { mass: string }[] } }).from.delivered[0]!.mass).toBe("310 t");
    await page.locator(".noon .card").first().waitFor();
  });

  it("starts from the rehearsed noon, takes what a crew tells, says what cannot be at its place, and answers as the engine does", async () => {
    const { page, complaints } = await noon("&example=low-meadow");
    expect(await page.locator(".noon .answer").innerText()).toMatch(/^All is packed and closed at \d\d:\d\d/);
    expect(await broken(page)).toEqual([]);

    const tipped = page.getByLabel("Tipped so far: Long Strip, t");
    await tipped.fill("3100");
    await tipped.press("Enter");
    await page.locator(".stand .why").waitFor();
    expect((await page.locator(".stand .why").innerText()).replaceAll("\u00a0", " ")).toContain("holds 630.0 t");
    expect(await tipped.getAttribute("aria-invalid")).toBe("true");
    expect(await broken(page)).toEqual([]);

    await tipped.fill("310");
    await tipped.press("Enter");
    await page.getByLabel("It is", { exact: true }).fill("13:10");
    const apron = page.getByLabel("On the apron, not spread yet, t");
    await apron.fill("45");
    await apron.press("Enter");
    const road = page.getByLabel("Loads on the road");
    await road.fill("2");
    await road.press("Enter");
    await page.getByLabel("A machine that is down or gone home").selectOption("Roller");
    await page.getByLabel("Roller: back at").fill("15:00");
    const { closedAt, stopCutting, trucks } = rest();
    await until(async () => (await page.locator(".noon .answer").innerText()).startsWith(`All is packed and closed at ${closedAt.median}; on most days between ${closedAt.early} and ${closedAt.late}.`));
    const said = (await page.locator(".noon-rest").innerText()).replaceAll("\u00a0", " ");
    expect(said).toContain(stopCutting.inWords);
    const home = await page.locator("section:has(> #rest-home)").innerText();
    expect(trucks.some(({ needed }) => !needed)).toBe(true);
    for (const { name, needed, from } of trucks) expect(home.split("\n").some((line) => line.includes(name) && line.includes(from))).toBe(!needed);
    expect(await page.locator(".stand .why").count()).toBe(0);

    // The address brings the very state back, and the file is one for the command line.
    await until(async () => page.url().includes("now="));
    const again = await noon(new URL(page.url()).hash.replace("#sheet=noon", ""));
    await until(async () => (await again.page.locator(".noon .answer").innerText()) === (await page.locator(".noon .answer").innerText()));
    const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Keep as a file" }).click()]);
    expect(parse(readFileSync(await download.path(), "utf8"))).toEqual(parse(readFileSync(new URL("now/low-meadow-noon.yaml", scenarios), "utf8")));

    // Drawn as it was told: what lies and what is being spread is what was on the apron, and the end can be looked at.
    await page.getByText("The same as a table").nth(1).click();
    expect((await page.locator("figure:has(.strip) table").innerText()).replaceAll("\u00a0", " ")).toContain("Roller\tbroken");
    await page.getByLabel("Time of day").press("End");
    await until(async () => (await page.locator(".noon .clock").innerText()) !== "13:10");
    expect((await getDocumentProxy(new Uint8Array(await page.pdf({ preferCSSPageSize: true, format: "A4" })))).numPages).toBeLessThanOrEqual(2);
    expect(complaints.filter((text) => !text.includes("422"))).toEqual([]);
  });

  it.runIf(LONG)("tries what can still be changed, and fits a phone", async () => {
    const { page } = await noon("&example=low-meadow&units=us", 320);
    expect(await page.locator("html").evaluate((html) => html.scrollWidth - html.clientWidth)).toBe(0);
    await page.getByLabel("It is", { exact: true }).fill("09:30");
    await page.getByRole("button", { name: "As rehearsed for 09:30" }).click();
    await page.getByRole("button", { name: "Try every change that is still possible" }).click();
    await page.locator(".noon .card").first().waitFor();
    await page.getByText("Each tried on the same").waitFor();
    expect(await broken(page)).toEqual([]);

    // What is wrong with the machines as a whole is told above them.
    await page.getByLabel("A machine that is down or gone home").selectOption({ index: 7 });
    await page.getByLabel(/back at$/u).waitFor();
    await page.locator("#now-down-0").selectOption("all");
    await page.locator(".stand fieldset > .why").waitFor();
    expect(await page.locator(".stand fieldset > .why").innerText()).toContain("leave nobody to spread");
  });
});
