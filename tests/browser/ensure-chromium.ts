/**
 * Finds a Chromium for the tests of the page, and installs Debian's when there is none and it may. Runs on its own before the tests
 * (`npm test`), and is asked again by them for the path.
 */
import { spawnSync } from "node:child_process";
import { accessSync, constants } from "node:fs";
import { pathToFileURL } from "node:url";

/** Where Debian, Ubuntu and others put it; `CHROMIUM_PATH` goes before. */
const USUAL = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

const WHAT_TO_DO = `The tests of the page need Chromium, and none was found at ${USUAL.join(", ")}.
Install it, on Debian:  sudo apt-get update && sudo apt-get install -y chromium
or say where it is:     CHROMIUM_PATH=/path/to/chromium npm test
or leave these out:     npx vitest run --exclude "tests/browser/**"`;

/** Path of a Chromium that can be run, or null. */
export function findChromium(): string | null {
  const said = process.env.CHROMIUM_PATH;
  return (said ? [said] : USUAL).find(canRun) ?? null;
}

/**
 * The same, installing Debian's package first when there is none, the system is Debian-like and this process is root.
 * @throws Error that says what to do, when there is none and none could be installed
 */
export function ensureChromium(): string {
  const found = findChromium();
  if (found !== null) return found;
  const mayInstall = process.env.CHROMIUM_PATH === undefined && process.getuid?.() === 0 && canRun("/usr/bin/apt-get");
  if (!mayInstall) throw new Error(WHAT_TO_DO);
  process.stderr.write("No Chromium here: installing Debian's package for the tests of the page.\n");
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  for (const command of [["update"], ["install", "-y", "--no-install-recommends", "chromium"]]) {
    const { status } = spawnSync("/usr/bin/apt-get", command, { stdio: ["ignore", "ignore", "inherit"], env });
    if (status !== 0) throw new Error(`apt-get ${command.join(" ")} did not work.\n${WHAT_TO_DO}`);
  }
  const installed = findChromium();
  if (installed === null) throw new Error(WHAT_TO_DO);
  return installed;
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  try {
    ensureChromium();
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = 1;
  }
}
