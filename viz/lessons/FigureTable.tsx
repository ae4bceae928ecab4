/** The plans side by side: each figure with a bar drawn to one scale, and its range where it is printed otherwise than the figure. */
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { words } from "../words.ts";
import { lessonSheet } from "../words/lessons.ts";
import { figureRow, type FigureName, type FigureRow } from "./figures.ts";
import type { Outcome } from "./lesson.ts";

interface TableProps { readonly names: readonly FigureName[]; readonly told: readonly Outcome[]; readonly plans: readonly string[] }

export function FigureTable({ names, told, plans }: TableProps) {
  const { head, figures } = lessonSheet.see;
  return (
    <table class="side-figures">
      <caption class="unseen">{figures}</caption>
      <thead class="unseen"><tr><th scope="col">{head.plan}</th><th scope="col">{head.bar}</th><th scope="col">{head.figure}</th><th scope="col">{head.range}</th></tr></thead>
      {names.map((name) => <Group key={name} row={figureRow(name, told, units.value)} plans={plans} />)}
    </table>
  );
}

function Group({ row, plans }: { readonly row: FigureRow; readonly plans: readonly string[] }) {
  const { label, unit, figures, means, target, whole } = row;
  const ends = figures.flatMap(({ value, range }) => [value, ...(range ?? [])]).concat(target?.value ?? 0).filter(Number.isFinite);
  const most = whole ?? Math.max(1e-9, ...ends) * 1.02;
  const x = (value: number) => `${Math.max(0, Math.min(100, (100 * value) / most)).toFixed(2)}%`;
  return (
    <tbody>
      <tr><th scope="rowgroup" colSpan={4} class="left group-head">{label}, {textIn("metric", unit)} <span class="quiet">{[means, target?.said].filter(Boolean).join("; ")}</span></th></tr>
      {figures.map(({ value, range }, i) => (
        <tr key={i}>
          <th scope="row" class="left">{plans[i]}</th>
          <td class="bar-of" aria-hidden="true">
            <svg width="100%" height="20" focusable="false">
              <rect class="kept" x="0" y="2" width={x(value)} height="10" />
              {range && <><line class="band" x1={x(range[0])} x2={x(range[1])} y1="16" y2="16" /><line class="band" x1={x(range[0])} x2={x(range[0])} y1="13" y2="19" /><line class="band" x1={x(range[1])} x2={x(range[1])} y1="13" y2="19" /></>}
              {target && <line class="target" x1={x(target.value)} x2={x(target.value)} y1="0" y2="20" />}
            </svg>
          </td>
          <td class="figure-of">{row.say(value)}</td>
          <td class="range-of quiet">{range && new Set([value, ...range].map(row.say)).size > 1 && words.figures.range(row.say(range[0]), row.say(range[1]))}</td>
        </tr>
      ))}
    </tbody>
  );
}
