/**
 * Whoever works by key stays where the work is. When what has the focus goes away (the answer takes the place of the button, a line is taken out) or can be pressed no more, the
 * browser would begin at the top of the page again; here the nearest part of the page that is still there takes the focus, and the next tab leads into what came instead.
 */

/** Parts of the page that may take it. */
const PARTS = "section, form, fieldset, article, main";

/** @param page where things come and go */
export function keepFocus(page: HTMLElement): void {
  let last: { readonly element: Element; readonly parts: readonly HTMLElement[] } | null = null;
  page.addEventListener("focusin", ({ target }) => {
    const element = target as Element;
    last = { element, parts: partsAround(element) };
  });
  // Whoever presses beside it has left it.
  addEventListener("pointerdown", ({ target }) => { if (!last?.element.contains(target as Node)) last = null; });
  new MutationObserver(() => {
    if (last === null || (last.element.isConnected && !last.element.matches(":disabled"))) return;
    const { element, parts } = last;
    last = null;
    // Somebody else has taken it already.
    if (document.activeElement !== document.body && document.activeElement !== element) return;
    const part = parts.find(({ isConnected }) => isConnected);
    if (part) take(part);
  }).observe(page, { childList: true, subtree: true, attributeFilter: ["disabled"] });
}

/** The nearest first. */
function partsAround(element: Element): HTMLElement[] {
  const part = element.parentElement?.closest<HTMLElement>(PARTS);
  return part ? [part, ...partsAround(part)] : [];
}

/** A part takes the focus for once: it is no stop of the tab key, and a press inside it is none on it. */
function take(part: HTMLElement): void {
  if (!part.hasAttribute("tabindex")) {
    part.tabIndex = -1;
    part.addEventListener("blur", () => part.removeAttribute("tabindex"), { once: true });
  }
  part.focus({ preventScroll: true });
}
