/**
 * How long the built server takes to answer, over HTTP on this machine: one day, a hundred rehearsals, a sign of life while it works; a crew
 * search's first ranking, and its end when it is cancelled. Shown without a bar, for times over HTTP hang on what else the machine does; on a
 * quiet machine of two cores the aim is 25 ms for a day, 150 ms for a hundred rehearsals, 1 s to the first ranking and 100 ms to the end.
 */
import { quantile } from "simple-statistics";
import { builtServer } from "./builtserver.ts";
import type { Case, Figure } from "./case.ts";

export const SERVER_CASES: readonly Case[] = [
  { name: "server: answers over HTTP", run: () => onServer(answers) },
  { name: "server: a crew search", run: () => onServer(search) },
];

const EXAMPLE = "contractor-corn-day";
/** 60 plans: five numbers of trucks, four crews, three rules. */
const SEARCH = { trucks: { from: 3, to: 7 }, tractors: { from: 1, to: 4, list: [{ mass: "18 t", count: 4 }] }, rules: ["hold", "bury", "hold-then-bury"] };
const SEARCHES = 10;

/** Does some work with the built server and a worked example with luck. */
async function onServer(work: (url: string, scenario: object) => Promise<readonly Figure[]>): Promise<readonly Figure[]> {
  const server = await builtServer();
  try {
    const document = (await (await fetch(`${server.url}/api/v1/scenarios/${EXAMPLE}`)).json()) as Record<string, unknown>;
    return await work(server.url, { ...document, variation: "typical" });
  } finally {
    await server.close();
  }
}

async function answers(url: string, scenario: object): Promise<readonly Figure[]> {
  let seed = 0;
  /** A question that was never asked before: another seed each time. */
  const ask = async (rehearsals: number) => {
    seed += 1;
    const answer = await fetch(`${url}/api/v1/rehearsals`, {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ scenario, rehearsals, seed }),
    });
    if (!answer.ok) throw new Error(await answer.text());
    await answer.arrayBuffer();
  };
  const alive = async () => void (await (await fetch(`${url}/livez`)).arrayBuffer());

  await timesOf(100, () => ask(1));
  const day = figures("one day", await timesOf(200, () => ask(1)));
  const hundred = figures("100 rehearsals", await timesOf(40, () => ask(100)));
  const burst = Promise.all(Array.from({ length: 40 }, () => ask(100)));
  const pulse = figures("life while busy", await timesOf(100, alive));
  await burst;
  return [...day, ...hundred, ...pulse];
}

/** Each search is another one: another seed. The times run from the question, and from the wish to end it, to the word on the line that is listened to. */
async function search(url: string, scenario: object): Promise<readonly Figure[]> {
  const first: number[] = [];
  const end: number[] = [];
  for (let seed = 1; seed <= SEARCHES; seed += 1) {
    const asked = performance.now();
    const answer = await fetch(`${url}/api/v1/studies`, {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ kind: "crewup", scenario: { ...scenario, search: SEARCH }, seed }),
    });
    if (!answer.ok) throw new Error(await answer.text());
    const study = `${url}${answer.headers.get("Location")}`;
    const events = (await fetch(`${study}/events`)).body!.pipeThrough(new TextDecoderStream()).getReader();
    await heard(events, "so-far");
    first.push(performance.now() - asked);
    const told = performance.now();
    await fetch(study, { method: "DELETE" });
    await heard(events, "cancelled");
    end.push(performance.now() - told);
  }
  return [...figures("first ranking", first), ...figures("cancelled", end)];
}

/** Reads until an event of the name has come. */
async function heard(events: ReadableStreamDefaultReader<string>, name: string): Promise<void> {
  for (let text = ""; !text.includes(`event: ${name}\n`);) {
    const { done, value } = await events.read();
    if (done) throw new Error(`The study ended without ${name}: ${text}`);
    text += value;
  }
}

async function timesOf(count: number, work: () => Promise<void>): Promise<number[]> {
  const times: number[] = [];
  for (let i = 0; i < count; i += 1) {
    const from = performance.now();
    await work();
    times.push(performance.now() - from);
  }
  return times;
}

const figures = (what: string, times: number[]): Figure[] => [
  { name: what, value: quantile(times, 0.5), unit: "ms, median" },
  { name: what, value: quantile(times, 0.95), unit: "ms, 95 % within" },
];
