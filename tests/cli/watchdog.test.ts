import { spawnSync } from "node:child_process";
import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { newFolder } from "../temporary.ts";

it("a process in an endless loop ends by its watchdog, which says over what it hangs, and goes on as long as the next begins in time", () => {
  const folder = newFolder();
  const file = join(folder, "day.yaml");
  writeFileSync(file, "name: one without end");
  const code = `
    import { writeSync } from "node:fs";
    import { watchdog } from ${JSON.stringify(new URL("watchdog.ts", import.meta.url).href)};
    const ended = watchdog(${JSON.stringify(file)}, 60_000);
    ended.next();
    await ended.end();
    writeSync(1, "went on");
    watchdog(${JSON.stringify(file)}, 1).next();
    // The thread begins to watch while this one waits; from then on nothing else runs here.
    for (;;);`;
  const { signal, stdout, stderr } = spawnSync(process.execPath, ["--import", "tsx", "--input-type=module", "--eval", code], { encoding: "utf8", timeout: 50_000 });
  rmSync(folder, { recursive: true });
  expect({ signal, stdout, stderr }).toEqual({ signal: "SIGKILL", stdout: "went on", stderr: "Not done after 0.001 s, so this process ends. It hangs over:\nname: one without end\n" });
});
