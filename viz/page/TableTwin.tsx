/** The figures of a drawing as a table, folded away; its rows are only made when it is open. Under a picture it stands beside the ways to save it. */
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Downloads } from "../drawings/Downloads.tsx";
import { machinePointed, pointing } from "../pointing.ts";
import { words } from "../words.ts";

interface TwinProps {
  readonly summary?: string;
  /** what the table shows, for its name */ readonly name: string;
  readonly head: readonly string[];
  readonly rows: () => readonly (readonly string[])[];
  /** columns, from 0, that hold words and stand left */ readonly inWords?: readonly number[];
  /** machine of the day that each row is about; left out where rows are about none */ readonly machines?: readonly (number | null)[];
}

export function TableTwin({ summary = words.table.same, name, head, rows, inWords = [0], machines }: TwinProps) {
  const [open, setOpen] = useState(false);
  return (
    <details class="twin" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{summary}<span class="unseen">: {name}</span></summary>
      {open && (
        <div class="scroll" tabIndex={0} role="group" aria-label={name} {...(machines ? pointing : {})}>
          <table>
            <thead><tr>{head.map((text, i) => <th key={i} scope="col" class={inWords.includes(i) ? "left" : ""}>{text}</th>)}</tr></thead>
            <tbody>
              {rows().map((row, r) => (
                <Row key={r} machine={machines?.[r] ?? null}>
                  {row.map((text, i) => (i === 0 ? <th key={i} scope="row" class={inWords.includes(0) ? "left" : ""}>{text}</th> : <td key={i} class={inWords.includes(i) ? "left" : ""}>{text}</td>))}
                </Row>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </details>
  );
}

/** A row about a machine is marked while the machine is pointed at, and points at it. */
export function Row({ machine, children }: { readonly machine: number | null; readonly children: ComponentChildren }) {
  if (machine === null) return <tr>{children}</tr>;
  return <tr data-machine={machine} class={machinePointed() === machine ? "pointed" : ""}>{children}</tr>;
}

/** What stands under a picture: the same as a table, and ways to save either. */
export function UnderPicture(twin: TwinProps) {
  return (
    <div class="under-picture">
      <TableTwin {...twin} />
      <Downloads name={twin.name} head={twin.head} rows={twin.rows} />
    </div>
  );
}
