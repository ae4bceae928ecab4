/** Texts about any file that is taken in, whatever it holds. */
import { spoken } from "../english.ts";

export const fileWords = spoken({
  drop: "or drop it here",
  busy: "is being read",
  several: (count: number) => `One file at a time: ${count} were dropped, and none was read.`,
  tooLarge: (name: string, most: string) => `${name} is too large: up to ${most} bytes would do.`,
  unreadable: (name: string) => `${name} could not be read.`,
  noText: (name: string) => `${name} is no text in UTF-8.`,
});
