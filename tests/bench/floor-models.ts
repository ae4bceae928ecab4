/** The two sample paths on the floor. */
import { ASLEEP, Floor, FloorServer } from "./floor.ts";
import type { FloorWork } from "./floor.ts";
import type { LoopDraws, Mm1Draws, Outcome } from "./models.ts";

export function mm1OnFloor(draws: Mm1Draws): Outcome {
  const floor = new Floor();
  const server = new FloorServer(floor);
  const { interarrival, service } = draws;
  let served = 0;

  function* customer(): FloorWork {
    if (!server.take()) yield ASLEEP;
    yield service[served++]!;
    server.giveBack();
  }

  function* arrivals(): FloorWork {
    for (const gap of interarrival) {
      yield gap;
      floor.wake(customer());
    }
  }

  floor.wake(arrivals());
  while (floor.step());
  return { endsAt: floor.now, events: floor.steps };
}

export function loopOnFloor(draws: LoopDraws, trucks: number, cycles: number): Outcome {
  const floor = new Floor();
  const loader = new FloorServer(floor);
  const place = new FloorServer(floor);
  const packer = new FloorServer(floor);
  const count = { load: 0, haul: 0, unload: 0, pack: 0, return: 0, done: 0 };

  function* truck(): FloorWork {
    for (;;) {
      if (!loader.take()) yield ASLEEP;
      yield draws.load[count.load++]!;
      loader.giveBack();
      yield draws.haul[count.haul++]!;
      if (!place.take()) yield ASLEEP;
      yield draws.unload[count.unload++]!;
      place.giveBack();
      if (!packer.take()) yield ASLEEP;
      yield draws.pack[count.pack++]!;
      packer.giveBack();
      yield draws.return[count.return++]!;
      count.done += 1;
    }
  }

  for (let i = 0; i < trucks; i += 1) floor.wake(truck());
  while (count.done < cycles) floor.step();
  return { endsAt: floor.now, events: floor.steps };
}
