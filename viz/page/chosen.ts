/** What is in a file that the reader chose or dropped, or why it cannot be had, in words. */
import { formatNumber } from "../../sim/scenario/units.ts";
import { fileWords } from "../words/files.ts";

export interface Wrong { readonly wrong: string }

/** @param most bytes; nothing that is larger is read at all */
export async function bytesOf(file: File, most: number): Promise<Uint8Array | Wrong> {
  if (file.size > most) return { wrong: fileWords.tooLarge(file.name, formatNumber(most, 0)) };
  try {
    return new Uint8Array(await file.arrayBuffer());
  } catch {
    // Taken away or changed since it was chosen, or a folder.
    return { wrong: fileWords.unreadable(file.name) };
  }
}

/** The same of a file that has to be text in UTF-8. */
export async function utf8Of(file: File, most: number): Promise<string | Wrong> {
  const bytes = await bytesOf(file, most);
  if ("wrong" in bytes) return bytes;
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return { wrong: fileWords.noText(file.name) };
  }
}
