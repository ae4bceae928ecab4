/** The sheet of the day in the hands of a test: what it shows, and its sliders moved. */
import type { Page } from "playwright-core";
import { until } from "./visiting.ts";

export const verdict = (page: Page) => page.locator(".answer");
export const strip = (page: Page) => page.locator(".strip svg").innerHTML();
export const slider = (page: Page, name: string) => page.getByRole("slider", { name, exact: true });
export const clockShown = (page: Page) => page.locator(".clock").innerText();

/** Sets a slider as a hand does: the new value, and the event that says so. */
export async function setSlider(page: Page, name: string, value: number): Promise<void> {
  await slider(page, name).evaluate((element, to) => {
    const input = element as unknown as { value: string; dispatchEvent(event: unknown): void };
    input.value = String(to);
    input.dispatchEvent(new Event("input", { bubbles: true }));
  }, value);
}

export const trucksShown = (page: Page, count: number) => until(async () => (await page.locator(".strip .truck").count()) === count);

/** Waits for the verdict to say something else than it did. */
export async function changed(page: Page, before: string): Promise<string> {
  await until(async () => (await verdict(page).textContent()) !== before);
  return (await verdict(page).textContent())!;
}
