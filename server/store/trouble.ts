/** What can go wrong with the data folder, in words for the person whose folder it is. Every such sentence is made here. */
import { counted } from "../../sim/findings/figure.ts";

/** `full`: nothing more fits; `read-only`: may not be written; `in-use`: another server has it; `damaged`; `foreign`: not a folder of this version; `gone`: moved or removed meanwhile; `not-compiled`: the database itself cannot be loaded. */
export type TroubleKind = "full" | "read-only" | "in-use" | "damaged" | "foreign" | "gone" | "broken-disk" | "not-compiled";

/** The data folder cannot be used as it should. Nothing in it was changed by what threw this. */
export class StoreTrouble extends Error {
  constructor(readonly kind: TroubleKind, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = "StoreTrouble";
  }
}

/** The sentences, in one place. */
export const troubles = {
  full: (folder: string, cause?: unknown) =>
    new StoreTrouble("full", `There is no room left to keep anything in ${folder}: the disk is full. What was kept before is still there.`, { cause }),
  limit: (folder: string, bytes: number) =>
    new StoreTrouble("full", `${folder} holds all it may, ${counted(bytes)} bytes. What was kept before is still there; a new folder with --data has room.`),
  readOnly: (folder: string, cause?: unknown) =>
    new StoreTrouble("read-only", `${folder} may not be written by this account. Choose another folder with --data, or let this account write there.`, { cause }),
  noFolder: (folder: string, cause?: unknown) =>
    new StoreTrouble("read-only", `The data folder ${folder} cannot be made. Choose another with --data.`, { cause }),
  notAFolder: (folder: string, cause?: unknown) => new StoreTrouble("foreign", `${folder} is a file, not a folder. Choose another with --data.`, { cause }),
  inUse: (folder: string, cause?: unknown) =>
    new StoreTrouble("in-use", `Another Clampside is using ${folder}. Go on with that one, end it first, or choose another folder with --data.`, { cause }),
  damaged: (file: string, copies: readonly string[], cause?: unknown) =>
    new StoreTrouble("damaged", `${file} is damaged. It was left as it is. ${copies.length > 0
      ? `An earlier copy stands beside it: ${copies.join(", ")}.`
      : "Put a copy of your own in its place, or begin a new folder with --data."}`, { cause }),
  foreign: (file: string) => new StoreTrouble("foreign", `${file} was not made by Clampside. It was left as it is; choose another folder with --data.`),
  newer: (file: string) => new StoreTrouble("foreign", `${file} was made by a newer Clampside than this one. It was left as it is.`),
  gone: (file: string) => new StoreTrouble("gone", `${file} was moved or removed while the server ran. Nothing more can be kept until the server is started again.`),
  notCompiled: (cause?: unknown) =>
    new StoreTrouble("not-compiled", "The database that keeps plans was not compiled for this Node on this machine. Where Clampside is installed, `npm rebuild better-sqlite3` does that, with a C++ compiler. "
      + "What keeps nothing, `clampside rehearse` and the like, works without it.", { cause }),
  brokenDisk: (folder: string, cause?: unknown) =>
    new StoreTrouble("broken-disk", `${folder} cannot be read or written as it should: the disk, or the way to it, fails.`, { cause }),
};

/** Turns an error of the database or the file system into trouble in words; null for one that has nothing to do with the folder. */
export function troubleOf(error: unknown, file: string, folder: string): StoreTrouble | null {
  if (error instanceof StoreTrouble) return error;
  const code = String((error as { code?: unknown } | null)?.code ?? "");
  // The one who looks for the compiled part tells where it has tried; the system, that it was made for another Node.
  if (code === "ERR_DLOPEN_FAILED" || Array.isArray((error as { tries?: unknown } | null)?.tries)) return troubles.notCompiled(error);
  if (code.startsWith("SQLITE_FULL") || code === "ENOSPC" || code === "EDQUOT") return troubles.full(folder, error);
  if (code.startsWith("SQLITE_BUSY") || code.startsWith("SQLITE_LOCKED")) return troubles.inUse(folder, error);
  if (code.startsWith("SQLITE_CORRUPT") || code.startsWith("SQLITE_NOTADB")) return troubles.damaged(file, [], error);
  if (code.startsWith("SQLITE_READONLY") || code.startsWith("SQLITE_CANTOPEN") || code.startsWith("SQLITE_PERM") || ["EACCES", "EPERM", "EROFS"].includes(code)) return troubles.readOnly(folder, error);
  if (code === "ENOTDIR" || code === "EEXIST") return troubles.notAFolder(folder, error);
  if (code.startsWith("SQLITE_IOERR") || code === "EIO") return troubles.brokenDisk(folder, error);
  return null;
}
