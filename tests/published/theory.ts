/** Closed forms of queueing theory, as far as the checks need them. Rates are per unit of time, the unit is the caller's. */

/** Chance that a customer waits in M/M/c, by Erlang's loss recursion; `offered` = arrival rate x mean service. Erlang 1917. */
export function chanceOfWait(offered: number, servers: number): number {
  let blocked = 1;
  for (let c = 1; c <= servers; c += 1) blocked = (offered * blocked) / (c + offered * blocked);
  return blocked / (1 - (offered / servers) * (1 - blocked));
}

/** The same by the plain sum over states: slower and coarser, but another way to the same number. */
export function chanceOfWaitBySum(offered: number, servers: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; n < servers; n += 1) {
    term *= offered / n;
    sum += term;
  }
  const all = (term * offered) / servers / (1 - offered / servers);
  return all / (sum + all);
}

/** M/M/c: `service` is the rate of one server. */
export function mmc(arrival: number, service: number, servers: number) {
  const offered = arrival / service;
  const wait = chanceOfWait(offered, servers);
  const meanQueue = (wait * offered) / (servers - offered);
  const meanQueueTime = meanQueue / arrival;
  return {
    chanceOfWait: wait,
    meanQueue,
    meanQueueTime,
    meanInSystem: meanQueue + offered,
    meanInSystemTime: meanQueueTime + 1 / service,
    utilisation: offered / servers,
  };
}

/** Mean time in the queue of M/G/1: Pollaczek 1930, Khinchine 1932; as in Cooper, Introduction to Queueing Theory, 1981, p. 189. */
export function pollaczekKhinchine(load: number, serviceMean: number, serviceCv: number): number {
  return (load * serviceMean * (1 + serviceCv ** 2)) / (2 * (1 - load));
}

/**
 * Finite source: each of `sources` calls after a mean time `between`, service takes `service`, both exponential. By the balance of
 * the birth-and-death chain; what a caller finds is what one source fewer leaves (the arrival theorem).
 */
export function finiteSource(sources: number, between: number, service: number, servers: number) {
  const chances = (n: number): number[] => {
    const weights = [1];
    for (let k = 1; k <= n; k += 1) weights.push((weights[k - 1]! * (n - k + 1) * service) / (between * Math.min(k, servers)));
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    return weights.map((weight) => weight / total);
  };
  const own = chances(sources);
  const queue = own.reduce((sum, chance, k) => sum + chance * Math.max(0, k - servers), 0);
  const busy = own.reduce((sum, chance, k) => sum + chance * Math.min(k, servers), 0);
  const chanceOfWait = chances(sources - 1).reduce((sum, chance, k) => (k >= servers ? sum + chance : sum), 0);
  return { chanceOfWait, efficiency: 1 - queue / sources, throughput: busy / service, queue, utilisation: busy / servers };
}

/** A closed network of single servers, first come first served, exponential: `visits` to each station a cycle, one `thinkTime` a cycle. */
export interface ClosedNetwork {
  readonly serviceTimes: readonly number[];
  readonly visits: readonly number[];
  readonly thinkTime: number;
  readonly customers: number;
}

/** Exact mean value analysis: Reiser & Lavenberg 1980, Journal of the ACM 27(2):313-322. Response times are per visit, queue lengths include who is served. */
export function meanValueAnalysis({ serviceTimes, visits, thinkTime, customers }: ClosedNetwork) {
  let queueLengths = serviceTimes.map(() => 0);
  let responseTimes = serviceTimes.map(() => 0);
  let throughput = 0;
  for (let n = 1; n <= customers; n += 1) {
    responseTimes = serviceTimes.map((time, i) => time * (1 + queueLengths[i]!));
    throughput = n / responseTimes.reduce((sum, time, i) => sum + time * visits[i]!, thinkTime);
    queueLengths = responseTimes.map((time, i) => throughput * visits[i]! * time);
  }
  const utilisation = serviceTimes.map((time, i) => throughput * visits[i]! * time);
  return { throughput, responseTimes, queueLengths, utilisation };
}

/** The same throughput by the normalising constants of the product form: Buzen 1973, Communications of the ACM 16(9):527-531. */
export function throughputByConvolution({ serviceTimes, visits, thinkTime, customers }: ClosedNetwork): number {
  const constants = [1];
  for (let n = 1; n <= customers; n += 1) constants.push((constants[n - 1]! * thinkTime) / n);
  for (const [i, time] of serviceTimes.entries()) {
    for (let n = 1; n <= customers; n += 1) constants[n] = constants[n]! + time * visits[i]! * constants[n - 1]!;
  }
  return constants[customers - 1]! / constants[customers]!;
}

/** Cycles per unit of time when nothing varies: each of `trucks` takes `cycle` alone, the slowest server takes `slowest` a cycle. */
export function deterministicThroughput(trucks: number, cycle: number, slowest: number): number {
  return Math.min(trucks / cycle, 1 / slowest);
}
