/** Where every truck and chopper stands in the strip at one moment: a pure function of the moment, the scenario and the ground. */
import type { Day } from "../sim/harvest/daylog.ts";
import type { Moment, TruckMoment } from "../sim/harvest/moment.ts";
import { wayAhead } from "../sim/harvest/start.ts";
import type { Scenario } from "../sim/scenario/types.ts";
import { GAP, type Ground } from "./ground.ts";

export interface TruckPlace {
  /** index into `Moment.trucks` */ readonly truck: number;
  /** middle of the plate, px */ readonly x: number;
  /** its wheels, px */ readonly y: number;
  readonly faces: "left" | "right";
  /** 0..1, share of its load */ readonly filled: number;
}

/** A line of waiting trucks: where its first plate stands, and since when the first one has waited. */
export interface Queue { readonly x: number; readonly y: number; readonly trucks: readonly number[]; /** s after midnight */ readonly oldest: number; /** rows of plates, one on top of the other */ readonly rows: number; readonly where: "field" | "storage" }

export interface Places {
  readonly trucks: readonly TruckPlace[];
  /** by chopper: middle, px */ readonly choppers: readonly { readonly x: number; readonly y: number }[];
  /** by chopper: left edge of its field, of what is cut, and right edge, px */ readonly fields: readonly FieldPlace[];
  readonly queues: readonly Queue[];
}

/** A field as it stands at a chopper's row: the crop from `from` to `edge`, stubble on to `until`. */
export interface FieldPlace { readonly field: number; readonly from: number; readonly edge: number; readonly until: number; readonly gate: number; readonly share: number }

const CHOPPER_WIDTH = 34;

/** Rows of plates that the strip has height for, one on top of the other. */
const MOST_ROWS = 3;

export function placeAll(day: Day, scenario: Scenario, moment: Moment, ground: Ground): Places {
  const furthest = Math.max(...scenario.fields.map((field) => field.distance));
  const pitch = ground.plate.width + GAP.plates;
  const at: (TruckPlace | null)[] = moment.trucks.map(() => null);
  const queues: Queue[] = [];

  const fields = moment.choppers.map((chopper): FieldPlace => {
    const field = Math.max(0, chopper.field);
    const cut = moment.cut[field] ?? 0;
    const standing = (day.uncut[field] ?? 0) + restOf(day, field, moment);
    // A share of the field that was told counts before the mass: what stands may have grown heavier than what came in.
    const told = day.start?.fields[field];
    const share = told && told.left !== null && cut - told.taken + standing > 0 ? 1 - (told.left * standing) / (cut - told.taken + standing)
      : cut + standing > 0 ? cut / (cut + standing) : 0;
    // A nearer field lies further right, where its trucks join the road.
    const shift = ground.road.width * (1 - scenario.fields[field]!.distance / furthest);
    const from = ground.field.x + shift;
    const until = from + Math.max(40, ground.field.width - 3 * pitch - CHOPPER_WIDTH);
    return { field, from, until, edge: until - share * (until - from), gate: ground.field.x + ground.field.width + shift, share };
  });
  const choppers = fields.map(({ edge }, i) => ({ x: edge + CHOPPER_WIDTH / 2, y: ground.chopperRows[i]! }));

  const chopperOf = (truck: TruckMoment): number => {
    const trip = day.trips[truck.trip] ?? nextTripOf(day, truck, moment.time) ?? lastTripOf(day, truck, moment.time);
    return trip?.chopper ?? 0;
  };
  const set = (truck: number, x: number, y: number, faces: TruckPlace["faces"]): void => {
    const { mass, trip } = moment.trucks[truck]!;
    at[truck] = { truck, x, y, faces, filled: trip < 0 ? 0 : Math.min(1, mass / nominal(day, scenario, moment.trucks[truck]!)) };
  };
  /** Plates in line from a first place, to the right or left, so many a row, further rows on top; in the most rows there may be they lie over each other like cards. */
  const lineUp = (trucks: readonly number[], x: number, y: number, way: 1 | -1, room: number, faces: TruckPlace["faces"]): number => {
    const beside = Math.max(1, Math.floor(room / pitch));
    const perRow = Math.max(beside, Math.ceil(trucks.length / MOST_ROWS));
    const each = perRow === beside ? pitch : ((beside - 1) * pitch + ground.plate.width) / perRow;
    trucks.forEach((truck, k) => set(truck, x + way * each * (k % perRow), y - Math.floor(k / perRow) * (ground.plate.height + 2), faces));
    return Math.ceil(trucks.length / perRow);
  };

  choppers.forEach(({ x, y }, c) => {
    const here = moment.trucks.map((_, i) => i).filter((i) => chopperOf(moment.trucks[i]!) === c);
    const steps = (...names: TruckMoment["step"][]) => here.filter((i) => names.includes(moment.trucks[i]!.step)).sort((a, b) => moment.trucks[a]!.since - moment.trucks[b]!.since || a - b);
    const { gate } = fields[c]!;
    const beside = x + CHOPPER_WIDTH / 2 + ground.plate.width / 2 + 2;
    steps("filling", "changeover").forEach((truck) => set(truck, beside, y, "left"));
    const waiting = steps("in-line");
    const rows = lineUp(waiting, beside + pitch, y, 1, Math.max(2 * pitch, gate - beside - pitch / 2), "left");
    if (waiting.length) queues.push({ x: beside + pitch, y, trucks: waiting, oldest: moment.trucks[waiting[0]!]!.since, rows, where: "field" });
    lineUp(steps("parked"), ground.field.x + ground.plate.width / 2, y + GAP.lane, 1, ground.field.width, "left");

    const end = ground.road.x + ground.road.width;
    const along = (done: number) => gate + (end - pitch / 2 - gate) * done;
    steps("loaded-road", "lane-line", "lane").forEach((truck) => set(truck, along(roadDone(moment.trucks[truck]!, day, scenario)), y, "right"));
    steps("empty-road").forEach((truck) => {
      const { trip, progress } = moment.trucks[truck]!;
      set(truck, trip < 0 ? gate : along(1 - progress), y + GAP.lane, "left");
    });
  });

  moment.storages.forEach((storage, s) => {
    const y = ground.storageRows[s]!;
    const { x } = ground.apron;
    const places = scenario.storages[s]!.tippingPlaces;
    const tipping: number[] = [];
    const weighing: number[] = [];
    const atScale: number[] = [];
    moment.trucks.forEach(({ trip, step }, i) => {
      if (trip < 0 || day.trips[trip]!.storage !== s) return;
      if (step === "tipping") tipping.push(i);
      if (step === "weighing") weighing.push(i);
      if (step === "scale-line") atScale.push(i);
    });
    const tip = tipX(ground);
    tipping.sort((a, b) => moment.trucks[a]!.since - moment.trucks[b]!.since || a - b);
    tipping.forEach((truck, k) => set(truck, tip, y - k * (ground.plate.height + 2), "right"));
    const tail = tip - pitch * (tipping.length || storage.line.length < places ? 1 : 0);
    // On two decks there is no room beside the line: the scale lies a step below it.
    const beside = scenario.weighing !== null && ground.decks === 1;
    const room = tail + ground.plate.width / 2 - x - (beside ? pitch : 0);
    const rows = lineUp(storage.line, tail, y, -1, room, "right");
    const oldest = Math.min(...storage.line.map((i) => day.trips[moment.trucks[i]!.trip]!.atStorage));
    if (storage.line.length) queues.push({ x: tail, y, trucks: storage.line, oldest, rows, where: "storage" });
    lineUp(weighing, x + pitch / 2, beside ? y : y + GAP.lane, -1, pitch, "right");
    atScale.sort((a, b) => moment.trucks[a]!.since - moment.trucks[b]!.since || a - b);
    lineUp(atScale, beside ? x - pitch / 2 : x + 1.5 * pitch, beside ? y : y + GAP.lane, beside ? -1 : 1, Infinity, "right");
  });

  return { trucks: apart(at.filter((place) => place !== null), moment, ground), choppers, fields, queues };
}

/** Where trucks tip: at the left foot of the heap. */
export function tipX({ apron, plate }: Ground): number {
  return apron.x + apron.width - heapWidth({ apron }) - plate.width / 2 - 4;
}

export function heapWidth({ apron }: Pick<Ground, "apron">): number {
  return Math.min(96, Math.max(46, apron.width * 0.34));
}

/** Share of the road behind a loaded truck; a single-lane stretch is the last part of it. */
function roadDone({ step, progress, trip }: TruckMoment, day: Day, scenario: Scenario): number {
  const { distance } = scenario.fields[day.trips[trip]!.field]!;
  const lane = scenario.lane ? Math.min(1, scenario.lane.length / distance) : 0;
  // A load that was on the road when the day was taken up has driven a part of the way before; such loads are the first of the log.
  const before = day.start?.onTheRoad.length ?? 0;
  const ahead = trip < before ? wayAhead(trip, before) : 1;
  if (step === "loaded-road") return (1 - lane) * (1 - ahead * (1 - progress));
  return 1 - lane + lane * (step === "lane" ? progress : 0);
}

/** Trucks that would cover each other on the road are lifted one above the other; nobody is moved along the road. */
function apart(places: readonly TruckPlace[], moment: Moment, { plate }: Ground): TruckPlace[] {
  const lifted = [...places];
  const road = lifted.map((_, i) => i).filter((i) => ON_ROAD.has(moment.trucks[lifted[i]!.truck]!.step)).sort((a, b) => lifted[a]!.x - lifted[b]!.x);
  for (const faces of ["right", "left"] as const) {
    const lastX: number[] = [];
    for (const i of road) {
      const place = lifted[i]!;
      if (place.faces !== faces) continue;
      let level = lastX.findIndex((x) => place.x - x >= plate.width + 1);
      if (level < 0) level = Math.min(lastX.length, 2);
      lastX[level] = place.x;
      if (level > 0) lifted[i] = { ...place, y: place.y - level * (plate.height * (faces === "left" ? 0.25 : 1)) };
    }
  }
  return lifted;
}

const ON_ROAD: ReadonlySet<TruckMoment["step"]> = new Set(["loaded-road", "lane-line", "lane", "empty-road"] as const);

function nominal(day: Day, scenario: Scenario, { machine, trip }: TruckMoment): number {
  return Math.max(day.trips[trip]?.mass ?? 0, scenario.trucks[day.machines[machine]!.index]?.load ?? 0, 1);
}

/** kg of a field that are still to be cut after this moment and will be, by the end of the day. */
function restOf(day: Day, field: number, moment: Moment): number {
  let whole = day.start?.fields[field]?.taken ?? 0;
  for (const trip of day.trips) if (trip.field === field && trip.filled > day.from) whole += trip.mass;
  return Math.max(0, whole - (moment.cut[field] ?? 0));
}

const nextTripOf = (day: Day, { machine }: TruckMoment, time: number) => day.trips.find((trip) => trip.truck === machine && trip.arrived > time);
const lastTripOf = (day: Day, { machine }: TruckMoment, time: number) => day.trips.findLast((trip) => trip.truck === machine && trip.arrived <= time);
