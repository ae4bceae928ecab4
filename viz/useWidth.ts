/** The width of an element as it stands on the page, px; drawings are laid out for it, never scaled, so that their text keeps its size. */
import { signal } from "@preact/signals";
import { useCallback, useRef, useState } from "preact/hooks";

/**
 * px that a drawing is laid out for on paper: across the sheet, or in one of its two columns. The paper is the same whatever screen it is printed
 * from. Between its margins A4 is 718 px wide; what is drawn for a quarter more is set there with its 14 px of text at over 8 pt, as the words around it are.
 */
export const ON_PAPER = { whole: 920, half: 430 } as const;

const printing = signal(false);
globalThis.addEventListener?.("beforeprint", () => { printing.value = true; });
globalThis.addEventListener?.("afterprint", () => { printing.value = false; });

/** A ref to put on the element, and its width: 0 until it is there. `onPaper`: what it is while the page is printed, where that is laid out anew. */
export function useWidth<E extends HTMLElement>(onPaper?: number): [(element: E | null) => void, number] {
  const observer = useRef<ResizeObserver | null>(null);
  const [width, setWidth] = useState(0);
  const ref = useCallback((element: E | null) => {
    observer.current?.disconnect();
    observer.current = null;
    if (!element) return;
    const measure = () => setWidth(Math.floor(element.clientWidth));
    observer.current = new ResizeObserver(measure);
    observer.current.observe(element);
    measure();
  }, []);
  return [ref, printing.value && width > 0 && onPaper !== undefined ? onPaper : width];
}
