import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parse } from "yaml";
import { readTemplates } from "../../server/templates.ts";
import type { Template } from "../../server/templates.ts";
import { newFolder } from "../temporary.ts";
import { meadowYaml } from "./meadow.ts";
import { post, serveApp } from "./served.ts";
import type { Served } from "./served.ts";

const HOUSE_SCENARIOS = join(import.meta.dirname, "../../scenarios");
let templates: Template[];
let served: Served;
beforeAll(async () => {
  templates = readTemplates(HOUSE_SCENARIOS);
  served = await serveApp({ templates });
});
afterAll(() => served.close());

interface Listed { readonly id: string; readonly name: string; readonly shows: string }
const list = async () => ((await (await fetch(`${served.url}/api/v1/scenarios`)).json()) as { scenarios: Listed[] }).scenarios;

describe("scenarios to begin from", () => {
  it("are the project's worked examples, each with a name and what it shows", async () => {
    const listed = await list();
    expect(listed.length).toBeGreaterThan(0);
    for (const { id, name, shows } of listed) {
      expect(id).toMatch(/^[a-z0-9-]+$/);
      expect(name.length).toBeGreaterThan(0);
      expect(shows.length).toBeGreaterThan(10);
    }
  });

  it("come as JSON that can be sent back as it is, or as the file's own text", async () => {
    for (const { id } of await list()) {
      const address = `${served.url}/api/v1/scenarios/${id}`;
      const json = await fetch(address);
      expect(json.headers.get("Content-Type")).toBe("application/json");
      expect(json.headers.get("Vary")).toContain("Accept");
      const document: unknown = await json.json();
      expect((await post(served.url, JSON.stringify({ scenario: document, rehearsals: 1 }))).status, id).toBe(200);

      const yaml = await fetch(address, { headers: { Accept: "text/yaml" } });
      expect(yaml.headers.get("Content-Type")).toBe("application/yaml; charset=utf-8");
      expect(parse(await yaml.text())).toEqual(document);
      expect(yaml.headers.get("ETag")).not.toBe(json.headers.get("ETag"));
      expect((await fetch(address, { headers: { Accept: "text/yaml", "If-None-Match": yaml.headers.get("ETag") ?? "" } })).status).toBe(304);
    }
  });

  it("come as JSON to whoever takes anything, and not at all to whoever wants neither form", async () => {
    const address = `${served.url}/api/v1/scenarios/${templates[0]?.id}`;
    expect((await fetch(address, { headers: { Accept: "*/*" } })).headers.get("Content-Type")).toBe("application/json");
    const refused = await fetch(address, { headers: { Accept: "image/png" } });
    expect(refused.status).toBe(406);
    expect(((await refused.json()) as { detail: string }).detail).toContain("application/yaml");
  });

  it("tell from the comment at the file's head what they show, up to its first gap", () => {
    const folder = newFolder();
    writeFileSync(join(folder, "small.yaml"), meadowYaml);
    writeFileSync(join(folder, "notes.txt"), "not a scenario");
    expect(readTemplates(folder).map(({ id, name, shows }) => ({ id, name, shows }))).toEqual([
      { id: "small", name: "Test meadow", shows: "A meadow for tests: it keeps pace." },
    ]);
    writeFileSync(join(folder, "unsound.yaml"), meadowYaml.replace("8 ha", "8 kg"));
    expect(() => readTemplates(folder)).toThrow(/unsound\.yaml is not a sound scenario/);
    rmSync(folder, { recursive: true });
  });

  it("have their schema beside them", async () => {
    const answer = await fetch(`${served.url}/api/v1/schemas/scenario`);
    expect(answer.headers.get("Content-Type")).toBe("application/schema+json");
    expect(answer.headers.get("ETag")).toMatch(/^"[\w-]+"$/);
  });
});
