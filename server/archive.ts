/** `/api/v1/archive`: all that is kept as one file, to carry elsewhere and to take on again. */
import { randomUUID } from "node:crypto";
import { open, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { Express, Request, Response } from "express";
import { typeOf } from "./bodies.ts";
import type { Limits } from "./limits.ts";
import { ClientGone, refusals } from "./problems.ts";
import { resource } from "./resource.ts";
import { ARCHIVE_TYPE, archiveOf, linesOf, NoArchive } from "./store/archive.ts";
import { lookThrough, takeArchive } from "./store/restore.ts";
import type { Taken } from "./store/restore.ts";
import { ARCHIVE_DRAFT } from "./store/store.ts";
import type { Store } from "./store/store.ts";
import { troubleOf } from "./store/trouble.ts";
import type { Template } from "./templates.ts";

export const ARCHIVE = "/api/v1/archive";
export const ARCHIVE_NAME = "clampside-archive.jsonl";

export function putArchive(app: Express, templates: readonly Template[], store: Store, limits: Limits): void {
  const examples = new Set(templates.map(({ id }) => id));
  let isBusy = false;
  /** One archive at a time, out or in: each may be as large as all that is kept. */
  const alone = async <Result>(work: () => Promise<Result>): Promise<Result> => {
    if (isBusy) throw refusals.busyWithArchive();
    isBusy = true;
    try {
      return await work();
    } finally {
      isBusy = false;
    }
  };

  const give = (request: Request, response: Response) => alone(async () => {
    const lines = archiveOf(store, new Date());
    // The first line is asked for before the head goes out, so that trouble with the folder can still be told.
    const first = lines.next().value as string;
    response.writeHead(200, { "Content-Type": ARCHIVE_TYPE, "Cache-Control": "no-store", "Content-Disposition": `attachment; filename="${ARCHIVE_NAME}"` });
    if (request.method === "HEAD") return void response.end();
    response.write(first);
    response.setTimeout(limits.requestMs, () => response.destroy());
    await pipeline(Readable.from(lines, { highWaterMark: 1 }), response).catch((error: unknown) => { throw response.destroyed && isHungUp(error) ? new ClientGone() : error; });
  });

  const take = async (request: Request, response: Response) => {
    const file = store.folder === null ? join(tmpdir(), `clampside-${randomUUID()}.part`) : join(store.folder, ARCHIVE_DRAFT);
    const taken = await alone(async (): Promise<Taken> => {
      try {
        await receive(request, file, limits.archiveBytes);
        const histories = await lookThrough(linesOf(file));
        // Whoever has hung up meanwhile does not expect to find it here.
        if (response.destroyed) throw new ClientGone();
        return takeArchive(store, linesOf(file), histories, (id) => examples.has(id));
      } catch (error) {
        if (error instanceof NoArchive) throw refusals.noArchive(error.message);
        throw troubleOf(error, file, dirname(file)) ?? error;
      } finally {
        await rm(file, { force: true });
      }
    });
    response.set("Cache-Control", "no-store").json(taken);
  };

  resource(app, ARCHIVE, { GET: give, POST: [typeOf([ARCHIVE_TYPE], () => refusals.wrongType(`Send an archive as ${ARCHIVE_TYPE}.`, ARCHIVE_TYPE)), take] });
}

const isHungUp = (error: unknown): boolean => ["ERR_STREAM_PREMATURE_CLOSE", "ECONNRESET", "EPIPE"].includes(String((error as { code?: unknown } | null)?.code));

/** Writes a request's body to a file, part by part, up to so many bytes. */
async function receive(request: Request, file: string, most: number): Promise<void> {
  if (!["", "identity"].includes(request.headers["content-encoding"] ?? "")) throw refusals.wrongEncoding();
  if (Number(request.headers["content-length"] ?? 0) > most) throw refusals.tooLarge(most);
  const handle = await open(file, "w", 0o600);
  try {
    let bytes = 0;
    // Not destroyed when it is too large: the answer goes out on the same connection.
    for await (const part of request.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
      bytes += part.length;
      if (bytes > most) throw refusals.tooLarge(most);
      await handle.writeFile(part);
    }
  } catch (error) {
    throw request.readableAborted ? new ClientGone() : error;
  } finally {
    await handle.close();
  }
}
