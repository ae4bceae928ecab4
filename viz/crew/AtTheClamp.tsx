/** One storage: who sits where, how long each load is packed, how thick the layer, how steep the slope. */
import { formatNumber } from "../../sim/scenario/units.ts";
import { quantity, type UnitSystem } from "../quantity.ts";
import { textIn } from "../sentences.ts";
import { crewWords } from "../words/crew.ts";
import { PACES, paceLength, type ClampSheet } from "./daysheet.ts";
import { minutesIn } from "./OutThere.tsx";

/** Going on in a sentence that has begun. */
const lowered = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);

interface ClampProps { /** names the section; a name of a storage may have blanks in it */ readonly id: string; readonly clamp: ClampSheet; readonly layer: string; readonly units: UnitSystem }

export function AtTheClamp({ clamp: { storage, finding, rules, load, every, run, riseInTen, pacesToTop, loosest }, layer, units, id }: ClampProps) {
  const { clamp } = crewWords;
  const { head, jobs } = clamp;
  const said = [
    rules.packMinutesPerLoad === null ? clamp.never : `${clamp.minutes(minutesIn(rules.packMinutesPerLoad), quantity(load, "mass", units, 1))} ${rules.keepsUp ? clamp.keepsUp : clamp.behind(minutesIn(every))}`,
    `${clamp.layer(layer, rules.layersPerLoad)}${rules.passes === null ? "" : ` ${clamp.covers(formatNumber(rules.passes[0], 1), formatNumber(rules.passes[1], 1), String(rules.passesWanted))}`}`,
    `${clamp.wedge(String(run), quantity(PACES * paceLength.value, "length", units, 1), quantity(riseInTen, "length", units, 1), quantity(storage.height, "length", units, 1))} ${clamp.paces(pacesToTop)}`,
    ...(rules.hurry === null ? [] : [clamp.hurry(lowered(rules.hurry))]),
    ...(Number.isFinite(loosest) ? [clamp.loosest(quantity(loosest, "density", units), quantity(finding.dryDensity.mean, "density", units))] : []),
  ];
  return (
    <section aria-labelledby={id}>
      <h2 id={id}>{clamp.title(storage.name)}</h2>
      <div class="scroll" tabIndex={0} role="group" aria-label={clamp.title(storage.name)}>
        <table class="wide">
          <thead><tr><th scope="col" class="left">{head.tractor}</th><th scope="col">{head.mass}</th><th scope="col" class="left">{head.job}</th><th scope="col" class="left">{head.driver}</th><th scope="col" class="left">{head.relief}</th><th scope="col" class="left">{head.fuel}</th></tr></thead>
          <tbody>
            {storage.tractors.map(({ name, mass, spreads }) => (
              <tr key={name}><th scope="row" class="left">{name}</th><td>{quantity(mass, "machineMass", units)}</td><td class="left">{spreads === null ? jobs.packs : jobs.pushes}</td><td class="fill" /><td class="fill" /><td class="fill" /></tr>
            ))}
          </tbody>
        </table>
      </div>
      <ul class="said">{said.map((sentence) => <li key={sentence}>{textIn(units, sentence)}</li>)}</ul>
    </section>
  );
}
