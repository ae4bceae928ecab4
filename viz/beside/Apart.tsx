/** What tells each other plan from the first: at what each is better, and what the days or the model leave open. */
import type { Comparison } from "../../sim/study/compare.ts";
import { quantity } from "../quantity.ts";
import { units } from "../state.ts";
import { words } from "../words/beside.ts";
import { sideBySide, toldApart, type SideMeasure, type SideRow } from "./side.ts";
import { labelOf, say } from "./SideTable.tsx";
import type { Ready } from "./shown.ts";

export function Apart({ plans, comparison }: { readonly plans: readonly Ready[]; readonly comparison: Comparison }) {
  const [first, ...others] = plans as readonly [Ready, ...Ready[]];
  return <ul>{others.flatMap((other, i) => said(other, first, comparison.differences[i]!.figures)).map((text) => <li key={text}>{text}</li>)}</ul>;
}

function said(other: Ready, first: Ready, paired: Comparison["differences"][number]["figures"]): string[] {
  const { betterAt, aheadAt, ledger, scatter } = words.apart;
  const system = units.value;
  const isTold = ({ measure, difference }: SideRow) => /[1-9]/.test(say(measure, difference!, system));
  const rows = sideBySide(other.run.findings, first.run.findings, paired);
  const { better, ledger: open } = toldApart(rows, paired, isTold);
  const named = (measures: readonly SideMeasure[]) => measures.map((measure) => labelOf(measure).toLowerCase());
  const each = (say: (letter: string, what: readonly string[]) => string, { now, other: before }: typeof better) =>
    [[other.letter, now] as const, [first.letter, before] as const].flatMap(([letter, what]) => (what.length > 0 ? [say(letter, named(what))] : []));
  const ahead = each(aheadAt, open);
  const density = rows.find(({ measure }) => measure === "dryDensity")!;
  return [
    ...each(betterAt, better), ...(ahead.length > 0 ? [ledger(ahead)] : []),
    ...(density.within === "relation" && isTold(density) ? [scatter(other.letter, first.letter, quantity(Math.abs(density.difference!), "density", system))] : []),
  ];
}
