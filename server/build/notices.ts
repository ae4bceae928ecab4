/** What is built holds parts of other people's packages; their names and licences go with it, as those licences ask. A part of the build, not of the server. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Plugin } from "vite";

const LICENCE = /^(licen[cs]e|notice|copying)/i;

/** Writes `notices.txt` beside what is built: every package of which something is in it, with its licence to the letter. */
export function notices(): Plugin {
  return {
    name: "notices",
    generateBundle(_options, bundle) {
      const folders = new Set<string>();
      for (const file of Object.values(bundle)) {
        if (file.type === "chunk") for (const id of file.moduleIds) if (id.includes("/node_modules/")) folders.add(packageOf(id));
      }
      this.emitFile({ type: "asset", fileName: "notices.txt", source: texts(folders) });
    },
  };
}

/** The folder of the package that a module belongs to: the nearest one above it whose manifest has a name. */
function packageOf(id: string): string {
  let folder = dirname(id.replace(/^\0/, "").replace(/\?.*$/, ""));
  for (;;) {
    const manifest = join(folder, "package.json");
    if (existsSync(manifest) && (JSON.parse(readFileSync(manifest, "utf8")) as { name?: string }).name !== undefined) return folder;
    if (dirname(folder) === folder) throw new Error(`${id} belongs to no package.`);
    folder = dirname(folder);
  }
}

/** Each licence once, under the names of the packages that are under it. */
function texts(folders: ReadonlySet<string>): string {
  const under = new Map<string, Set<string>>();
  for (const folder of folders) {
    const { name, version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8")) as Record<string, string>;
    const files = readdirSync(folder).filter((file) => LICENCE.test(file)).sort();
    const text = files.map((file) => readFileSync(join(folder, file), "utf8").trim()).join("\n\n") || `${license}; the package brings no text of it.`;
    under.set(text, (under.get(text) ?? new Set()).add(`${name} ${version} (${license})`));
  }
  return [...under].map(([text, names]) => `${[...names].sort().join("\n")}\n\n${text}\n`).sort().join(`\n${"-".repeat(80)}\n\n`);
}
