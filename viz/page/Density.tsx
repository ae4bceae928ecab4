/** How dense the clamp came out: lift by lift with how sure that is, and from the top down. */
import { likely } from "../../sim/findings/figure.ts";
import { gradientShortfall } from "../../sim/forage/geometry/index.ts";
import { formatNumber } from "../../sim/scenario/units.ts";
import { DepthSection, layersOf } from "../drawings/DepthSection.tsx";
import { LiftDensities } from "../drawings/LiftDensities.tsx";
import { binsOf, loosestTenth } from "../lifts.ts";
import { number, quantity, unitName } from "../quantity.ts";
import { findings, rehearsed, units } from "../state.ts";
import { ON_PAPER, useWidth } from "../useWidth.ts";
import { words } from "../words.ts";
import { pictures } from "../words/pictures.ts";
import { WhereFrom } from "./Figures.tsx";
import { CAUTIONS_OF_STORAGE } from "../derived.ts";
import { CautionsHere } from "./Reasons.tsx";
import { TableTwin, UnderPicture } from "./TableTwin.tsx";

/** The lifts by density, the luck of the day, the scatter of the relation, the target. */
export function DensityFigure() {
  const [ref, width] = useWidth<HTMLElement>(ON_PAPER.half);
  const answer = findings.value;
  const story = rehearsed.value;
  if (!answer || !story) return null;
  const system = units.value;
  const target = story.scenario.targets.dryDensity;
  const density = (value: number) => number(value, "density", system);
  // The day may be of the plan before: its clamps are found by name.
  const shown = answer.storages.flatMap((finding) => {
    const clamp = story.clamps.find(({ storage, stored }) => story.scenario.storages[storage]!.name === finding.name && stored.lifts.length > 0);
    return clamp ? [{ finding, clamp }] : [];
  });
  if (shown.length === 0) return null;
  const { title, head, sure, spread } = pictures.lifts;
  const nameOf = (name: string) => (shown.length > 1 ? name : null);
  const unit = unitName("density", system);
  return (
    <figure class="sure" ref={ref} data-picture>
      <figcaption>
        <h2>{title}</h2>
        <p>
          <span class="key key-bars" aria-hidden="true" /> {pictures.lifts.bars}<br />
          <span class="key key-luck" aria-hidden="true" /> {words.density.luck}<br />
          <span class="key key-band" aria-hidden="true" /> {words.density.scatter}
        </p>
        {shown.map(({ finding: { name, dryDensity }, clamp }) => (
          <p key={name}>{pictures.lifts.loosestIn(nameOf(name), quantity(loosestTenth(clamp), "density", system))} {words.density.chance(likely(dryDensity.chanceOfTarget))}</p>
        ))}
      </figcaption>
      {width > 0 && shown.map(({ finding, clamp }) => (
        <div key={finding.name}>
          {shown.length > 1 && <h3>{finding.name}</h3>}
          <LiftDensities clamp={clamp} finding={finding} target={target} units={system} width={width} />
        </div>
      ))}
      <p class="quiet screen-only">{pictures.lifts.within}</p>
      <UnderPicture name={title} summary={spread} head={[head[0]!, `${head[1]}, ${unit}`, head[2]!, `${head[3]}, ${unitName("mass", system)}`, head[4]!]}
        rows={() => shown.flatMap(({ finding, clamp }) => binsOf(clamp).map(({ from, to, mass }) => [finding.name, density(from), density(to), number(mass, "mass", system), formatNumber((100 * mass) / clamp.stored.mass, 1)]))} />
      <TableTwin name={title} summary={sure} head={words.density.head.map((text, i) => (i > 0 && i < 5 ? `${text}, ${unit}` : text))}
        rows={() => shown.map(({ finding: { name, dryDensity: d } }) => [name, density(d.mean), words.figures.range(density(d.ci[0]), density(d.ci[1])), words.figures.range(density(d.band[0]), density(d.band[1])), density(target), likely(d.chanceOfTarget)])} />
      <WhereFrom names={["dryDensity", "shareUnderTarget", "wetDensity", "poreSpace"]} />
    </figure>
  );
}

/** The cross-section of each storage with its density from the top down. */
export function DepthFigure() {
  const [ref, width] = useWidth<HTMLElement>();
  const story = rehearsed.value;
  const filled = story?.clamps.filter(({ stored }) => stored.lifts.length > 0) ?? [];
  if (!story || filled.length === 0) return null;
  const system = units.value;
  const { head, title, what, measured } = pictures.section;
  const nameOf = (storage: number) => story.scenario.storages[storage]!.name;
  const percent = (ratio: number) => `${Math.round((ratio - 1) * 100)} %`;
  return (
    <figure class="screen-only" ref={ref} data-picture>
      <figcaption><h2>{title}</h2><p>{what}</p></figcaption>
      {width > 0 && filled.map((clamp) => (
        <div key={clamp.storage}>
          {filled.length > 1 && <h3>{nameOf(clamp.storage)}</h3>}
          <DepthSection clamp={clamp} name={nameOf(clamp.storage)} target={story.scenario.targets.dryDensity} units={system} width={width} />
        </div>
      ))}
      {filled.map(({ storage, layout, stored }) => {
        const gradient = gradientShortfall(layout.shape, stored.volume);
        return gradient && <p class="quiet" key={storage}>{measured(filled.length > 1 ? nameOf(storage) : null, percent(gradient.shown), percent(gradient.measured))}</p>;
      })}
      <UnderPicture name={title} head={[head[0]!, `${head[1]}, ${unitName("length", system)}`, head[2]!, `${head[3]}, ${unitName("density", system)}`]}
        rows={() => filled.flatMap((clamp) => layersOf(clamp).map(({ from, to, density }) => [nameOf(clamp.storage), number(from, "length", system, 1), number(to, "length", system, 1), number(density, "density", system)]))} />
      <WhereFrom names={["dryDensity"]} />
      <CautionsHere ids={CAUTIONS_OF_STORAGE} />
    </figure>
  );
}
