/** Saves the picture that it stands under: as drawn, as pixels, or its table. Several drawings in one figure become one picture each. */
import { useRef, useState } from "preact/hooks";
import { fileName, tableText } from "../table.ts";
import { findings } from "../state.ts";
import { words } from "../words.ts";
import { pictures } from "../words/pictures.ts";

interface DownloadsProps {
  /** of the picture */ readonly name: string;
  readonly head: readonly string[];
  readonly rows: () => readonly (readonly string[])[];
}

export function Downloads({ name, head, rows }: DownloadsProps) {
  const ref = useRef<HTMLParagraphElement>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const plan = findings.value?.scenario.name ?? words.name;
  const drawings = () => [...(ref.current?.closest("[data-picture]")?.querySelectorAll<SVGSVGElement>("svg[role=img]") ?? [])];
  const save = async (kind: "svg" | "png" | "csv") => {
    setWrong(null);
    // Fetched when something is saved: the first answer does not wait for it.
    const { asPixels, drawnAlone, saveAs } = await import("./save.ts");
    if (kind === "csv") return saveAs(fileName(plan, name, kind), new Blob([tableText(head, rows())], { type: "text/csv" }));
    for (const [i, drawing] of drawings().entries()) {
      const drawn = drawnAlone(drawing, name, plan);
      saveAs(fileName(plan, i === 0 ? name : `${name} ${i + 1}`, kind), kind === "svg" ? new Blob([drawn.text], { type: "image/svg+xml" }) : await asPixels(drawn));
    }
  };
  return (
    <p class="downloads" ref={ref}>
      <span>{pictures.save.title}</span>
      {(["svg", "png", "csv"] as const).map((kind) => (
        <button type="button" class="plain" key={kind} aria-label={pictures.save.as(name, kind.toUpperCase())}
          onClick={() => { save(kind).catch((error: unknown) => setWrong(error instanceof Error ? error.message : String(error))); }}>{kind.toUpperCase()}</button>
      ))}
      {wrong !== null && <span role="alert">{wrong}</span>}
    </p>
  );
}
