/** What stands in the place of the first answer: that it is on its way, or why there is none, and the way to ask once more. */
import { askFirst, trouble } from "../state.ts";
import { words } from "../words.ts";

export function FirstAnswer({ waiting = words.waitingForFirst }: { readonly waiting?: string }) {
  if (trouble.value === null) return <>{waiting}</>;
  return <>{trouble.value} <button type="button" onClick={askFirst}>{words.again}</button></>;
}
