/** The names this server answers to: a page elsewhere may have its own name point here, and would read the answers if any name would do. */
import { hostname, networkInterfaces } from "node:os";

/** The machine itself; nobody else can come by these. */
export const LOOPBACK: readonly string[] = ["127.0.0.1", "localhost", "::1"];

/** Addresses that stand for all of a machine's. */
const ANY = ["0.0.0.0", "::"];

/** Name and port of a Host line; a bracketed address without its brackets, and null for a line that is none. */
export function readHost(line: string | undefined): { readonly name: string; readonly port: string } | null {
  const found = /^(?:\[([0-9a-f:.]+)\]|([^\s:/@?#[\]]+))(?::(\d{1,5}))?$/i.exec(line ?? "");
  if (found === null) return null;
  return { name: (found[1] ?? found[2] ?? "").toLowerCase(), port: found[3] ?? "" };
}

/** Addresses under which other machines reach this one when it listens on `host`, IPv4 first; none on a loopback address. */
export function addressesOf(host: string, interfaces = networkInterfaces()): string[] {
  if (LOOPBACK.includes(host)) return [];
  if (!ANY.includes(host)) return [host];
  const outward = Object.values(interfaces).flatMap((list) => list ?? []).filter(({ internal, scopeid }) => !internal && !scopeid);
  return outward.sort((a, b) => a.family.localeCompare(b.family)).map(({ address }) => address);
}

/** Whether a name is the server's own, for one that listens on `host`. Addresses are looked up each time: a laptop's change. */
export function ownNames(host: string): (name: string) => boolean {
  const machine = hostname().toLowerCase();
  return (name) => {
    if (LOOPBACK.includes(name)) return true;
    return !LOOPBACK.includes(host) && (name === machine || name === `${machine}.local` || addressesOf(host).includes(name));
  };
}

/** An address as it stands in a URL. */
export const inUrl = (host: string): string => (host.includes(":") ? `[${host}]` : host);
