/** How the day stands, as a crew told it: what the rest of the day is rehearsed from. */
import { signal } from "@preact/signals";
import { readAddress } from "../address.ts";
import type { Document } from "../document.ts";

/** As a file of its own says it (`clampside rehearse --from`); null: nobody has told anything, and the day stands as it was rehearsed. */
export const now = signal<Document | null>(readAddress(location.hash).now);
