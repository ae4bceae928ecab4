/** Where the data folder is when nobody says, and that it is there. */
import { accessSync, constants, existsSync, mkdirSync, statSync } from "node:fs";
import { homedir } from "node:os";
import { isAbsolute, join } from "node:path";
import { troubleOf, troubles } from "./trouble.ts";

type Environment = Readonly<Record<string, string | undefined>>;

/** The folder that each platform means for a program's own data: XDG_DATA_HOME, Application Support, LOCALAPPDATA. */
export function usualFolder(platform: NodeJS.Platform = process.platform, environment: Environment = process.env, home: string = homedir()): string {
  switch (platform) {
    case "darwin": return join(home, "Library", "Application Support", "Clampside");
    case "win32": return join(environment.LOCALAPPDATA || join(home, "AppData", "Local"), "Clampside");
    default: {
      const { XDG_DATA_HOME } = environment;
      // The XDG Base Directory Specification has a path that is not absolute passed over.
      return join(XDG_DATA_HOME && isAbsolute(XDG_DATA_HOME) ? XDG_DATA_HOME : join(home, ".local", "share"), "clampside");
    }
  }
}

/** Makes the folder with those above it, for its owner only, where it is not there yet. @throws StoreTrouble */
export function ensureFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
  } catch (error) {
    throw troubleOf(error, folder, folder) ?? troubles.noFolder(folder, error);
  }
  if (!statSync(folder).isDirectory()) throw troubles.notAFolder(folder);
}

/** Sees to it that the folder, and a file in it where it is there, may be read and written. @throws StoreTrouble */
export function ensureWritable(folder: string, file: string): void {
  try {
    for (const path of existsSync(file) ? [folder, file] : [folder]) accessSync(path, constants.R_OK | constants.W_OK);
  } catch (error) {
    throw troubles.readOnly(folder, error);
  }
}
