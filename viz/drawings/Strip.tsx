/** The one strong drawing: field | road | apron | clamp at one moment, read left to right, the way the forage travels. */
import type { Moment } from "../../sim/harvest/moment.ts";
import { GAP, layGround } from "../ground.ts";
import { heapWidth, placeAll } from "../places.ts";
import { clock, number, quantity, span, type UnitSystem } from "../quantity.ts";
import type { Rehearsed } from "../rehearsed.ts";
import { ON_PAPER, useWidth } from "../useWidth.ts";
import { STATE_WORDS, words } from "../words.ts";
import { LETTER } from "./letter.ts";
import { Apron } from "./Apron.tsx";
import { Chopper } from "./Chopper.tsx";
import { ClampSection } from "./ClampSection.tsx";
import { Road } from "./Road.tsx";
import { Truck } from "./Truck.tsx";

/** Above the heap and what is written over it, px. */
const ABOVE_HEAP = 106;
/** Above what is written over the chopper, px. */
const ABOVE_CHOPPER = 66;

interface StripProps { readonly rehearsed: Rehearsed; readonly moment: Moment; readonly units: UnitSystem; /** machine of the day that is marked */ readonly pointed?: number | null }

export function Strip({ rehearsed, moment, units, pointed = null }: StripProps) {
  const [ref, width] = useWidth<HTMLDivElement>(ON_PAPER.whole);
  return (
    <div class="strip" ref={ref}>
      {width > 0 && <StripAt width={width} rehearsed={rehearsed} moment={moment} units={units} pointed={pointed} />}
    </div>
  );
}

function StripAt({ width, rehearsed, moment, units, pointed }: StripProps & { readonly width: number }) {
  const { scenario, replay: { day }, clamps } = rehearsed;
  const ground = layGround(width, moment.choppers.length, moment.storages.length, moment.trucks.length);
  const places = placeAll(day, scenario, moment, ground);
  const loadedSpeed = scenario.trucks[0]!.loadedSpeed;
  const heap = heapWidth(ground);
  const roadEnd = ground.road.x + ground.road.width;
  const heads = [["field", ground.field], ["road", ground.road], ["apron", ground.apron], ["clamp", ground.clamp]] as const;

  return (
    <svg width={width} height={ground.height} viewBox={`0 0 ${width} ${ground.height}`} role="img" aria-label={summaryOf(rehearsed, moment, units)}>
      {heads.map(([name, zone], i) => {
        const y = i > 1 ? ground.lowerDeck : 0;
        return (
          <g key={name}>
            <text class="head" x={zone.x} y={y + GAP.head}>{words.strip.heads[name]}</text>
            <path class="hairline" d={`M${zone.x},${y + 24} H${zone.x + zone.width - 12}`} />
          </g>
        );
      })}
      {moment.choppers.map((chopper, c) => {
        const place = places.fields[c]!;
        const field = scenario.fields[place.field]!;
        const y = ground.chopperRows[c]!;
        const road = words.strip.road(quantity(field.distance, "distance", units), span(field.distance / loadedSpeed));
        const cut = words.strip.cut(number(place.share * field.area, "area", units), quantity(field.area, "area", units));
        // Under the field's left edge, as long as that keeps clear of what is written under the end of the road.
        const clear = roadEnd - (road.length + Math.max(cut.length, field.name.length) + 2) * LETTER;
        return (
          <g key={c}>
            <Road from={place.gate} until={roadEnd} y={y} seconds={field.distance / loadedSpeed} label={road} />
            <Chopper machine={chopper.machine} pointed={chopper.machine === pointed} place={place} y={y} name={field.name} home={chopper.state === null} cut={cut}
              labelX={Math.max(ground.field.x, Math.min(place.from, clear))}
              doing={chopper.state === null ? "" : chopper.state === "waiting" ? `${STATE_WORDS.waiting}, ${span(moment.time - chopper.since)}` : STATE_WORDS[chopper.state]}
              fills={chopper.state === "cutting" && chopper.trip >= 0} />
          </g>
        );
      })}
      {moment.storages.map((storage, s) => {
        const y = ground.storageRows[s]!;
        const { apron } = scenario.storages[s]!;
        return (
          <g key={s}>
            <Apron x={ground.apron.x + ground.apron.width - heap} width={heap} y={y} mass={storage.apron + storage.beingSpread} capacity={apron}
              lying={words.strip.apron(quantity(storage.apron, "mass", units))} pushed={storage.beingSpread > 50 ? words.strip.pushed(quantity(storage.beingSpread, "mass", units)) : null} full={words.strip.apronFull(quantity(apron, "mass", units))}
              ground={{ from: ground.apron.x, until: ground.apron.x + ground.apron.width }} />
            <ClampSection zone={ground.clamp} y={y} scenario={scenario} story={clamps[s]!} moment={storage} units={units} machines={day.machines} pointed={pointed ?? null}
              tractors={moment.tractors.filter((tractor) => tractor.storage === s)} />
            <text class="label" x={ground.clamp.x} y={y + 64}>{words.strip.clamp(quantity(storage.laid, "mass", units), storage.lifts)}</text>
          </g>
        );
      })}
      {places.queues.map(({ x, y, trucks, oldest, rows, where }, q) => {
        const text = words.strip.waiting(trucks.length, moment.time - oldest < 1 ? null : span(moment.time - oldest));
        // At the storage it ends over the first in line, as long as that does not push it off the sheet, or into what is written at another road.
        const ends = where === "storage" && x + ground.plate.width / 2 - text.length * LETTER > (moment.choppers.length > 1 ? ground.apron.x : 0);
        const left = Math.min(width - text.length * LETTER, where === "storage" ? ground.apron.x : x - ground.plate.width / 2);
        const over = Math.max(rows * (ground.plate.height + 2) + 6, where === "field" && rows > 1 ? ABOVE_CHOPPER : 0);
        return (
          <text key={q} class={where === "storage" ? "label label-warn" : "label label-tipped"} text-anchor={ends ? "end" : "start"}
            x={ends ? x + ground.plate.width / 2 : left} y={y - (where === "storage" && !ends ? ABOVE_HEAP : over)}>{text}</text>
        );
      })}
      {inFront(places.trucks, (place) => moment.trucks[place.truck]!.machine === pointed).map((place) => {
        const { machine, stopped } = moment.trucks[place.truck]!;
        return <Truck key={place.truck} machine={machine} pointed={machine === pointed} number={place.truck + 1} x={place.x} y={place.y} width={ground.plate.width} faces={place.faces} filled={place.filled} stopped={stopped !== null} />;
      })}
    </svg>
  );
}

/** The marked one last, so that no other covers it. */
function inFront<T>(items: readonly T[], marked: (item: T) => boolean): readonly T[] {
  const front = items.findIndex(marked);
  return front < 0 ? items : [...items.slice(0, front), ...items.slice(front + 1), items[front]!];
}

function summaryOf({ scenario }: Rehearsed, moment: Moment, units: UnitSystem): string {
  const on = (...steps: string[]) => moment.trucks.filter(({ step }) => steps.includes(step)).length;
  return words.strip.summary(clock(moment.time), [
    ...moment.choppers.map(({ state, field }) => (state === null ? "" : `${scenario.fields[Math.max(0, field)]!.name}: ${STATE_WORDS[state]}.`)),
    words.strip.inLine(on("in-line"), on("place-line", "room-wait", "scale-line")),
    words.strip.onRoad(on("loaded-road", "lane", "lane-line"), on("empty-road")),
    ...moment.storages.map((storage, s) => words.strip.storage(scenario.storages[s]!.name, quantity(storage.apron, "mass", units), quantity(storage.laid, "mass", units), storage.lifts)),
  ]);
}
