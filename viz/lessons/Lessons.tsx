import { words } from "../words.ts";

export function Lessons() {
  return <h1>{words.sheets.lessons}</h1>;
}
