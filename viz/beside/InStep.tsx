/** One and the same day of every plan at one time of the clock: the first of the days rehearsed, on which the same loads are heavy and the same trips slow. */
import { computed } from "@preact/signals";
import { momentAt, type Moment } from "../../sim/harvest/moment.ts";
import { Strip } from "../drawings/Strip.tsx";
import { UnderPicture } from "../page/TableTwin.tsx";
import { PlayButton, SpeedChoice } from "../page/Replay.tsx";
import { playerOf } from "../player.ts";
import { clock, quantity } from "../quantity.ts";
import { cursor, units } from "../state.ts";
import { STATE_WORDS, words as common } from "../words.ts";
import { words } from "../words/beside.ts";
import { shown, type Ready } from "./shown.ts";

/** From the first start to the last end, s after midnight. */
const span = computed(() => {
  const days = shown.value.flatMap(({ run }) => (run ? [run.story.replay.day] : []));
  return days.length === 0 ? null : { from: Math.min(...days.map(({ from }) => from)), until: Math.max(...days.map(({ until }) => until)) };
});
const at = computed(() => {
  const { from, until } = span.value ?? { from: 0, until: 0 };
  return Math.min(until, Math.max(from, cursor.value ?? shown.value[0]?.run?.story.telling ?? from));
});
const player = playerOf(() => span.value, at);

export function InStep({ plans }: { readonly plans: readonly Ready[] }) {
  const now = at.value;
  const { from, until } = span.value!;
  const { title, lead, head } = words.step;
  const moments = plans.map(({ run: { story: { replay } } }) => momentAt(replay, Math.min(replay.day.until, Math.max(replay.day.from, now))));
  return (
    <section aria-labelledby="step" class="in-step">
      <h2 id="step">{title}</h2>
      <p>{lead}</p>
      <div class="clock-row">
        <p class="clock" aria-live="off">{clock(now)}</p>
        <div class="replay" role="group" aria-label={common.replay.title}>
          <PlayButton player={player} />
          <SpeedChoice />
        </div>
      </div>
      <input class="scrub" type="range" min={from} max={until} step={60} value={now} aria-label={common.replay.scrub} aria-valuetext={clock(now)} onInput={(event) => player.goTo(Number(event.currentTarget.value))} />
      {plans.map((each, i) => <Day key={each.letter} plan={each} moment={moments[i]!} />)}
      <UnderNow head={head} rows={() => plans.map((each, i) => row(each, moments[i]!))} />
    </section>
  );
}

/** The strips are saved each for itself: what is here is the moment of all of them. */
function UnderNow({ head, rows }: { readonly head: readonly string[]; readonly rows: () => readonly (readonly string[])[] }) {
  return <div data-picture><UnderPicture name={words.step.title} head={head} rows={rows} inWords={[0, 1]} /></div>;
}

function Day({ plan: { letter, name, run: { story } }, moment }: { readonly plan: Ready; readonly moment: Moment }) {
  const { until } = story.replay.day;
  return (
    <figure>
      <figcaption><h3><span class="letter">{letter}</span> {name}</h3>{at.value > until && <p class="quiet">{words.step.over(clock(until))}</p>}</figcaption>
      <Strip rehearsed={story} moment={moment} units={units.value} />
    </figure>
  );
}

function row({ letter, name }: Ready, { choppers, trucks, storages }: Moment): string[] {
  const system = units.value;
  const sum = (of: (storage: Moment["storages"][number]) => number) => quantity(storages.reduce((total, storage) => total + of(storage), 0), "mass", system);
  const waits = (...steps: string[]) => String(trucks.filter(({ step }) => steps.includes(step)).length);
  return [
    `${letter} ${name}`, choppers.map(({ state }) => (state === null ? common.nowHome : STATE_WORDS[state])).join(", "), waits("in-line"), waits("scale-line", "place-line", "room-wait"),
    sum(({ apron }) => apron), sum(({ laid }) => laid),
  ];
}
