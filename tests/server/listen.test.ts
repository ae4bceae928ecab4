import { describe, expect, it } from "vitest";
import { LIMITS } from "../../server/limits.ts";
import { listen } from "../../server/listen.ts";

const empty = (_request: unknown, response: { end(): void }) => response.end();

describe("taking a port", () => {
  it("takes a free one when the usual one is in use, and only when it may", async () => {
    const first = await listen(empty, "127.0.0.1", 0, false, LIMITS);
    const second = await listen(empty, "127.0.0.1", first.port, true, LIMITS);
    expect(second.port).not.toBe(first.port);
    await expect(listen(empty, "127.0.0.1", first.port, false, LIMITS)).rejects.toMatchObject({ code: "EADDRINUSE" });
    await first.close();
    await second.close();
    const again = await listen(empty, "127.0.0.1", first.port, false, LIMITS);
    expect(again.port).toBe(first.port);
    await again.close();
  });

  it("waits for a request no shorter than a run may take to answer it, and no longer than it keeps a quiet connection", () => {
    const { headersMs, requestMs, runMs, keepAliveMs } = LIMITS;
    for (const patience of [headersMs, requestMs]) {
      expect(patience).toBeGreaterThanOrEqual(2 * runMs);
      expect(patience).toBeLessThanOrEqual(keepAliveMs);
    }
  });

  it("lets a request under way finish before it closes", async () => {
    let begun = () => {};
    let finish = () => {};
    const hasBegun = new Promise<void>((resolve) => { begun = resolve; });
    const server = await listen((_request, response) => {
      begun();
      finish = () => response.end("done");
    }, "127.0.0.1", 0, false, LIMITS);
    const asked = fetch(`http://127.0.0.1:${server.port}`);
    await hasBegun;
    const closed = server.close();
    finish();
    expect(await (await asked).text()).toBe("done");
    await closed;
  });

  it("hangs up on a request that does not finish in the time it gets", async () => {
    let begun = () => {};
    const hasBegun = new Promise<void>((resolve) => { begun = resolve; });
    const server = await listen(() => begun(), "127.0.0.1", 0, false, { ...LIMITS, closingMs: 1 });
    const asked = fetch(`http://127.0.0.1:${server.port}`).then(() => "answered", () => "hung up");
    await hasBegun;
    await server.close();
    expect(await asked).toBe("hung up");
  });
});
