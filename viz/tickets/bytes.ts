/** The text in a file of bytes. Scales write UTF-8, and older ones the letters of their country in one byte each. */

export type Encoding = "UTF-8" | "UTF-16" | "Windows-1252";

/** The text, and how it was read; null where the bytes are no text. A byte-order mark is believed. */
export function textOf(bytes: Uint8Array): { readonly text: string; readonly encoding: Encoding } | null {
  const [first, second] = bytes;
  const mark = first === 0xff && second === 0xfe ? "utf-16le" : first === 0xfe && second === 0xff ? "utf-16be" : null;
  if (mark !== null) return { text: new TextDecoder(mark).decode(bytes), encoding: "UTF-16" };
  if (bytes.includes(0)) return null;
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), encoding: "UTF-8" };
  } catch {
    return { text: new TextDecoder("windows-1252").decode(bytes), encoding: "Windows-1252" };
  }
}
