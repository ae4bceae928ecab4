import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { PAPERS, type Paper } from "../../viz/sheets.ts";

/** The colours that a paper's block in the style sheet names, what it leaves out being as on light paper. */
function coloursOf(paper: Paper): Readonly<Record<string, string>> {
  const css = readFileSync(fileURLToPath(new URL("../../viz/paper.css", import.meta.url)), "utf8");
  const block = (selector: string): Record<string, string> => {
    const from = css.indexOf(`${selector} {`);
    expect(from, selector).toBeGreaterThanOrEqual(0);
    return Object.fromEntries([...css.slice(from, css.indexOf("}", from)).matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name, colour]) => [name!, colour!]));
  };
  return paper === "light" ? block(":root") : { ...block(":root"), ...block(`[data-paper="${paper}"]`) };
}

/** Relative luminance, WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-relative-luminance */
function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => Number.parseInt(colour.slice(i, i + 2), 16) / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio, WCAG 2.2, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio */
function contrast(a: string, b: string): number {
  const [high, low] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

const WRITTEN = ["ink", "ink-second", "chopper", "trucks", "packing", "warning"];

describe.each(PAPERS)("%s paper", (paper) => {
  const colours = coloursOf(paper);
  const on = (name: string, ground: string) => contrast(colours[name]!, colours[ground]!);

  it("carries every colour that is written in at 4.5:1 or better, in the sun at 7:1", () => {
    for (const name of WRITTEN) expect(on(name, "paper"), name).toBeGreaterThanOrEqual(paper === "sun" ? 7 : 4.5);
    for (const name of ["ink", "ink-second"]) expect(on(name, "paper-deep"), name).toBeGreaterThanOrEqual(paper === "sun" ? 7 : 4.5);
  });

  it("shows hairlines at 3:1", () => {
    expect(on("hairline", "paper")).toBeGreaterThanOrEqual(3);
  });

  it("tells each class of density from the next by 1.45:1 in light alone, from loose and light to dense and dark", () => {
    const classes = [0, 1, 2, 3, 4, 5].map((i) => colours[`density-${i}`]!);
    for (let i = 1; i < classes.length; i++) {
      expect(luminance(classes[i]!)).toBeLessThan(luminance(classes[i - 1]!));
      expect(contrast(classes[i]!, classes[i - 1]!), `${i}`).toBeGreaterThanOrEqual(1.45);
    }
  });
});
