/** What a file of weigh tickets leaves open, to be answered by whoever has the file: it is asked, never guessed. */

/** What can be asked, as the wishes are called. */
export const ASKED = ["columns", "decimal", "dates", "unit"] as const;
export type AskedName = (typeof ASKED)[number];

export const DECIMALS = ["point", "comma"] as const;
export type Decimal = (typeof DECIMALS)[number];
export const DATE_ORDERS = ["dmy", "mdy", "ymd"] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];
export const MASS_UNITS = ["kg", "t", "lb", "ton"] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

/** One question. */
export interface Question {
  readonly about: AskedName;
  /** a sentence: what is open, where, and which answers there are */ readonly detail: string;
  readonly answers: readonly string[];
}

/** The questions of one file, all at once. The message holds every sentence, one a line. */
export class OpenQuestions extends RangeError {
  readonly questions: readonly Question[];

  constructor(questions: readonly Question[]) {
    super(questions.map(({ detail }) => detail).join("\n"));
    this.name = "OpenQuestions";
    this.questions = questions;
  }
}
