import { words } from "../words.ts";

export function Change() {
  return <h1>{words.sheets.change}</h1>;
}
