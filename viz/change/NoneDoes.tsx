/** Under the plan that comes nearest where none meets the targets: what stands in the way, and what can be done next at a press. */
import { figureValue } from "../../sim/study/figuretext.ts";
import type { CrewSearch, Nearest } from "../../sim/study/crew.ts";
import type { TargetName } from "../../sim/study/targets.ts";
import { clock, quantity } from "../quantity.ts";
import { units } from "../state.ts";
import { listed } from "../words.ts";
import { words } from "../words/change.ts";
import { nextSteps, type AskedCrew } from "./nearest.ts";
import { reader } from "./reader.ts";

interface NoneProps {
  readonly result: CrewSearch;
  readonly nearest: Nearest;
  readonly asked: AskedCrew;
  /** searches again */ readonly ask: (other: Partial<Pick<AskedCrew, "ranges" | "sure">>) => void;
  /** takes the nearest plan, and goes to its remedies */ readonly toRemedies: () => void;
}

export function NoneDoes({ result, nearest, asked, ask, toRemedies }: NoneProps) {
  const { way, next } = words.crew;
  const { edges, wider, rules, sure } = nextSteps(nearest, asked);
  const { trucksFrom, trucksTo, tractorsFrom, tractorsTo } = wider ?? asked.ranges;
  return (
    <>
      <h4>{way.title}</h4>
      <ul class="in-the-way">
        {nearest.fails.map((name) => <li key={name}>{shortSaid(name, nearest, result)}</li>)}
        {nearest.fails.length === 0 && <li>{way.together(of100(nearest.plan.chance.share))}</li>}
      </ul>
      <div class="screen-only">
        <h4>{next.title}</h4>
        <ul class="next-steps">
          {wider && <li><span>{next.edges(listed(edges.map((edge) => next.edge[edge])))}</span> <button type="button" onClick={() => ask({ ranges: wider })}>{next.wider(trucksFrom, trucksTo, tractorsFrom, tractorsTo)}</button></li>}
          {rules && <li><span>{next.ownRule}</span> <button type="button" onClick={() => ask({ ranges: { ...asked.ranges, anyRule: true } })}>{next.everyRule}</button></li>}
          {sure !== null && <li><span>{next.met(of100(nearest.plan.chance.share), sure)}</span> <button type="button" onClick={() => ask({ sure })}>{next.less(sure)}</button></li>}
          <li><span>{next.remedies}</span> <button type="button" onClick={toRemedies}>{next.toRemedies}</button></li>
        </ul>
      </div>
    </>
  );
}

const of100 = (share: number): string => String(Math.round(100 * share));

/** What the nearest plan comes to beside what was asked for, and how often that is met. */
function shortSaid(name: TargetName, { plan }: Nearest, { targets }: CrewSearch): string {
  const { way } = words.crew;
  const density = (value: number) => quantity(value, "density", units.value);
  const share = (value: number) => `${Math.round(100 * value)} %`;
  const { dryDensity, poreSpace, finishBy, waiting, relation } = targets;
  const said: Readonly<Record<TargetName, string | null>> = {
    crop: way.crop,
    // The mean over several storages may be dense enough where one of them is not.
    density: plan.density && dryDensity !== null && plan.density.mean < dryDensity ? way.density(density(plan.density.mean), density(dryDensity)) : way.loose,
    poreSpace: poreSpace === null ? null : way.poreSpace(share(poreSpace)),
    finish: plan.closedAt && finishBy !== null ? way.finish(figureValue("closedAt", plan.closedAt.mean, reader()), clock(finishBy)) : null,
    waiting: plan.waiting && waiting !== null ? way.waiting(share(plan.waiting.mean), share(waiting)) : null,
    relation: plan.chanceOfTarget !== null && relation !== null ? way.relation(of100(plan.chanceOfTarget), of100(relation)) : null,
  };
  const met = plan.targets[name];
  return [said[name], plan.days > 1 && met ? way.often[name](of100(met.share)) : null].filter((text) => text !== null).join(" ");
}
