/** What the kernel says when it refuses something, all in one place: what was wrong, and what would be right. */
export const REFUSALS = {
  start: (time: number) => `A simulation starts at a finite time in seconds, not at ${time}.`,
  past: (what: string, time: number, now: number) => `The ${what} is at ${time} s, but it is ${now} s already: only a later, finite time will do.`,
  hold: (seconds: number) => `A process can hold for 0 seconds or more, and not for ever; it asked for ${seconds} s.`,
  rank: (rank: number) => `A rank is a rung of the ladder, a whole number from 0 to 5; not ${rank}.`,
  uncaught: (name: string, message: string) => `Process "${name}" does not catch what struck it: ${message}.`,
  units: (name: string, units: number) => `${name}: units are whole numbers from 1 up, not ${units}.`,
  capacity: (name: string, capacity: number) => `${name}: a capacity is 0 or more, not ${capacity}.`,
  notInUse: (name: string, units: number, inUse: number) => `${name}: ${units} units are given back, but only ${inUse} are in use.`,
  amount: (name: string, amount: number) => `${name}: an amount is 0 or more and finite, not ${amount}.`,
  interval: (from: number, to: number) => `A closed interval ends after it begins; this one goes from ${from} to ${to} s.`,
  work: (start: number, work: number) => `Work of ${work} s from ${start} s on: the start is a finite time, the work 0 seconds or more.`,
  cv: (kind: string, cv: number, largest: number) => `${kind}: the coefficient of variation lies between 0 and ${largest}, not at ${cv}.`,
  stages: (stages: number) => `erlang: the stages are a whole number from 1 up, not ${stages}.`,
  triangle: (low: number, mode: number, high: number) =>
    `triangular: low <= mode <= high with a mean above 0 is wanted, not ${low}, ${mode}, ${high}.`,
} as const;
