/** What stands over a study: how far it is, a way to stop it, or why there is no result. */
import type { Asked, Asking } from "./asked.ts";
import { words } from "../words/change.ts";

export function Under<Result, SoFar>({ study, again }: { readonly study: Asking<Result, SoFar>; readonly again: () => void }) {
  const now: Asked<Result, SoFar> | null = study.now.value;
  if (!now) return null;
  if (now.progress) {
    const { done, expected } = now.progress;
    return (
      <p class="under quiet" role="status">
        <progress max={Math.max(1, expected)} value={done} aria-label={words.workedOut(done, expected)} /> <span aria-hidden="true">{words.workedOut(done, expected)}</span>
        <button type="button" onClick={study.stop}>{words.stop}</button>
      </p>
    );
  }
  return now.trouble === null ? null : <p class="under" role="alert">{now.trouble} <button type="button" onClick={again}>{words.askAgain}</button></p>;
}
