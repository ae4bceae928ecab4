/** The plan as a file, and all that the server keeps as one: out and in again. */
import { formatNumber } from "../../sim/scenario/units.ts";
import { saveAs } from "../drawings/save.ts";
import { FileChoice } from "../page/FileChoice.tsx";
import { layAside, list, plan, rewrite } from "../state.ts";
import { fileName } from "../table.ts";
import { planWords } from "../words/plan.ts";
import { LARGEST, asJson, asYaml, nameIn, take } from "./files.ts";
import type { Attempt, Said } from "./Keeping.tsx";
import { archive, takeArchive } from "./kept.ts";

export function PlanFiles({ attempt, tell }: { readonly attempt: Attempt; tell(said: Said): void }) {
  const text = planWords.keep;
  const out = async (kind: "yaml" | "json") => {
    const document = plan.value!;
    saveAs(fileName(nameIn(document), "plan", kind), new Blob([kind === "yaml" ? await asYaml(document) : asJson(document)], { type: kind === "yaml" ? "application/yaml" : "application/json" }));
  };
  const bring = (file: File) => attempt(async () => {
    const taken = await take(file);
    if ("wrong" in taken) tell({ text: `${taken.wrong} ${text.stays}`, wrong: true });
    else if ("problems" in taken) tell({ text: `${text.broken(file.name)} ${text.stays}`, wrong: true, problems: taken.problems });
    else {
      layAside();
      rewrite(taken.plan);
      tell({ text: text.took(file.name), wrong: false });
    }
  });
  return (
    <>
      <h3>{text.files}</h3>
      <p class="row">
        <button type="button" onClick={() => attempt(() => out("yaml"))}>{text.asYaml}</button>
        <button type="button" onClick={() => attempt(() => out("json"))}>{text.asJson}</button>
      </p>
      <FileChoice label={text.take} accept=".yaml,.yml,.json,application/json,application/yaml" how={text.takeHow(formatNumber(LARGEST, 0))} take={bring} />
    </>
  );
}

/** Everything that the server keeps, out as one file and in again. */
export function Archive({ attempt, tell }: { readonly attempt: Attempt; tell(sentence: string): void }) {
  const text = planWords.keep;
  const bring = (file: File) => attempt(async () => {
    const brought = await takeArchive(file);
    tell(text.brought(file.name, brought));
    await list().catch(() => undefined);
  });
  return (
    <>
      <h3>{text.all}</h3>
      <p class="quiet" id="archive-how">{text.allHow}</p>
      <p class="row"><button type="button" aria-describedby="archive-how" onClick={() => attempt(async () => saveAs("clampside-archive.jsonl", await archive()))}>{text.allOut}</button></p>
      <FileChoice label={text.allIn} accept=".jsonl" how={text.allInHow} take={bring} />
    </>
  );
}
