import { words } from "../words.ts";

export function Crew() {
  return <h1>{words.sheets.crew}</h1>;
}
