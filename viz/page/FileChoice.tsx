/** The way in for a file of the reader's: chosen with the button, or dropped anywhere in the box. What it means is for whoever asked for it. */
import { useSignal } from "@preact/signals";
import { useEffect, useId } from "preact/hooks";
import { fileWords } from "../words/files.ts";
import "./filechoice.css";

interface FileChoiceProps {
  /** what is done with the file, on the button */ readonly label: string;
  /** endings and media types that the browser offers first; any other file can still be dropped */ readonly accept: string;
  /** what kind of file it is, and what becomes of it */ readonly how: string;
  /** takes the file; until it has, no other one is taken */ take(file: File): Promise<void>;
}

export function FileChoice({ label, accept, how, take }: FileChoiceProps) {
  const over = useSignal(false);
  const busy = useSignal(false);
  const several = useSignal(0);
  const id = useId();
  useEffect(keepPage, []);
  const bring = async (files: readonly File[]) => {
    const [file] = files;
    if (!file || busy.value) return;
    several.value = files.length > 1 ? files.length : 0;
    if (files.length > 1) return;
    busy.value = true;
    try {
      await take(file);
    } finally {
      busy.value = false;
    }
  };
  return (
    <div class={over.value ? "file-choice screen-only over" : "file-choice screen-only"} aria-busy={busy.value}
      onDragOver={(event) => { event.preventDefault(); over.value = true; }}
      onDragLeave={(event) => { if (!event.currentTarget.contains(event.relatedTarget as Node | null)) over.value = false; }}
      onDrop={(event) => {
        event.preventDefault();
        over.value = false;
        void bring([...(event.dataTransfer?.files ?? [])]);
      }}>
      {/* The input lies over its label: the button has the page's words and looks, and is pressed, reached by key and named as the browser's own. */}
      <label class="file-button">{label}<input type="file" accept={accept} aria-describedby={id} onClick={(event) => { if (busy.value) event.preventDefault(); }}
        onChange={(event) => {
          const files = [...(event.currentTarget.files ?? [])];
          // Emptied, so that the same file may be chosen again once it is mended.
          event.currentTarget.value = "";
          void bring(files);
        }} /></label>
      {busy.value ? <span class="quiet">{fileWords.busy}</span> : <span class="quiet drop-too">{fileWords.drop}</span>}
      <p class="quiet" id={id}>{how}</p>
      {several.value > 0 && <p class="trouble" role="alert">{fileWords.several(several.value)}</p>}
    </div>
  );
}

/** A file that is dropped beside the box would take the place of the page, and what was typed would be gone. */
function keepPage(): () => void {
  const refuse = (event: DragEvent) => {
    if (event.defaultPrevented || !event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    event.dataTransfer.dropEffect = "none";
  };
  addEventListener("dragover", refuse);
  return () => removeEventListener("dragover", refuse);
}
