/** Plans that the server keeps: asked for, saved, taken away. A change goes through only if it is made to what the reader has read. */
import type { Document } from "../document.ts";

export interface Revision { readonly revision: number; readonly savedAt: string; readonly name: string; readonly takenAway: boolean }
export interface Saved { readonly id: string; readonly revision: number; readonly tag: string }

/** The server said no, in its own words. */
export class Refused extends Error {
  /** @param tag of what is kept there now, where the refusal tells it */
  constructor(readonly status: number, detail: string, readonly tag: string | null) {
    super(detail);
  }
}

const ROOT = "/api/v1/scenarios";
const address = (id: string, ...rest: readonly (string | number)[]) => [ROOT, id, ...rest].map((step, i) => (i === 0 ? step : encodeURIComponent(step))).join("/");

async function ask(path: string, method = "GET", headers: Record<string, string> = {}, body?: string | Blob): Promise<Response> {
  const asked: RequestInit & { readonly cache: string } = { method, headers: { Accept: "application/json", ...headers }, ...(body === undefined ? {} : { body }), cache: "no-store" };
  const response = await fetch(path, asked);
  if (response.ok) return response;
  const problem = (await response.json().catch(() => ({}))) as { detail?: string; errors?: readonly { detail: string }[] };
  const details = [problem.detail, ...(problem.errors ?? []).map(({ detail }) => detail)].filter((detail) => detail !== undefined);
  throw new Refused(response.status, details.join(" ") || String(response.status), response.headers.get("ETag"));
}

/** Tag of the newest revision. */
export async function tagOf(id: string): Promise<string> {
  return (await ask(address(id))).headers.get("ETag") ?? "";
}

/** @param tag of the revision that this one follows; null: nothing may be kept there yet */
export async function save(id: string, plan: Document, tag: string | null): Promise<Saved> {
  const condition: Record<string, string> = tag === null ? { "If-None-Match": "*" } : { "If-Match": tag };
  const response = await ask(address(id), "PUT", { "Content-Type": "application/json", ...condition }, JSON.stringify(plan));
  const { revision } = (await response.json()) as { revision: number };
  return { id, revision, tag: response.headers.get("ETag") ?? "" };
}

export async function remove(id: string, tag: string): Promise<void> {
  await ask(address(id), "DELETE", { "If-Match": tag });
}

/** The newest first. */
export async function revisions(id: string): Promise<readonly Revision[]> {
  return ((await (await ask(address(id, "revisions"))).json()) as { revisions: readonly Revision[] }).revisions;
}

export async function revision(id: string, number: number): Promise<Document> {
  return (await (await ask(address(id, "revisions", number))).json()) as Document;
}

/** How archives are sent; their name is the server's. */
const ARCHIVE = "/api/v1/archive";

/** All that is kept, as one file. */
export async function archive(): Promise<Blob> {
  return (await ask(ARCHIVE, "GET", { Accept: "*/*" })).blob();
}

/** What an archive brought. */
export interface Brought {
  readonly added: number;
  readonly continued: number;
  readonly same: number;
  readonly renamed: readonly { readonly from: string; readonly to: string }[];
  readonly answers: number;
}

/** Takes an archive on. Nothing that is kept here is changed or lost by it. */
export async function takeArchive(file: Blob): Promise<Brought> {
  return (await (await ask(ARCHIVE, "POST", { "Content-Type": "application/x-ndjson" }, file)).json()) as Brought;
}

/** What a name is kept under: small letters, digits and hyphens; empty when nothing of it is left. */
export function idFor(name: string): string {
  return name.normalize("NFKD").toLowerCase().replaceAll(/['’]|\p{M}/gu, "").replaceAll(/[^a-z0-9]+/g, "-").slice(0, 60).replaceAll(/^-+|-+$/g, "");
}
