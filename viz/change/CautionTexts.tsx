/** The cautions that a change carries: whole where they are new, by name with the text on request where they have been told before. */
import type { Caution } from "../../sim/findings/types.ts";
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { pictures } from "../words/pictures.ts";

export function CautionTexts({ cautions, told }: { readonly cautions: readonly Caution[]; readonly told: readonly Caution[] }) {
  return (
    <>
      {cautions.map(({ id, where, text }) => (told.some((other) => other.text === text)
        ? <details class="caution-here" key={id + where}><summary>{pictures.from.cautions}: {pictures.caution[id] ?? id}</summary><p>{textIn(units.value, text)}</p></details>
        : <p class="card-caution" key={id + where}>{textIn(units.value, text)}</p>))}
    </>
  );
}
