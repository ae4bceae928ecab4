/** A stable name for the content of a checked scenario. */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { Scenario } from "./types.ts";

/** Hex digits kept of the digest: 128 bits, so that two scenarios of one archive never meet by chance. */
const DIGITS = 32;

/** 32 hex digits of SHA-256 over the scenario's canonical JSON: the same for the same content, whatever the order of keys. */
export function hashOf(scenario: Scenario): string {
  return bytesToHex(sha256(utf8ToBytes(canonical(scenario)))).slice(0, DIGITS);
}

/** JSON with sorted keys and no blanks. */
function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const entries = Object.entries(value).filter(([, item]) => item !== undefined).sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${entries.map(([key, item]) => `${JSON.stringify(key)}:${canonical(item)}`).join(",")}}`;
}
