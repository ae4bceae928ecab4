/** Where one figure of a rehearsal comes from: formula, numbers, inputs, source, mark, range. */
import type { ComponentChildren } from "preact";
import type { Derivation as Source, MeasureName } from "../../sim/findings/types.ts";
import { withNumbers } from "../derived.ts";
import { inEnglish } from "../english.ts";
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import { words } from "../words.ts";
import { pictures } from "../words/pictures.ts";

interface DerivationProps {
  readonly name: MeasureName;
  readonly source: Source;
  /** the figure with its unit */ readonly said: string;
  /** what stands behind the range */ readonly children?: ComponentChildren;
}

export function Derivation({ name, source, said, children }: DerivationProps) {
  const system = units.value;
  const worked = withNumbers(name, source);
  return (
    <dl>
      <dt>{words.figures.formula}</dt><dd>{textIn("metric", source.formula)}</dd>
      <dt>{pictures.from.numbers}</dt><dd>{worked === null ? `${pictures.from.counted} ${said}` : `${textIn(system, worked)} = ${said}`}</dd>
      {Object.keys(source.inputs).length > 0 && <>
        <dt>{words.figures.inputs}</dt>
        <dd>{Object.entries(source.inputs).map(([input, value]) => <span class="input" key={input}>{inEnglish(input)}: {textIn(system, value)}</span>)}</dd>
      </>}
      <dt>{words.figures.source}</dt><dd>{source.source}</dd>
      <dt>{words.figures.mark}</dt><dd>{source.mark}</dd>
      <dt>{words.figures.measured}</dt>
      <dd>{source.range === null ? pictures.from.noRange : <>{textIn(system, source.range)}. {source.outside ? <strong class="outside">{words.figures.outside}</strong> : pictures.from.inside}</>}</dd>
      {children}
    </dl>
  );
}
