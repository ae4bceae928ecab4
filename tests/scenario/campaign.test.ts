/** What a file may say of a campaign, and what it is told where it says what cannot be. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dateOf, dayOf } from "../../sim/scenario/dates.ts";
import { runs } from "../kernel/runs.ts";
import { changed, fullDay, sound, unsound } from "./days.ts";

type Day = Record<string, any>;
const said = (campaign: Record<string, unknown>) => (day: Day) => { day.campaign = campaign; };
const BEGINS = { starts: "2026-09-14" };

const BAD: readonly (readonly [what: string, change: (day: Day) => void, pointer: string, says: RegExp])[] = [
  ["no first day", said({}), "/campaign/starts", /campaign\.starts is missing: a day of the calendar such as "2026-09-14" would do/u],
  ["a day that no month has", said({ starts: "2026-02-30" }), "/campaign/starts", /is "2026-02-30": a day of the calendar/u],
  ["29 February in a common year", said({ starts: "2027-02-29" }), "/campaign/starts", /is "2027-02-29"/u],
  ["a day turned round", said({ starts: "14.09.2026" }), "/campaign/starts", /year, month, day/u],
  ["a day that is a number", said({ starts: 20260914 }), "/campaign/starts", /is 20260914: a day of the calendar/u],
  ["dry matter of a day to come", said({ ...BEGINS, measured: "2026-09-15" }), "/campaign/measured", /after the first day of cutting/u],
  ["dry matter of last year", said({ ...BEGINS, measured: "2025-09-14" }), "/campaign/measured", /365 days before .*: up to 60 would do/u],
  ["drying backwards", said({ ...BEGINS, drying: "-0.5 % per day" }), "/campaign/drying", /from 0 % per day up to 10 % per h would do/u],
  ["drying without per what", said({ ...BEGINS, drying: "0.5 %" }), "/campaign/drying", /a rate of drying takes % per day or % per h/u],
  ["drying as a bare number", said({ ...BEGINS, drying: 0.5 }), "/campaign/drying", /the unit is missing/u],
  ["standing corn that dries like hay", said({ ...BEGINS, drying: "1 % per h" }), "/campaign/drying", /corn is cut standing .* up to 3 % per day would do/u],
  ["rain on more than every day", said({ ...BEGINS, rain: "120 %" }), "/campaign/rain", /from 0 % up to 100 % would do/u],
  ["rain in words", said({ ...BEGINS, rain: "often" }), "/campaign/rain", /is "often"/u],
  ["rain on no days", said({ ...BEGINS, rain: [] }), "/campaign/rain", /a list of 1 to 60 days would do/u],
  ["rain on a day that is none", said({ ...BEGINS, rain: ["2026-09-31"] }), "/campaign/rain/0", /is "2026-09-31"/u],
  ["rain before the campaign", said({ ...BEGINS, rain: ["2026-09-13"] }), "/campaign/rain/0", /outside the campaign: a day from 2026-09-14 to 2027-01-11 would do/u],
  ["rain in another year", said({ ...BEGINS, rain: ["2026-09-15", "2027-09-15"] }), "/campaign/rain/1", /outside the campaign/u],
  ["rain twice on one day", said({ ...BEGINS, rain: ["2026-09-15", "2026-09-15"] }), "/campaign/rain/1", /in this list already/u],
  ["dew until after the shift", said({ ...BEGINS, dew: "20:30" }), "/campaign/dew", /when the shift is over/u],
  ["dew until no time of day", said({ ...BEGINS, dew: "half past nine" }), "/campaign/dew", /a time of day such as "07:00"/u],
  ["no day at all", said({ ...BEGINS, days: 0 }), "/campaign/days", /a whole number from 1 to 60 would do/u],
  ["a key that is none", said({ ...BEGINS, start: "2026-09-14" }), "/campaign/start", /did you mean starts\?/u],
  ["a campaign that is a word", (day) => { day.campaign = "soon"; }, "/campaign", /a group of keys would do: starts measured drying rain dew days|a group of keys would do: starts, measured/u],
];

describe("a campaign in a file", () => {
  it.each(BAD)("with %s is refused in one sentence at its place", (_, change, pointer, says) => {
    const problems = unsound(changed(change));
    expect(problems.map((problem) => problem.pointer)).toContain(pointer);
    expect(problems.find((problem) => problem.pointer === pointer)!.detail).toMatch(says);
  });

  it("comes out in SI, what it leaves out filled in or not known", () => {
    const { campaign } = sound(changed(() => {}, fullDay()));
    expect(campaign).toMatchObject({ measured: campaign!.starts - 1, rain: [campaign!.starts + 1, campaign!.starts + 3], dew: 9.5 * 3600, days: 8 });
    expect(campaign!.drying! * 3600).toBeCloseTo(0.01, 12);
    expect(sound(changed(said(BEGINS))).campaign).toEqual({ starts: dayOf("2026-09-14"), measured: dayOf("2026-09-14"), drying: null, rain: 0, dew: null, days: 14 });
    expect(sound(changed(said({ ...BEGINS, rain: "20 %", drying: "0.48 % per day" }))).campaign).toMatchObject({ rain: 0.2 });
  });

  it("is absent where the file says nothing of it", () => {
    expect("campaign" in sound(changed(() => {}))).toBe(false);
  });
});

describe("days of the calendar", () => {
  const MS = 86_400_000;
  it("are counted as every calendar counts them, and read back as they were written", () => {
    fc.assert(fc.property(fc.integer({ min: dayOf("1900-01-01")!, max: dayOf("2199-12-31")! }), (day) => {
      const text = new Date(day * MS).toISOString().slice(0, 10);
      expect(dateOf(day)).toBe(text);
      expect(dayOf(text)).toBe(day);
    }), runs(5000));
  });
});
