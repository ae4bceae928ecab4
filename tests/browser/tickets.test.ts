/** Weigh tickets on the page: taken in, asked about, told, put into the plan and held against it. */
import { describe, expect, it } from "vitest";
import { LONG } from "./stage.ts";
import { broken, onStage, until } from "./visiting.ts";

const { visit } = onStage();

/** A file that leaves its decimal mark, its unit and one column open, with one row that is none. */
const OPEN = "Hofwaage;;;\nTime;Kipper;Net;Farm\n07:10;A;15,980;North\n07:20;B;16,210;South\n07:30;A;;North\n07:41;A;15,100;North\n";

describe("the sheet for weigh tickets", () => {
  it("asks what a file leaves open, tells row by row what was refused, keeps it all, puts what it tells into the plan and takes it back, and finds the stop", async () => {
    const { page, complaints } = await visit("#sheet=tickets&example=low-meadow");
    await page.getByText("or paste its rows").click();
    await page.getByLabel("Rows of tickets, pasted").fill(OPEN);
    await page.getByRole("button", { name: "Read the rows" }).click();
    await page.getByText("To be answered before any row is read").waitFor();
    expect(await page.locator("[aria-labelledby=understood] [aria-invalid=true]").count()).toBe(2);
    expect(await broken(page)).toEqual([]);
    await page.getByLabel("Decimal mark").selectOption("comma");
    await page.getByLabel("Unit of mass").selectOption("t");
    await page.getByLabel("Kipper is read as").selectOption("truck");
    await page.getByText("4 rows under the headings: 3 tickets, 1 refused.").waitFor();
    expect(await page.locator(".refused tbody tr").innerText()).toMatch(/^5\s+It has no mass\.\s+07:30 \| A/u);
    await page.getByRole("group", { name: "By owner" }).waitFor();
    expect((await page.getByRole("group", { name: "By owner" }).innerText()).replaceAll(/\s+/gu, " ")).toContain("North 2 31.1 t");

    // Another sheet and back: nothing is lost, and nothing of it stands in the address.
    await page.getByRole("link", { name: "Day sheet" }).click();
    await until(async () => (await page.locator("[aria-labelledby=understood]").count()) === 0);
    await page.getByRole("link", { name: "Weigh tickets" }).click();
    await page.getByText("4 rows under the headings: 3 tickets, 1 refused.").waitFor();
    expect(decodeURIComponent(page.url())).not.toContain("15,980");
    await page.locator(".take-in input[type=file]").setInputFiles({ name: "picture.csv", mimeType: "text/csv", buffer: Buffer.from([137, 80, 0, 0]) });
    await page.getByText("The file is no text").waitFor();
    expect(await page.locator("[aria-labelledby=understood]").count()).toBe(1);

    await page.getByRole("button", { name: "Low Meadow, a morning with a stop" }).click();
    await page.getByText("34 rows under the headings: 34 tickets, 0 refused.").waitFor();
    // What the day was like, and whether the plan was right, stand before how values are spread.
    const parts = await page.locator(".tickets > section").evaluateAll((all: { getAttribute(name: string): string }[]) => all.map((part) => part.getAttribute("aria-labelledby")));
    expect(parts.slice(1)).toEqual(["understood", "told", "judged", "patch", "shapes"]);
    expect(await page.getByText("Full loads", { exact: true }).isVisible()).toBe(false);
    await page.getByRole("heading", { name: "How they vary" }).click();
    await page.getByText("Full loads", { exact: true }).waitFor();
    await page.getByRole("button", { name: "Hold the day against the plan" }).click();
    await page.getByText("Between 09:16 and 10:09 nothing was weighed; none of 100 rehearsed days has a stretch that long.").waitFor();
    expect(await page.getByRole("group", { name: "Was the plan right?" }).innerText()).toMatch(/Time at the storage.*inside/u);
    expect(await page.locator(".judged-words").innerText()).toContain("Best explained by the stop from 09:16 to 10:09");
    expect(await page.locator(".hour-bars svg").count()).toBe(2);
    expect(await page.locator(".hour-gap").count()).toBe(1);
    expect(await broken(page)).toEqual([]);

    const now = page.getByRole("row", { name: /^Load of a truck/u });
    await now.waitFor();
    expect((await now.innerText()).replaceAll("\u00a0", " ")).toMatch(/16 t\s+15\.\d+ t\s+33/u);
    await page.getByRole("button", { name: "Put it into the plan" }).press("Enter");
    await page.getByText("The plan has it.").waitFor();
    expect(await page.locator(":focus").innerText()).toBe("Take it back");
    expect((await now.innerText()).replaceAll("\u00a0", " ")).toMatch(/(15\.\d+ t)\s+\1/u);
    await page.getByText("The answer below was for another plan or other tickets.").waitFor();
    await page.getByRole("button", { name: "Take it back" }).click();
    await page.getByRole("button", { name: "Put it into the plan" }).waitFor();
    expect((await now.innerText()).replaceAll("\u00a0", " ")).toMatch(/16 t/u);
    expect(await page.getByText("The answer below was for another plan or other tickets.").count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  it.runIf(LONG)("says when an invented day belongs to another plan, opens that plan, and fits a phone in US units", async () => {
    const { page } = await visit("#sheet=tickets&example=low-meadow&units=us", { width: 320 });
    await page.getByRole("button", { name: "Evening Meadow, past midnight" }).click();
    await page.getByRole("button", { name: "Open Evening Meadow" }).click();
    await until(async () => (await page.getByRole("button", { name: "Open Evening Meadow" }).count()) === 0);
    await page.getByText("58 rows under the headings: 55 tickets, 3 refused.").waitFor();
    await page.locator(".hour-bars svg").waitFor();
    expect((await page.locator("[aria-labelledby=told]").innerText()).replaceAll("\u00a0", " ")).toContain("611.2 ton");
    expect(await page.locator("html").evaluate((html) => html.scrollWidth - html.clientWidth)).toBe(0);
    expect(await broken(page)).toEqual([]);
  });
});
