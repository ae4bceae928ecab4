/** What the room said beside what came out. */
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { listed } from "../words.ts";
import { lessonSheet, wordsOf } from "../words/lessons.ts";
import type { Lesson, Outcome as Told } from "./lesson.ts";
import { predictions } from "./room.ts";

export function Outcome({ lesson, told }: { readonly lesson: Lesson; readonly told: readonly Told[] }) {
  const { choices } = wordsOf(lesson.id);
  const { votes, guesses } = predictions.value;
  const truth = lesson.truth(told);
  const { came, cameNumber, room, votesFor } = lessonSheet.see;
  const said = typeof truth === "number"
    ? guesses.map(String)
    : Object.entries(votes).filter(([, count]) => count > 0).sort(([, a], [, b]) => b - a).map(([choice, count]) => votesFor(choices[choice] ?? choice, count));
  return (
    <div class="outcome">
      {said.length > 0 && <p>{textIn(units.value, room(listed(said)))}</p>}
      <p class="truth">{textIn(units.value, typeof truth === "number" ? cameNumber(String(truth)) : came(`${choices[truth]}.`))}</p>
    </div>
  );
}
