/** The figures of a drawing as a table, folded away; its rows are only made when it is open. */
import { useState } from "preact/hooks";
import { words } from "../words.ts";

interface TwinProps {
  readonly summary?: string;
  /** what the table shows, for its name */ readonly name: string;
  readonly head: readonly string[];
  readonly rows: () => readonly (readonly string[])[];
  /** columns, from 0, that hold words and stand left */ readonly inWords?: readonly number[];
}

export function TableTwin({ summary = words.table.same, name, head, rows, inWords = [0] }: TwinProps) {
  const [open, setOpen] = useState(false);
  return (
    <details class="twin" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{summary}<span class="unseen">: {name}</span></summary>
      {open && (
        <div class="scroll" tabIndex={0} role="group" aria-label={name}>
          <table>
            <thead><tr>{head.map((text, i) => <th key={i} scope="col" class={inWords.includes(i) ? "left" : ""}>{text}</th>)}</tr></thead>
            <tbody>
              {rows().map((row, r) => (
                <tr key={r}>{row.map((text, i) => (i === 0 ? <th key={i} scope="row" class={inWords.includes(0) ? "left" : ""}>{text}</th> : <td key={i} class={inWords.includes(i) ? "left" : ""}>{text}</td>))}</tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </details>
  );
}
