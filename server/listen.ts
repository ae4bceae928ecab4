/** Takes a port and gives it back: the usual one, or a free one when that is in use. */
import { createServer } from "node:http";
import type { RequestListener, Server, ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import type { Limits } from "./limits.ts";

export interface Listening {
  readonly port: number;
  /** Takes no more connections, lets requests under way finish for `closingMs`, then hangs up. */
  close(): Promise<void>;
}

const codeOf = (error: unknown): unknown => (error as NodeJS.ErrnoException).code;

/** Listens on that port, 0 for any free one. `instead` lets a port in use be replaced by a free one. Rejects with Node's own error. */
export async function listen(app: RequestListener, host: string, port: number, instead: boolean, limits: Limits): Promise<Listening> {
  const server = createServer({
    headersTimeout: limits.headersMs,
    requestTimeout: limits.requestMs,
    keepAliveTimeout: limits.keepAliveMs,
    connectionsCheckingInterval: 1_000,
  }, app);
  server.maxConnections = limits.connections;
  // A connection whose last request is answered while the server closes would otherwise be kept for a next one that never comes.
  server.on("request", (_request, response: ServerResponse) => response.on("close", () => {
    if (!server.listening) setImmediate(() => server.closeIdleConnections());
  }));
  await bind(server, host, port).catch((error: unknown) => {
    if (!instead || codeOf(error) !== "EADDRINUSE") throw error;
    return bind(server, host, 0);
  });
  return { port: (server.address() as AddressInfo).port, close: () => close(server, limits.closingMs) };
}

function bind(server: Server, host: string, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, host, () => {
      server.off("error", reject);
      resolve();
    });
  });
}

function close(server: Server, patience: number): Promise<void> {
  return new Promise((resolve) => {
    const hangUp = setTimeout(() => server.closeAllConnections(), patience);
    server.close(() => {
      clearTimeout(hangUp);
      resolve();
    });
    server.closeIdleConnections();
  });
}
