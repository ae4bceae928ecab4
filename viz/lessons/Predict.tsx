/** The room predicts: votes for a choice, counted by buttons, or guesses of a number of 100. */
import { useState } from "preact/hooks";
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { listed } from "../words.ts";
import { lessonSheet, wordsOf } from "../words/lessons.ts";
import type { Lesson } from "./lesson.ts";
import { guess, predictions, vote } from "./room.ts";

/** @param held the address asked for a later step, which waits for a prediction */
export function Predict({ lesson, held }: { readonly lesson: Lesson; readonly held: boolean }) {
  const { choices } = wordsOf(lesson.id);
  const keys = Object.keys(choices);
  return (
    <>
      {held && <p role="status">{lessonSheet.predict.first}</p>}
      {keys.length > 0 ? <Votes choices={choices} keys={keys} /> : <Guesses />}
    </>
  );
}

function Votes({ choices, keys }: { readonly choices: Readonly<Record<string, string>>; readonly keys: readonly string[] }) {
  const { votes } = predictions.value;
  const most = Math.max(1, ...Object.values(votes));
  return (
    <ul class="votes" aria-label={lessonSheet.predict.votes}>
      {keys.map((key) => {
        const count = votes[key] ?? 0;
        const choice = textIn(units.value, choices[key]!);
        return (
          <li key={key}>
            <button type="button" class="choice-vote" onClick={() => vote(key, 1)}>{choice}<span class="unseen">: {lessonSheet.predict.vote}</span></button>
            <svg class="vote-bar" height="16" aria-hidden="true" focusable="false"><rect class="vote-share" width={`${(100 * count) / most}%`} height="16" /></svg>
            <output class="vote-count">{count}</output>
            <button type="button" class="plain" disabled={count === 0} onClick={() => vote(key, -1)}>{lessonSheet.predict.takeBack}<span class="unseen">: {choice}</span></button>
          </li>
        );
      })}
    </ul>
  );
}

function Guesses() {
  const [text, setText] = useState("");
  const { guesses } = predictions.value;
  const figure = Number(text);
  const sound = text.trim() !== "" && figure >= 0 && figure <= 100;
  return (
    <form class="guesses" onSubmit={(event) => {
      event.preventDefault();
      if (!sound) return;
      guess(Math.round(figure));
      setText("");
    }}>
      <label for="guess">{lessonSheet.predict.guess}</label>
      <input id="guess" type="number" inputMode="numeric" min="0" max="100" step="1" value={text} onInput={(event) => setText(event.currentTarget.value)} />
      <button type="submit" disabled={!sound}>{lessonSheet.predict.add}</button>
      {guesses.length > 0 && <p role="status">{lessonSheet.predict.guesses(listed(guesses.map(String)))}</p>}
    </form>
  );
}
