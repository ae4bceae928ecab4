import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parse } from "yaml";
import { LIMITS } from "../../server/limits.ts";
import { Store } from "../../server/store/store.ts";
import { readTemplates } from "../../server/templates.ts";
import { meadow, meadowYaml } from "./meadow.ts";
import { bare, serveApp } from "./served.ts";
import type { Served } from "./served.ts";
import { newFolder, removeFolders } from "../temporary.ts";

let served: Served;
let folder: string;
beforeAll(async () => {
  folder = newFolder();
  served = await serveApp({ folder, templates: readTemplates(join(import.meta.dirname, "../../scenarios")) });
});
afterAll(async () => {
  await served.close();
  removeFolders();
});

interface Saved { readonly id: string; readonly revision: number; readonly savedAt: string; readonly name: string; readonly hash: string }
interface Problem { readonly status: number; readonly detail: string; readonly errors?: { pointer: string; line?: number }[] }

const address = (id: string, server = served) => `${server.url}/api/v1/scenarios/${id}`;
const put = (id: string, body: string, headers: Record<string, string> = {}, server = served) =>
  fetch(address(id, server), { method: "PUT", body, headers: { "Content-Type": "application/json", ...headers } });
const remove = (id: string, headers: Record<string, string> = {}) => fetch(address(id), { method: "DELETE", headers });
const named = (name: string) => JSON.stringify({ ...meadow, name });
const tagOf = (answer: Response) => answer.headers.get("ETag") ?? "";
const problem = async (answer: Response) => (await answer.json()) as Problem;
/** Keeps a new scenario and gives its tag. */
async function kept(id: string, text = named(id)): Promise<string> {
  const answer = await put(id, text);
  expect(answer.status).toBe(201);
  return tagOf(answer);
}

describe("a scenario that is saved", () => {
  it("is kept to the letter under its name, with a first revision", async () => {
    const text = `  ${JSON.stringify(meadow, null, 3)}\n`;
    const answer = await put("to-the-letter", text);
    expect([answer.status, answer.headers.get("Location")]).toEqual([201, "/api/v1/scenarios/to-the-letter"]);
    expect(await answer.json()).toEqual({ id: "to-the-letter", revision: 1, savedAt: expect.stringMatching(/^\d{4}-.*Z$/), name: meadow.name, hash: expect.stringMatching(/^[0-9a-f]{32}$/) });
    const read = await fetch(address("to-the-letter"));
    expect(await read.text()).toBe(text);
    expect(tagOf(read)).toBe(tagOf(answer));
    expect((await fetch(address("to-the-letter"), { headers: { "If-None-Match": tagOf(read) } })).status).toBe(304);
  });

  it("can be had in the other form, which says the same under a tag of its own", async () => {
    await put("as-yaml", meadowYaml, { "Content-Type": "application/yaml" });
    const yaml = await fetch(address("as-yaml"), { headers: { Accept: "application/yaml" } });
    expect(await yaml.text()).toBe(meadowYaml);
    const json = await fetch(address("as-yaml"));
    expect(await json.json()).toEqual(parse(meadowYaml));
    expect(tagOf(json)).not.toBe(tagOf(yaml));
    await kept("as-json");
    const turned = await fetch(address("as-json"), { headers: { Accept: "text/yaml" } });
    expect(parse(await turned.text())).toEqual({ ...meadow, name: "as-json" });
    expect((await fetch(address("as-json"), { headers: { Accept: "image/png" } })).status).toBe(406);
  });

  it("stands in the list beside the examples", async () => {
    await kept("in-the-list");
    const list = (await (await fetch(`${served.url}/api/v1/scenarios`)).json()) as { scenarios: { id: string }[]; saved: Saved[] };
    expect(list.scenarios.length).toBeGreaterThan(0);
    expect(list.saved.find(({ id }) => id === "in-the-list")).toMatchObject({ name: "in-the-list", revision: 1 });
  });

  it("outlives the server", async () => {
    const own = newFolder();
    const first = await serveApp({ folder: own });
    const answer = await put("lasting", named("lasting"), {}, first);
    await first.close();
    const second = await serveApp({ folder: own });
    const read = await fetch(address("lasting", second));
    expect([await read.text(), tagOf(read)]).toEqual([named("lasting"), tagOf(answer)]);
    await second.close();
  });
});

describe("a change to a scenario", () => {
  it("is taken from whoever has read what is changed, in either form, and keeps every revision", async () => {
    const first = await kept("changing");
    const second = await put("changing", named("second"), { "If-Match": first });
    expect([second.status, ((await second.json()) as Saved).revision]).toEqual([200, 2]);
    const yamlTag = tagOf(await fetch(address("changing"), { headers: { Accept: "application/yaml" } }));
    const third = await put("changing", named("third"), { "If-Match": `"other", ${yamlTag}` });
    expect(((await third.json()) as Saved).revision).toBe(3);
    const { revisions } = (await (await fetch(`${address("changing")}/revisions`)).json()) as { revisions: Saved[] };
    expect(revisions.map(({ revision, name }) => [revision, name])).toEqual([[3, "third"], [2, "second"], [1, "changing"]]);
    for (const [number, name] of [[1, "changing"], [2, "second"], [3, "third"]] as const) {
      expect(await (await fetch(`${address("changing")}/revisions/${number}`)).text()).toBe(named(name));
    }
    for (const number of ["0", "4", "-1", "1e0", "01", "x", "9".repeat(400)]) expect((await fetch(`${address("changing")}/revisions/${number}`)).status, number).toBe(404);
  });

  it("is refused to whoever has not read it, and to whoever read it before another change; nothing is lost", async () => {
    const first = await kept("guarded");
    const blind = await put("guarded", named("blind"));
    expect([blind.status, tagOf(blind)]).toEqual([428, first]);
    expect((await problem(blind)).detail).toContain("If-Match");
    await put("guarded", named("second"), { "If-Match": first });
    const late = await put("guarded", named("late"), { "If-Match": first });
    expect(late.status).toBe(412);
    expect(tagOf(late)).toBe(tagOf(await fetch(address("guarded"))));
    for (const line of ["W/" + tagOf(late), "\"\"", "nonsense", ""]) expect((await put("guarded", named("late"), { "If-Match": line })).status, line).toBe(412);
    expect(await (await fetch(address("guarded"))).text()).toBe(named("second"));
    expect((await put("guarded", named("any"), { "If-Match": "*" })).status).toBe(200);
  });

  it("that went through unheard may be sent again, and makes no further revision", async () => {
    const first = await kept("unheard");
    const heard = await put("unheard", named("second"), { "If-Match": first });
    const again = await put("unheard", named("second"), { "If-Match": first });
    expect([again.status, tagOf(again), await again.json()]).toEqual([200, tagOf(heard), await heard.json()]);
  });

  it("goes to one of many who change the same revision at once", async () => {
    const first = await kept("contested");
    const answers = await Promise.all(Array.from({ length: 20 }, (_, i) => put("contested", named(`by ${i}`), { "If-Match": first })));
    const statuses = answers.map(({ status }) => status);
    expect(statuses.filter((status) => status === 200).length).toBe(1);
    expect(statuses.filter((status) => status === 412).length).toBe(19);
    expect(await (await fetch(address("contested"))).text()).toBe(named(`by ${statuses.indexOf(200)}`));
  });

  it("can be asked to be the first, and to be no first", async () => {
    await kept("first-of-all");
    expect((await put("first-of-all", named("again"), { "If-None-Match": "*" })).status).toBe(412);
    expect((await put("new-of-all", named("new"), { "If-None-Match": "*" })).status).toBe(201);
    const none = await put("not-there", named("new"), { "If-Match": "\"1-x\"" });
    expect([none.status, tagOf(none)]).toEqual([412, ""]);
    expect((await put("not-there", named("new"), { "If-Match": "*" })).status).toBe(412);
  });
});

describe("a scenario that is taken away", () => {
  it("goes only by the hand of whoever has read it, leaves its revisions, and counts on when it comes back", async () => {
    const tag = await kept("leaving");
    expect((await remove("leaving")).status).toBe(428);
    expect((await remove("leaving", { "If-Match": "\"1-x\"" })).status).toBe(412);
    const gone = await remove("leaving", { "If-Match": tag });
    expect([gone.status, await gone.text()]).toEqual([204, ""]);
    expect((await fetch(address("leaving"))).status).toBe(404);
    expect((await remove("leaving", { "If-Match": tag })).status).toBe(404);
    expect(JSON.stringify(await (await fetch(`${served.url}/api/v1/scenarios`)).json())).not.toContain("\"leaving\"");
    const { revisions } = (await (await fetch(`${address("leaving")}/revisions`)).json()) as { revisions: { revision: number; takenAway: boolean }[] };
    expect(revisions.map(({ revision, takenAway }) => [revision, takenAway])).toEqual([[2, true], [1, false]]);
    expect(await (await fetch(`${address("leaving")}/revisions/1`)).text()).toBe(named("leaving"));
    expect((await fetch(`${address("leaving")}/revisions/2`)).status).toBe(404);
    const back = await put("leaving", named("leaving"));
    expect([back.status, ((await back.json()) as Saved).revision]).toEqual([201, 3]);
    expect(tagOf(back)).not.toBe(tag);
  });
});

describe("a save refused", () => {
  it("names what is wrong with the scenario and where, and keeps nothing", async () => {
    const unsound = await put("unsound", JSON.stringify({ ...meadow, fields: [{ ...meadow.fields[0], area: 8 }] }));
    expect(unsound.status).toBe(422);
    expect((await problem(unsound)).errors?.[0]?.pointer).toBe("/fields/0/area");
    const yaml = await put("unsound", meadowYaml.replace("area: 8 ha", "area: 8 kg"), { "Content-Type": "text/yaml" });
    expect((await problem(yaml)).errors?.[0]).toMatchObject({ pointer: "/fields/0/area", line: 7 });
    for (const [body, type, status] of [["{", "application/json", 400], ["a: [", "text/yaml", 400], ["", "application/json", 400], ["{}", "text/plain", 415], ["x".repeat(1_000_001), "application/json", 413]] as const) {
      expect((await put("unsound", body, { "Content-Type": type })).status, body.slice(0, 9)).toBe(status);
    }
    const noText = await fetch(address("unsound"), { method: "PUT", body: Buffer.from([0x7b, 0xff, 0x7d]), headers: { "Content-Type": "application/json" } });
    expect([noText.status, (await problem(noText)).detail]).toEqual([400, "The body is not text in UTF-8."]);
    expect((await fetch(`${address("unsound")}/revisions`)).status).toBe(404);
  });

  it("leaves the worked examples as they are", async () => {
    const { scenarios } = (await (await fetch(`${served.url}/api/v1/scenarios`)).json()) as { scenarios: { id: string }[] };
    const id = scenarios[0]!.id;
    const tag = tagOf(await fetch(address(id)));
    for (const answer of [await put(id, named("mine"), { "If-Match": tag }), await remove(id, { "If-Match": tag })]) {
      expect(answer.status).toBe(409);
      expect((await problem(answer)).detail).toContain("another name");
    }
    expect(tagOf(await fetch(address(id)))).toBe(tag);
  });

  it("takes plain names only, so that none means anything to a file system", async () => {
    for (const id of ["Upper", "a_b", "-a", "a-", "a--b", "a b", "a.yaml", "..", "%2e%2e%2fetc", "..%2f..%2fa", "a%00", "é", "con%3A", "a".repeat(61), "__proto__"]) {
      const { status } = await bare(served.port, `/api/v1/scenarios/${encodeURI(id).replaceAll("%25", "%")}`, { "Content-Type": "application/json", "Content-Length": "0" }, "PUT");
      expect([400, 404], id).toContain(status);
    }
    expect((await put("a".repeat(60), named("long"))).status).toBe(201);
  });

  it("keeps so many scenarios and revisions and no more, and says so", async () => {
    const small = await serveApp({ limits: { scenarios: 2, revisions: 2 } });
    await put("one", named("one"), {}, small);
    const two = await put("two", named("two"), {}, small);
    const three = await put("three", named("three"), {}, small);
    expect([three.status, (await problem(three)).detail]).toEqual([409, "No more scenarios are kept here. Nothing was changed; a new data folder has room."]);
    expect((await put("two", named("2"), { "If-Match": tagOf(two) }, small)).status).toBe(200);
    expect((await problem(await put("two", named("22"), { "If-Match": "*" }, small))).detail).toContain("No more revisions");
    await small.close();
  });

  it("says that the folder is full, keeps what it had, and is told to the server's own side too", async () => {
    const own = newFolder();
    const small = await serveApp({ folder: own, limits: { folderBytes: 200_000 } });
    const long = (i: number) => JSON.stringify({ ...meadow, name: `n${i}` }) + " ".repeat(20_000);
    let answer: Response;
    let count = 0;
    do answer = await put(`s${count}`, long(count), {}, small); while (answer.status === 201 && (count += 1) < 100);
    expect(answer.status).toBe(507);
    expect((await problem(answer)).detail).toContain("What was kept before is still there");
    expect(small.reports.length).toBe(1);
    await small.close();
    const store = new Store(own, LIMITS);
    expect(store.scenarios.list().length).toBe(count);
    expect(store.isSound()).toBe(true);
    store.close();
  });
});
