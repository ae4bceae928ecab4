/** The word that lets somebody from another machine in. */
import { createHash, randomBytes, timingSafeEqual } from "node:crypto";

/** Characters that a token of the user's own has at the least. */
export const SHORTEST_TOKEN = 16;

/** 128 bits of chance, 22 characters that survive a URL and a terminal. */
export const makeToken = (): string => randomBytes(16).toString("base64url");

/** Whether a token of the user's own will do: long enough, and of characters that pass through a header, a URL and a form unchanged. */
export const isSoundToken = (token: string): boolean => token.length >= SHORTEST_TOKEN && /^[\w.~-]+$/.test(token);

const hashed = (text: string): Buffer => createHash("sha256").update(text).digest();

/** Compares in a time that tells nothing of where they differ, nor of the length. */
export const isSame = (a: string, b: string): boolean => timingSafeEqual(hashed(a), hashed(b));

/** What a browser keeps once it has been let in: opens the same door, and does not tell the token. */
export const cookieFor = (token: string): string => hashed(`clampside cookie ${token}`).toString("base64url");
