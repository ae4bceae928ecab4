/** What every settling of a part needs at hand: where problems go, what fills silences, and the turning of written words into SI. */
import { RANGES } from "./limits.ts";
import type { RangeName } from "./limits.ts";
import { Silence } from "./defaults.ts";
import type { DefaultName } from "./defaults.ts";
import { amountOf } from "./pieces.ts";
import { Problems } from "./problems.ts";
import { found, nearest, pathOf } from "./words.ts";
import type { Path } from "./words.ts";

/** The text of a map file by its plain name, or what is wrong with it, a sentence. */
export type MapOf = (name: string) => string | { readonly wrong: string };

export class Desk {
  readonly problems: Problems;
  readonly silence = new Silence();

  /**
   * @param called what the document is, at the start of a sentence about all of it
   * @param mapOf where the texts of map files come from; without it none is read
   */
  constructor(called?: string, readonly mapOf?: MapOf) {
    this.problems = new Problems(called);
  }

  /** SI of a written quantity that the schema has already passed. */
  si(written: string | number, name: RangeName): number {
    const amount = amountOf(written, RANGES[name].dimension);
    if ("wrong" in amount) throw new Error(`"${written}" passed the schema as ${name}, yet ${amount.wrong}`);
    return amount.value;
  }

  /** SI of a written quantity, or null where the file does not give it. */
  siOrNull(written: string | number | undefined, name: RangeName): number | null {
    return written === undefined ? null : this.si(written, name);
  }

  /** SI of a written quantity, or of its default. Quantity and default have one name; `base` is the part of the place before the last key. */
  siOr(written: string | number | undefined, name: DefaultName & RangeName, base: Path = [], its: Parameters<Silence["fill"]>[3] = {}): number {
    return this.si(this.silence.fill(written, name, placeOf(base, name), its), name);
  }

  /** A word as written, or the default. */
  wordOr(written: string | undefined, name: DefaultName, base: Path = [], its: Parameters<Silence["fill"]>[3] = {}): string {
    return this.silence.fill(written, name, placeOf(base, name), its);
  }

  /** A name as written, without blanks around it, or a plain one made up from its place in the list. */
  nameOr(written: string | undefined, name: DefaultName, base: Path, ordinal = Number(base.at(-1)) + 1): string {
    return this.silence.fill(written, name, placeOf(base, name), { ordinal }).trim();
  }

  countOr(written: number | undefined, name: DefaultName, base: Path = []): number {
    return Number(this.silence.fill(written, name, placeOf(base, name)));
  }

  turnedOr(written: string | boolean | undefined, name: DefaultName, base: Path = []): boolean {
    return isOn(this.silence.fill(written, name, placeOf(base, name)));
  }

  /** Tells every name that an earlier item of the list has already. */
  refuseDoubles(names: readonly string[], placeOfName: (index: number) => Path): void {
    names.forEach((name, i) => {
      const first = names.indexOf(name);
      if (first < i) this.problems.add(placeOfName(i), `is ${found(name)}, the name of ${pathOf(placeOfName(first).slice(0, -1))} already: each needs its own`);
    });
  }

  /** The index of a name; -1, told as a problem, when there is none. */
  indexOf(written: string, names: readonly string[], path: Path, called: string): number {
    const index = names.indexOf(written.trim());
    if (index < 0) {
      const near = nearest(written.trim(), names);
      const would = near ? `did you mean ${found(near)}?` : `there ${names.length === 1 ? "is" : "are"} ${names.slice(0, 8).map(found).join(", ")}${names.length > 8 ? " and others" : ""}`;
      this.problems.add(path, `is ${found(written)}: no ${called} has that name; ${would}`);
    }
    return index;
  }
}

/** On, yes and true, as written. */
export function isOn(written: string | boolean): boolean {
  return written === true || written === "on" || written === "yes";
}

/** `choppers[0].changeover` from the item's place and the name of the quantity. */
function placeOf(base: Path, name: string): string {
  return base.length === 0 ? name : pathOf([...base, name.split(".").at(-1) ?? name]);
}
