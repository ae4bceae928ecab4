/** The width of an element as it stands on the page, px; drawings are laid out for it, never scaled, so that their text keeps its size. */
import { useCallback, useRef, useState } from "preact/hooks";

/** A ref to put on the element, and its width: 0 until it is there. */
export function useWidth<E extends HTMLElement>(): [(element: E | null) => void, number] {
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
  return [ref, width];
}
