/** The state of the day as a file for the command line, out and in. */
import { useSignal } from "@preact/signals";
import type { Problem } from "../../sim/scenario/types.ts";
import type { Document } from "../document.ts";
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { now } from "../state/now.ts";
import { saveAs } from "../drawings/save.ts";
import { utf8Of } from "../page/chosen.ts";
import { FileChoice } from "../page/FileChoice.tsx";
import { LARGEST } from "../plan/files.ts";
import { noonWords as words } from "../words/noon.ts";

export function NowFile({ standing }: { readonly standing: Document }) {
  const bad = useSignal<readonly Pick<Problem, "detail" | "line">[]>([]);
  const save = async () => {
    const { stringify } = await import("yaml");
    saveAs(words.fileName, new Blob([stringify(standing, { lineWidth: 0 })], { type: "application/yaml" }));
  };
  const take = async (file: File) => {
    const text = await utf8Of(file, LARGEST);
    if (typeof text !== "string") return void (bad.value = [{ detail: text.wrong }]);
    const { readDocument } = await import("../../sim/scenario/document.ts");
    const read = readDocument(text);
    bad.value = "problem" in read ? [read.problem] : [];
    if (!("problem" in read)) now.value = read.value as Document;
  };
  return (
    <div class="now-file screen-only">
      <button type="button" onClick={() => void save()}>{words.file}</button>
      <FileChoice label={words.take} accept=".yaml,.yml,.json" how={words.takeHow} take={take} />
      {bad.value.length > 0 && <p class="trouble" role="alert">{words.badFile} {bad.value.map(({ detail, line }) => `${textIn(units.value, detail)}${line === undefined ? "" : ` (${line})`}`).join(" ")}</p>}
    </div>
  );
}
