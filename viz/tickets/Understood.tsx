/** How the file was read: each column with what it was taken for, what must be asked, and every row that is no ticket with its reason. */
import { DATE_ORDERS, DECIMALS, MASS_UNITS } from "../../sim/study/tickets/cells.ts";
import { COLUMNS, type ColumnName } from "../../sim/study/tickets/headings.ts";
import type { Answers } from "../../sim/study/tickets/mapping.ts";
import type { TicketReading } from "../../sim/study/tickets/tickets.ts";
import { TableTwin } from "../page/TableTwin.tsx";
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { ticketWords } from "../words/tickets.ts";
import { answers, sheetOf, withColumn } from "./taken.ts";

/** Rows under the headings that are shown as examples. */
const EXAMPLES = 3;

export function Understood({ read }: { readonly read: TicketReading }) {
  const words = ticketWords.understood;
  const { mapping, questions, refused, remarks, rows, waiting, tickets } = read;
  return (
    <section aria-labelledby="understood">
      <h2 id="understood">{words.title}</h2>
      {questions.length > 0 && (
        <div class="trouble" role="alert">
          <p><strong>{words.answer}</strong></p>
          <ul>{questions.map(({ about, sentence }) => <li key={about + sentence} id={`asked-${about}`}>{said(sentence)}</li>)}</ul>
        </div>
      )}
      {mapping.heading.length > 0 && <Settings read={read} />}
      {mapping.heading.length > 0 && <Columns read={read} />}
      <p class="found" role="status">{questions.length > 0 ? words.waiting(waiting) : words.rows(rows, tickets.length, refused.length)}</p>
      {questions.length === 0 && tickets.length === 0 && <p class="trouble" role="alert">{words.noTickets}</p>}
      {refused.length > 0 && (
        <Rows name={words.refused} head={words.refusedHead} rows={refused.map(({ row, because, text }) => [String(row), textIn(units.value, because), text])} />
      )}
      {remarks.length > 0 && (
        <TableTwin summary={`${words.remarks} (${remarks.length})`} name={words.remarks} head={words.remarksHead} rows={() => remarks.map(({ row, remark }) => [String(row), textIn(units.value, remark)])} inWords={[1]} />
      )}
      <details class="twin">
        <summary>{words.how}</summary>
        <ul>{mapping.understood.map((sentence) => <li key={sentence}>{sentence}</li>)}</ul>
      </details>
    </section>
  );
}

/** On a command line a column is said by its name; here it is chosen in its row. */
const said = (sentence: string): string => sentence.replace(/; say it as \w+=heading\.$/u, ".");

/** Rows that stand open at once; the others are a click away. */
const SHOWN = 12;

function Rows({ name, head, rows }: { readonly name: string; readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] }) {
  if (rows.length > SHOWN) return <TableTwin summary={`${name} (${rows.length})`} name={name} head={head} rows={() => rows} inWords={[1, 2]} />;
  return (
    <>
      <h3>{name}</h3>
      <div class="scroll" tabIndex={0} role="group" aria-label={name}>
        <table class="refused">
          <thead><tr>{head.map((text, i) => <th key={text} scope="col" class={i === 0 ? "" : "left"}>{text}</th>)}</tr></thead>
          <tbody>{rows.map(([row, ...cells]) => <tr key={row}><th scope="row">{row}</th>{cells.map((text, i) => <td key={i} class="left">{text}</td>)}</tr>)}</tbody>
        </table>
      </div>
    </>
  );
}

/** The three things that a file may leave open, asked or shown, and open to another answer. */
function Settings({ read: { mapping, questions } }: { readonly read: TicketReading }) {
  const words = ticketWords.understood;
  const choice = <T extends string>(about: "decimal" | "dates" | "unit", label: string, all: readonly T[], names: Readonly<Record<T, string>>, proven: T | null) => {
    const isOpen = questions.some((question) => question.about === about);
    const answer = answers.value[about] as T | undefined;
    return (
      <label class={isOpen ? "setting open" : "setting"} key={about}>
        <span>{label}</span>
        <select value={answer ?? ""} aria-invalid={isOpen} aria-describedby={isOpen ? `asked-${about}` : undefined} onChange={(event) => settle(about, event.currentTarget.value)}>
          <option value="">{isOpen ? words.choose : answer !== undefined ? words.fromFile : proven === null ? words.nothing : words.asFile(names[proven])}</option>
          {all.map((each) => <option key={each} value={each}>{names[each]}</option>)}
        </select>
      </label>
    );
  };
  return (
    <>
      <div class="settings screen-only">
        {choice("decimal", words.decimal, DECIMALS, ticketWords.decimals, mapping.decimal)}
        {choice("dates", words.dates, DATE_ORDERS, ticketWords.dateOrders, mapping.dates)}
        {choice("unit", words.unit, MASS_UNITS, ticketWords.massUnits, mapping.unit)}
      </div>
      <p class="quiet screen-only">{words.answered}</p>
    </>
  );
}

function settle(about: "decimal" | "dates" | "unit", value: string): void {
  const { [about]: _, ...others } = answers.value;
  answers.value = value === "" ? others : { ...others, [about]: value } as Answers;
}

/** A row a column: its heading, how its first rows look, and what it is read as. */
function Columns({ read: { mapping } }: { readonly read: TicketReading }) {
  const words = ticketWords.understood;
  const examples = (sheetOf.value?.rows ?? []).filter(({ row }) => row > mapping.headingRow).slice(0, EXAMPLES);
  const nameAt = (place: number) => COLUMNS.find((name) => mapping.columns[name] === place) ?? null;
  return (
    <div class="scroll" tabIndex={0} role="group" aria-label={words.columns}>
      <table class="columns-read">
        <thead><tr>{words.head.map((text, i) => <th key={text} scope="col" class={i === 0 ? "" : "left"}>{text}</th>)}</tr></thead>
        <tbody>
          {mapping.heading.map((head, place) => head !== "" && (
            <tr key={place}>
              <td>{place + 1}</td>
              <th scope="row" class="left">{head}</th>
              <td class="left quiet">{examples.map(({ cells }) => cells[place]?.trim() ?? "").filter((cell) => cell !== "").join(" · ")}</td>
              <td class="left">
                <select value={nameAt(place) ?? ""} aria-label={words.isRead(head)} onChange={(event) => {
                  answers.value = withColumn(answers.value, mapping, place, (event.currentTarget.value || null) as ColumnName | null);
                }}>
                  <option value="">{words.none}</option>
                  {COLUMNS.map((name) => <option key={name} value={name}>{ticketWords.columns[name]}</option>)}
                </select>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
