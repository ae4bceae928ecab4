/**
 * The built server under load, from a second process: single days asked for at a steady pace while a crew search runs, many days in a row and
 * what they leave in memory, and a hall of listeners to one study. Each question is another seed, so that nothing is answered from what is kept.
 */
import { Agent, request } from "node:http";
import { quantile } from "simple-statistics";
import { builtServer } from "./builtserver.ts";
import type { Case, Figure } from "./case.ts";

export const LOAD_CASES: readonly Case[] = [
  { name: "load: 50 days a second, at rest and beside a crew search", run: () => onServer(pace) },
  { name: "load: memory over 20,000 days", run: () => onServer(memory) },
  { name: "load: 200 listeners", run: () => onServer(listeners) },
];

const EXAMPLE = "contractor-corn-day";
/** 360 plans: ten numbers of trucks, four crews, three layers, three rules. */
const SEARCH = { trucks: { from: 3, to: 12 }, layers: ["10 cm", "12 cm", "15 cm"], tractors: { from: 1, to: 4, list: [{ mass: "18 t", count: 4 }] }, rules: ["hold", "bury", "hold-then-bury"] };
/** a second, and for how many seconds */
const PACE = 50;
const SECONDS = 20;
const SEARCHES = 8;
const DAYS = 20_000;
const LISTENERS = 200;

interface Memory { readonly heap: number; readonly rss: number }

interface Server {
  readonly scenario: object;
  /** MB, once what is not needed has been thrown away */ memory(): Promise<Memory>;
  readonly url: string;
  /** Sends a body and waits for the whole answer. */ send(path: string, body: object | null): Promise<{ status: number; location: string; text: string }>;
}

/** Has the server tell its memory, MB, in a line when it gets a signal; threads get none. */
const TELLS_MEMORY = `data:text/javascript,process.on("SIGUSR2", () => {
  gc();
  const { heapUsed, rss } = process.memoryUsage();
  process.stdout.write("memory " + JSON.stringify({ heap: heapUsed / 1e6, rss: rss / 1e6 }) + "\\n");
});`.replaceAll("\n", "");

/** The server counts requests by address and slows down whoever asks too often; so one client asks as several neighbours, each from an address of its own. */
const NEIGHBOURS = 8;

/** Does some work with the built server, which tells its memory. */
async function onServer(work: (server: Server) => Promise<readonly Figure[]>): Promise<readonly Figure[]> {
  const { url, child, close } = await builtServer({ node: ["--expose-gc", "--import", TELLS_MEMORY] });
  // Connections of each neighbour: all of them together stay below what the server takes.
  const agent = new Agent({ keepAlive: true, maxSockets: 40 });
  let turn = 0;
  try {
    const memory = () => new Promise<Memory>((told) => {
      child.stdout.once("data", (line: string) => told(JSON.parse(line.replace("memory ", "")) as Memory));
      child.kill("SIGUSR2");
    });
    const send: Server["send"] = (path, body) => new Promise((done, failed) => {
      const text = body === null ? "" : JSON.stringify(body);
      const asked = request(`${url}${path}`, { agent, localAddress: `127.0.0.${2 + (turn = (turn + 1) % NEIGHBOURS)}`, method: body === null ? "GET" : "POST", headers: body === null ? {} : { "Content-Type": "application/json", "Content-Length": Buffer.byteLength(text) } }, (answer) => {
        const parts: Buffer[] = [];
        answer.on("data", (part: Buffer) => parts.push(part)).on("error", failed)
          .on("end", () => done({ status: answer.statusCode!, location: answer.headers.location ?? "", text: Buffer.concat(parts).toString() }));
      });
      // A line that was quiet for long may be cut by the server in the very instant when it is used again.
      asked.on("error", (error) => (asked.reusedSocket ? done(send(path, body)) : failed(error))).end(text);
    });
    const scenario = JSON.parse((await send(`/api/v1/scenarios/${EXAMPLE}`, null)).text) as object;
    return await work({ send, scenario: { ...scenario, variation: "typical" }, memory, url });
  } finally {
    agent.destroy();
    await close();
  }
}

let seeds = 0;

/** Asks for one day that was never asked for before, and waits for it; false when too many wait already. */
async function ask({ send, scenario }: Server): Promise<boolean> {
  seeds += 1;
  const { status, text } = await send("/api/v1/rehearsals", { scenario, rehearsals: 1, seed: seeds });
  if (status !== 200 && status !== 503) throw new Error(text);
  return status === 200;
}

/** ms from the instant at which each day was due, so that waiting behind another one counts; endless where it was refused. */
async function atPace(server: Server): Promise<number[]> {
  const begin = performance.now() + 100;
  return Promise.all(Array.from({ length: PACE * SECONDS }, async (_, i) => {
    const due = begin + (1000 * i) / PACE;
    await new Promise((come) => setTimeout(come, due - performance.now()));
    return (await ask(server)) ? performance.now() - due : Infinity;
  }));
}

async function pace(server: Server): Promise<readonly Figure[]> {
  for (let i = 0; i < 300; i += 1) await ask(server);
  const atRest = await atPace(server);
  // One after another, more than are done in time.
  let last = "";
  for (let seed = 1; seed <= SEARCHES; seed += 1) last = (await study(server, { kind: "crewup", scenario: { ...server.scenario, search: SEARCH }, seed })).location;
  const beside = await atPace(server);
  const { state } = JSON.parse((await server.send(last, null)).text) as { state: string };
  if (state === "done") throw new Error("The last search is done before all days beside it were asked for: more of them would do.");
  return [...spread("a day, at rest", atRest, 25), ...spread("a day, beside a search", beside, 25)];
}

const spread = (name: string, times: number[], bar: number): Figure[] => [
  { name, value: quantile(times, 0.5), unit: "ms, median" },
  { name, value: quantile(times, 0.95), unit: "ms, 95 % within", bar },
  { name, value: quantile(times, 0.99), unit: "ms, 99 % within" },
  { name, value: times.filter((time) => time === Infinity).length, unit: "refused", bar: 0 },
];

async function study({ send }: Server, body: object): Promise<{ location: string }> {
  const { status, location, text } = await send("/api/v1/studies", body);
  if (status !== 202) throw new Error(text);
  return { location };
}

/** Heap and resident memory of the whole process, threads included, after each quarter of the days, four asked for at a time. */
async function memory(server: Server): Promise<readonly Figure[]> {
  const after: Memory[] = [];
  for (let quarter = 0; quarter < 4; quarter += 1) {
    let left = DAYS / 4;
    const askOn = async () => { while (left-- > 0) await ask(server); };
    await Promise.all([askOn(), askOn(), askOn(), askOn()]);
    after.push(await server.memory());
  }
  const grown = (what: keyof Memory) => after[3]![what] - after[0]![what];
  return [
    ...after.flatMap(({ heap, rss }, i) => [
      { name: `heap after ${((i + 1) * DAYS) / 4}`, value: heap, unit: "MB" },
      { name: `resident after ${((i + 1) * DAYS) / 4}`, value: rss, unit: "MB" },
    ]),
    { name: "heap grown by", value: grown("heap"), unit: "MB, last 15,000", bar: 5 },
    { name: "resident grown by", value: grown("rss"), unit: "MB, last 15,000", bar: 30 },
  ];
}

/** ms from the first who hears that the study is done to the middle one and the last of all. */
async function listeners(server: Server): Promise<readonly Figure[]> {
  const { location } = await study(server, { kind: "compare", scenarios: ["A", "B"].map((name) => ({ ...server.scenario, name })), rehearsals: 4_000 });
  const heard = await Promise.all(Array.from({ length: LISTENERS }, () => new Promise<number>((done, failed) => {
    let text = "";
    request(`${server.url}${location}/events`, { agent: false }, (answer) => {
      let at = 0;
      answer.setEncoding("utf8").on("data", (part: string) => {
        text += part;
        if (at === 0 && text.includes("event: done\n")) at = performance.now();
      }).on("error", failed).on("end", () => (at > 0 ? done(at) : failed(new Error(`The end was not heard: ${text}`))));
    }).on("error", failed).end();
  })));
  const first = Math.min(...heard);
  const late = heard.map((at) => at - first);
  return [
    { name: "heard the end", value: heard.length, unit: "listeners" },
    { name: "behind the first", value: quantile(late, 0.5), unit: "ms, median" },
    { name: "behind the first", value: Math.max(...late), unit: "ms, the last", bar: 100 },
  ];
}
