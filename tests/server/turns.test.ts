import { describe, expect, it } from "vitest";
import { Turns, NoPlace } from "../../server/turns.ts";

const never = new AbortController().signal;

describe("a line for turns", () => {
  it("lets so many in at once and the others in the order in which they came", async () => {
    const turns = new Turns(2, 10);
    const order: number[] = [];
    const first = await turns.turn(never);
    const second = await turns.turn(never);
    const others = [3, 4, 5].map(async (name) => {
      const giveBack = await turns.turn(never);
      order.push(name);
      giveBack();
    });
    expect(turns.waiting).toBe(3);
    expect(order).toEqual([]);
    first();
    await Promise.all(others);
    expect(order).toEqual([3, 4, 5]);
    second();
    expect(turns.waiting).toBe(0);
  });

  it("refuses whoever finds no place to wait", async () => {
    const turns = new Turns(1, 1);
    const giveBack = await turns.turn(never);
    const waits = turns.turn(never);
    await expect(turns.turn(never)).rejects.toBeInstanceOf(NoPlace);
    giveBack();
    (await waits)();
  });

  it("forgets whoever leaves while waiting, and the next behind moves up", async () => {
    const turns = new Turns(1, 2);
    const giveBack = await turns.turn(never);
    const leaver = new AbortController();
    const left = turns.turn(leaver.signal);
    const stays = turns.turn(never);
    leaver.abort(new Error("gone"));
    await expect(left).rejects.toThrow("gone");
    expect(turns.waiting).toBe(1);
    giveBack();
    (await stays)();
    (await turns.turn(never))();
  });

  it("does not hand a turn on twice when it is given back twice", async () => {
    const turns = new Turns(1, 5);
    const giveBack = await turns.turn(never);
    const second = turns.turn(never);
    let thirdCame = false;
    const third = turns.turn(never).then((turn) => { thirdCame = true; return turn; });
    giveBack();
    giveBack();
    const secondBack = await second;
    expect(thirdCame).toBe(false);
    secondBack();
    (await third)();
  });

  it("turns away at once whoever has left before asking", async () => {
    const turns = new Turns(1, 1);
    await expect(turns.turn(AbortSignal.abort(new Error("gone")))).rejects.toThrow("gone");
    (await turns.turn(never))();
  });
});
