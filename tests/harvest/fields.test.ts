/** Several fields, several choppers: who goes where. Every instant is worked by hand, s since shift start. */
import { describe, expect, it } from "vitest";
import { doings, each, machineNamed, run, steps } from "./reading.ts";
import { SEVEN, tiny, tinyChopper, tinyField, tinyTrucks } from "./plan.ts";

const row = (name: string, over = {}) => tinyField({ name, area: 1500, ...over });
const carried = (day: ReturnType<typeof run>) => day.trips.map((trip) => [day.machines[trip.truck]!.name, trip.chopper, trip.field, trip.mass]);

describe("Field after field", () => {
  it("takes them in the order of the file and moves 15 minutes from one to the next; trucks in line follow", () => {
    const day = run(tiny({ fields: [row("One"), row("Two")], trucks: [tinyTrucks(2, { load: 6000 })] }));
    expect(doings(day, "Chopper")).toEqual([[0, "cutting"], [150, "moving"], [1050, "changeover"], [1070, "cutting"]]);
    expect(steps(day, 1, "arrived", "alongside", "fillFrom", "filled")).toEqual({ arrived: 0, alongside: 1050, fillFrom: 1070, filled: 1220 });
    expect(day.events.map((event) => [event.kind, event.at - SEVEN])).toEqual([["field-done", 150], ["field-done", 1220]]);
  });

  it("sends the part load at the end of a field home", () => {
    const day = run(tiny({ fields: [row("One"), row("Two")], trucks: [tinyTrucks(2)] }));
    expect(carried(day)).toEqual([["Tipper 1", 0, 0, 6000], ["Tipper 2", 0, 1, 6000]]);
  });

  it("lets an empty truck drive to the field that the chopper has taken, not back to the one its load came from", () => {
    // Left the first field at 150, 200 s of road, tipped by 470; the chopper has been on its way to the second field since 150.
    const day = run(tiny({ fields: [row("Near"), row("Far", { distance: 10_000 })], trucks: [tinyTrucks(1, { load: 6000 })] }));
    expect(steps(day, 0, "filled", "tipped", "back")).toEqual({ filled: 150, tipped: 470, back: 970 });
    // From the far field it is 1000 s loaded.
    expect(steps(day, 1, "arrived", "alongside", "fillFrom", "filled", "atStorage")).toEqual({ arrived: 970, alongside: 1050, fillFrom: 1070, filled: 1220, atStorage: 2220 });
  });

  it("keeps dry matter of each field in its loads", () => {
    const day = run(tiny({ fields: [row("Wet", { dryMatter: 0.3 }), row("Dry", { dryMatter: 0.4 })], trucks: [tinyTrucks(1, { load: 6000 })] }));
    expect(day.trips.map((trip) => trip.dryMass)).toEqual([1800, 2400]);
    expect(day.lifts.map((lift) => lift.dryMass)).toEqual([1800, 2400]);
  });
});

describe("Several choppers", () => {
  const two = [tinyChopper({ name: "A" }), tinyChopper({ name: "B" })];

  it("work one field each; the first to finish takes the next unstarted one", () => {
    const day = run(tiny({ fields: [tinyField({ name: "Long" }), row("Short"), row("Third")], choppers: two, trucks: [tinyTrucks(4, { load: 6000 })] }));
    expect(doings(day, "B")).toEqual([[0, "cutting"], [150, "moving"], [1050, "changeover"], [1070, "cutting"]]);
    expect(day.events.flatMap((event) => (event.kind === "field-done" ? [[event.chopper, event.field, event.at - SEVEN]] : []))).toEqual([[1, 1, 150], [0, 0, 345], [1, 2, 1220]]);
  });

  it("leave a field to the only chopper that may cut it", () => {
    const day = run(tiny({ fields: [row("For B", { chopper: 1 }), row("Also for B", { chopper: 1 }), row("Any")], choppers: two, trucks: [tinyTrucks(2, { load: 6000 })] }));
    expect(day.trips.slice().sort((a, b) => a.field - b.field).map((trip) => [trip.field, trip.chopper])).toEqual([[0, 1], [1, 1], [2, 0]]);
  });

  it("a chopper without a field lets its trucks go to the others, which takes them a move", () => {
    const day = run(tiny({ choppers: two, trucks: [tinyTrucks(2)] }));
    expect(machineNamed(day, "B").until - SEVEN).toBe(0);
    expect(steps(day, 1, "arrived", "alongside")).toEqual({ arrived: 670, alongside: 670 });
    expect(doings(day, "Tipper 2")).toEqual([[0, "empty-road"], [900, "in-line"]]);
  });
});

describe("An empty truck chooses its chopper as it leaves the storage", () => {
  const fields = [tinyField({ name: "One", area: 30_000 }), tinyField({ name: "Two", area: 30_000 })];
  const choppers = [tinyChopper({ name: "A" }), tinyChopper({ name: "B" })];
  const secondTrip = (day: ReturnType<typeof run>, name: string) => {
    const { id } = machineNamed(day, name);
    return day.trips.filter((trip) => trip.truck === id).sort((a, b) => a.arrived - b.arrived)[1]!.chopper;
  };

  it("goes where the fewest are committed", () => {
    // A has trucks 1 and 3, B has truck 2. Truck 2 leaves the storage (at 470) when A is left with one, under the spout, and B with none.
    const day = run(tiny({ fields, choppers, trucks: [tinyTrucks(3, { load: 6000 })], storages: [{ ...tiny().storages[0]!, tippingPlaces: 3, apron: 1e6 }] }));
    expect(day.trips.slice(0, 3).map((trip) => [trip.truck - 2, trip.chopper])).toEqual([[0, 0], [1, 1], [2, 0]]);
    // Truck 1, first to leave (470): A has truck 3 until it is full at 345, so none; B none: the lower index. Truck 2 then finds one at A.
    expect([secondTrip(day, "Tipper 1"), secondTrip(day, "Tipper 2")]).toEqual([0, 1]);
  });

  it("goes, among equals, to the lowest index, though it came from another", () => {
    // Only B's truck comes home while nobody is committed anywhere.
    const day = run(tiny({
      fields, choppers: [tinyChopper({ name: "A", speed: 0.1 }), tinyChopper({ name: "B" })],
      trucks: [tinyTrucks(1, { kind: "First", load: 400, chopper: 0 }), tinyTrucks(1, { kind: "Pool", load: 6000 })],
    }));
    // The pooled truck starts at chopper 1 mod 2 and leaves the storage at 470, when the tied one stands there too: 200 s under the
    // spout, 200 s of road, 120 s of tipping.
    expect(day.trips.find((trip) => trip.truck === machineNamed(day, "Pool 1").id)!.chopper).toBe(1);
    expect(secondTrip(day, "Pool 1")).toBe(0);
  });

  it("stays with its chopper when it is tied to it, however many others wait there", () => {
    const day = run(tiny({ fields, choppers, trucks: [tinyTrucks(4, { chopper: 0 }), tinyTrucks(1, { kind: "Tub", chopper: 1 })] }));
    const tub = machineNamed(day, "Tub 1").id;
    for (const trip of day.trips) expect(trip.chopper).toBe(trip.truck === tub ? 1 : 0);
  });

  it("may cross over when it lends itself, and otherwise goes home when its own chopper is done", () => {
    const uneven = [row("Short"), tinyField({ name: "Long", area: 15_000 })];
    const at = (lends: boolean) => {
      const day = run(tiny({ fields: uneven, choppers, trucks: [tinyTrucks(1, { kind: "Lent", load: 6000, chopper: 0, lends }), tinyTrucks(1, { load: 6000, chopper: 1 })] }));
      return { trips: day.trips.filter((trip) => trip.truck === machineNamed(day, "Lent 1").id).map((trip) => trip.chopper), day };
    };
    expect(at(false).trips).toEqual([0]);
    expect(machineNamed(at(false).day, "Lent 1").until - SEVEN).toBe(470);
    expect(at(true).trips.slice(0, 2)).toEqual([0, 1]);
  });

  it("goes, when it lends itself and equally many are committed, to the lowest index as everybody does", () => {
    // Tied to B; both fields go on. It leaves the storage at 470, when A's only truck, slow on the road, is committed to nobody either.
    const day = run(tiny({
      fields, choppers, trucks: [tinyTrucks(1, { kind: "Slow", load: 6000, chopper: 0, loadedSpeed: 1 }), tinyTrucks(1, { kind: "Lent", load: 6000, chopper: 1, lends: true })],
    }));
    expect(secondTrip(day, "Lent 1")).toBe(0);
  });

  it("drives to where the chosen chopper works", () => {
    const day = run(tiny({
      fields: [tinyField({ name: "Far", area: 30_000, distance: 10_000 }), tinyField({ name: "Near", area: 30_000 })], choppers,
      trucks: [tinyTrucks(1, { kind: "Gone", load: 6000, chopper: 0, loadedSpeed: 0.5 }), tinyTrucks(1, { kind: "Pool", load: 6000 })],
    }));
    // The pooled truck fills at B (2 km) and leaves the storage at 470 for A (10 km, 500 s).
    expect(each(day, "back")[day.trips.findIndex((trip) => trip.truck === machineNamed(day, "Pool 1").id)]).toBe(970);
  });
});
