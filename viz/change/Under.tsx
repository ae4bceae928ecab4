/** What stands over a study: how far it is, a way to stop it, or why there is no result. */
import type { Asked, Asking } from "./asked.ts";
import { words } from "../words/change.ts";
import "./under.css";

export function Under<Result, SoFar>({ study, again }: { readonly study: Asking<Result, SoFar>; readonly again: () => void }) {
  const now: Asked<Result, SoFar> | null = study.now.value;
  if (!now) return null;
  if (now.progress) {
    const { done, expected } = now.progress;
    const said = now.waits === null ? words.workedOut(done, expected) : words.busy(now.waits);
    return (
      <p class="under quiet" role="status">
        <progress max={Math.max(1, expected)} value={done} aria-label={said} /> <span aria-hidden="true">{said}</span>
        <button type="button" onClick={study.stop}>{words.stop}</button>
      </p>
    );
  }
  return now.trouble === null ? null : <p class="under" role="alert">{now.trouble} <button type="button" onClick={again}>{words.askAgain}</button></p>;
}
