import { describe, expect, it } from "vitest";
import { Line, LineFull } from "../../server/line.ts";

const never = new AbortController().signal;

describe("a line for turns", () => {
  it("lets so many in at once and the others in the order in which they came", async () => {
    const line = new Line(2, 10);
    const order: number[] = [];
    const first = await line.turn(never);
    const second = await line.turn(never);
    const others = [3, 4, 5].map(async (name) => {
      const giveBack = await line.turn(never);
      order.push(name);
      giveBack();
    });
    expect(line.waiting).toBe(3);
    expect(order).toEqual([]);
    first();
    await Promise.all(others);
    expect(order).toEqual([3, 4, 5]);
    second();
    expect(line.waiting).toBe(0);
  });

  it("refuses whoever finds no place to wait", async () => {
    const line = new Line(1, 1);
    const giveBack = await line.turn(never);
    const waits = line.turn(never);
    await expect(line.turn(never)).rejects.toBeInstanceOf(LineFull);
    giveBack();
    (await waits)();
  });

  it("forgets whoever leaves while waiting, and the next behind moves up", async () => {
    const line = new Line(1, 2);
    const giveBack = await line.turn(never);
    const leaver = new AbortController();
    const left = line.turn(leaver.signal);
    const stays = line.turn(never);
    leaver.abort(new Error("gone"));
    await expect(left).rejects.toThrow("gone");
    expect(line.waiting).toBe(1);
    giveBack();
    (await stays)();
    (await line.turn(never))();
  });

  it("does not hand a turn on twice when it is given back twice", async () => {
    const line = new Line(1, 5);
    const giveBack = await line.turn(never);
    const second = line.turn(never);
    let thirdCame = false;
    const third = line.turn(never).then((turn) => { thirdCame = true; return turn; });
    giveBack();
    giveBack();
    const secondBack = await second;
    expect(thirdCame).toBe(false);
    secondBack();
    (await third)();
  });

  it("turns away at once whoever has left before asking", async () => {
    const line = new Line(1, 1);
    await expect(line.turn(AbortSignal.abort(new Error("gone")))).rejects.toThrow("gone");
    (await line.turn(never))();
  });
});
