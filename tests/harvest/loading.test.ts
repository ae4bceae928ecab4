/** Under the spout: start of the day, rows and turns, changeovers, part loads. Every instant is worked by hand, s since shift start. */
import { describe, expect, it } from "vitest";
import { doings, each, run, steps } from "./reading.ts";
import { SEVEN, tiny, tinyChopper, tinyField, tinyTrucks } from "./plan.ts";

describe("A day of one truck and two rows", () => {
  const day = run(tiny());

  it("cuts from shift start without a changeover, turns once with the load in hand, and sends it off full", () => {
    // 6 t to the row end at 150, turn to 175, 3 t more by 250.
    expect(steps(day, 0, "arrived", "alongside", "fillFrom", "filled")).toEqual({ arrived: 0, alongside: 0, fillFrom: 0, filled: 250 });
    expect(day.trips[0]!.mass).toBe(9000);
  });

  it("drives, tips at once and drives back, with nothing in between where there is neither lane nor scale", () => {
    expect(steps(day, 0, "atLane", "inLane", "atScale", "weighFrom", "weighed", "atStorage", "placed", "tipFrom", "tipped", "back")).toEqual({
      atLane: 450, inLane: 450, atScale: 450, weighFrom: 450, weighed: 450, atStorage: 450, placed: 450, tipFrom: 450, tipped: 570, back: 670,
    });
  });

  it("changes over before the second load, makes no turn after the last row and takes the part load home", () => {
    expect(steps(day, 1, "arrived", "alongside", "fillFrom", "filled", "tipped", "back")).toEqual({
      arrived: 670, alongside: 670, fillFrom: 690, filled: 765, tipped: 1085, back: NaN,
    });
    expect(day.trips[1]!.mass).toBe(3000);
    expect(day.uncut).toEqual([0]);
  });

  it("lays each load as one lift and rolls the last for the finishing time", () => {
    expect(day.lifts.map((l) => [l.mass, l.spreadFrom - day.from, l.opened - day.from, l.closed - day.from])).toEqual([[9000, 570, 750, 1145], [3000, 1085, 1145, 1745]]);
    // The blade rolls the first lift until it pushes the second; the roller until that one lies.
    expect(day.lifts.map((l) => [...l.rolled])).toEqual([[1085 - 750, 1145 - 750], [600, 600]]);
  });

  it("shows in the list of state changes what each machine did", () => {
    expect(doings(day, "Chopper")).toEqual([[0, "cutting"], [150, "turning"], [175, "cutting"], [250, "waiting"], [670, "changeover"], [690, "cutting"]]);
    expect(doings(day, "Tipper 1")).toEqual([
      [0, "filling"], [250, "loaded-road"], [450, "tipping"], [570, "empty-road"], [670, "filling"], [765, "loaded-road"], [965, "tipping"],
    ]);
    expect(doings(day, "Blade")).toEqual([[0, "standing"], [570, "pushing"], [750, "rolling"], [1085, "pushing"], [1145, "rolling"], [1745, "standing"]]);
    expect(doings(day, "Roller")).toEqual([[0, "standing"], [750, "rolling"], [1745, "standing"]]);
  });

  it("is over for each machine when its own work is", () => {
    expect(day.machines.map((m) => [m.name, m.from - SEVEN, m.until - SEVEN])).toEqual([["Chopper", 0, 765], ["Tipper 1", 0, 1085], ["Blade", 0, 1745], ["Roller", 0, 1745]]);
    expect(day.until - day.from).toBe(1745);
    expect(day.events).toEqual([{ kind: "field-done", at: SEVEN + 765, field: 0, chopper: 0 }]);
  });

  it("books loads and mass to whoever cut, hauled and pushed them", () => {
    expect(day.machines.map((m) => [m.name, m.loads, m.mass])).toEqual([["Chopper", 2, 12_000], ["Tipper 1", 2, 12_000], ["Blade", 2, 12_000], ["Roller", 0, 0]]);
  });
});

describe("Rows, turns and changeovers", () => {
  it("lets a truck that is full exactly at a row end leave at once and turns with the next alongside", () => {
    const day = run(tiny({ trucks: [tinyTrucks(2, { load: 6000 })] }));
    expect(steps(day, 0, "fillFrom", "filled")).toEqual({ fillFrom: 0, filled: 150 });
    // Changeover 150-170, turn 170-195, then the crop falls.
    expect(steps(day, 1, "arrived", "alongside", "fillFrom", "filled")).toEqual({ arrived: 0, alongside: 150, fillFrom: 195, filled: 345 });
    expect(doings(day, "Chopper")).toEqual([[0, "cutting"], [150, "changeover"], [170, "turning"], [195, "cutting"]]);
  });

  it("cuts a short last row as long as it is", () => {
    // 14 t: two rows and a third of 2 t.
    const day = run(tiny({ fields: [tinyField({ area: 3500 })], trucks: [tinyTrucks(1, { load: 20_000 })] }));
    expect(steps(day, 0, "fillFrom", "filled")).toEqual({ fillFrom: 0, filled: 150 + 25 + 150 + 25 + 50 });
    expect(day.trips.map((trip) => trip.mass)).toEqual([14_000]);
  });

  it("cuts at the throughput of the chopper where the crop would give more", () => {
    const day = run(tiny({ choppers: [tinyChopper({ throughput: 20 })], trucks: [tinyTrucks(1, { load: 6000 })] }));
    expect(steps(day, 0, "filled")).toEqual({ filled: 300 });
  });

  it("begins to cut one changeover after the last truck has left and the next has come, whichever is later", () => {
    // Three trucks of 3 t: the second waits for the first to leave, the fourth load waits for its truck to come.
    const day = run(tiny({ trucks: [tinyTrucks(3, { load: 3000 })] }));
    expect(each(day, "alongside")).toEqual([0, 75, 170, 495]);
    expect(each(day, "fillFrom")).toEqual([0, 95, 215, 515]);
    expect(each(day, "filled")).toEqual([75, 170, 290, 590]);
    // It left at 75, tipped from 275 to 395 and was back at 495.
    expect(day.trips[3]!.arrived - day.from).toBe(495);
  });

  it("puts trucks on the first field at the choppers in turn, and each chopper at its own field", () => {
    const day = run(tiny({
      fields: [tinyField({ name: "One" }), tinyField({ name: "Two" })], choppers: [tinyChopper({ name: "A" }), tinyChopper({ name: "B" })], trucks: [tinyTrucks(2), tinyTrucks(1, { kind: "Tub" })],
    }));
    const first = day.trips.slice().sort((a, b) => a.alongside - b.alongside || a.truck - b.truck).slice(0, 3);
    expect(first.map((trip) => [day.machines[trip.truck]!.name, trip.chopper, trip.field, trip.alongside - day.from])).toEqual([
      ["Tipper 1", 0, 0, 0], ["Tipper 2", 1, 1, 0], ["Tub 1", 0, 0, 250],
    ]);
  });

  it("cuts the first rounds of a field at the pace they are given, for as long as they last", () => {
    // Half pace for 200 s of cutting: 4 t; the row's other 2 t at full pace in 50 s.
    const day = run(tiny({ fields: [tinyField({ opening: { time: 200, pace: 0.5 } })], trucks: [tinyTrucks(1, { load: 6000 })] }));
    expect(steps(day, 0, "filled")).toEqual({ filled: 250 });
    // The second row is cut at the usual pace: changeover 20, turn 25, 150 s.
    expect(day.trips[1]!.filled - day.trips[1]!.alongside).toBe(195);
  });

  it("goes on with the opening rounds where the load before left them", () => {
    const day = run(tiny({ fields: [tinyField({ opening: { time: 200, pace: 0.5 } })], trucks: [tinyTrucks(2, { load: 3000 })] }));
    // 3 t in 150 s at half pace; then 50 s at half pace give 1 t, and 2 t follow in 50 s.
    expect(each(day, "filled").slice(0, 2)).toEqual([150, 150 + 20 + 50 + 50]);
  });
});

describe("The end of the shift", () => {
  it("stops the cutting in the middle of a row; the part load goes home and is packed", () => {
    const day = run(tiny({ shift: { end: SEVEN + 200 } }));
    // 150 s of cutting, 25 s of turning, 25 s of cutting: 7 t.
    expect(steps(day, 0, "filled", "tipFrom", "tipped")).toEqual({ filled: 200, tipFrom: 400, tipped: 520 });
    expect(day.trips[0]!.mass).toBeCloseTo(7000, 9);
    expect(day.uncut[0]).toBeCloseTo(5000, 9);
    expect(day.events).toEqual([{ kind: "shift-end", at: SEVEN + 200, chopper: 0 }]);
    expect(day.lifts.map((lift) => [lift.spreadFrom - day.from, lift.closed - day.from])).toEqual([[520, 520 + 140 + 600]]);
  });

  it.each([["a turn", 160, 6000], ["a row", 100, 4000]])("in the middle of %s keeps what has been cut", (_, end, mass) => {
    const day = run(tiny({ shift: { end: SEVEN + end } }));
    expect(steps(day, 0, "filled")).toEqual({ filled: end });
    expect(day.trips[0]!.mass).toBeCloseTo(mass, 9);
  });

  it("in a changeover sends the empty truck home without a trip", () => {
    const day = run(tiny({ trucks: [tinyTrucks(2, { load: 6000 })], shift: { end: SEVEN + 160 } }));
    expect(day.trips).toHaveLength(1);
    expect(day.machines.find((m) => m.name === "Tipper 2")!.until - SEVEN).toBe(160);
    expect(day.uncut).toEqual([6000]);
  });

  it("while the chopper waits ends its day, and a truck on its way is sent home when it comes", () => {
    const day = run(tiny({ shift: { end: SEVEN + 600 } }));
    expect(doings(day, "Chopper").at(-1)).toEqual([250, "waiting"]);
    expect(day.machines.map((m) => [m.name, m.until - SEVEN]).slice(0, 2)).toEqual([["Chopper", 600], ["Tipper 1", 670]]);
    expect(day.trips).toHaveLength(1);
    expect(day.lifts[0]!.closed - SEVEN).toBe(570 + 180 + 600);
  });

  it("leaves nothing of what was cut outside the clamp", () => {
    const day = run(tiny({ fields: [tinyField({ area: 60_000 })], trucks: [tinyTrucks(3)], shift: { end: SEVEN + 3333 } }));
    const cut = 240_000 - day.uncut[0]!;
    expect(day.lifts.reduce((mass, lift) => mass + lift.mass, 0)).toBeCloseTo(cut, 6);
  });
});
