/**
 * Every bound of the server, in one place. All are assumptions of this project: wide enough that nobody who plans a harvest
 * meets them, tight enough that no request can tie up the machine. Tests pass smaller ones.
 */
export const LIMITS = {
  /** bytes of a request's body; a contractor's scenario is about 3,000 */
  bodyBytes: 1_000_000,
  /** objects and lists inside one another; a scenario needs 6 */
  depth: 24,
  /** errors told of one scenario; the rest are counted */
  errors: 100,
  /** rehearsals asked for at once */
  rehearsals: 10_000,
  /** truck loads and crop rows of one day */
  stepsPerDay: 40_000,
  /** truck loads and crop rows over all rehearsals of one request */
  steps: 2_000_000,
  /** the same over all days of a study, as far as can be told before, and ms that it may take */
  studySteps: 60_000_000,
  studyMs: 300_000,
  /** studies that wait for their turn, one being carried out, and finished ones that are at hand */
  studiesWaiting: 16,
  studiesKept: 64,
  /** clients that listen to studies at one time, ms between two words on progress, and ms after which a quiet line is given a sign of life */
  listeners: 256,
  progressMs: 100,
  beatMs: 15_000,
  /** ms of computing for one request, from the moment its turn has come */
  runMs: 20_000,
  /** ms that a run may go on after the last client that wanted it has left: ending a thread costs more than a short run */
  graceMs: 1_000,
  /** requests that wait for a thread */
  waiting: 256,
  /** answers kept in memory, and their bytes */
  kept: 256,
  keptBytes: 64 * 1024 * 1024,
  /** scenarios that are kept, by ids ever used, and revisions of each */
  scenarios: 2_000,
  revisions: 5_000,
  /** bytes of kept answers, deflated, and of the data folder's file as a whole */
  answerBytes: 256 * 1024 * 1024,
  folderBytes: 2 * 1024 * 1024 * 1024,
  /** bytes of an archive that is sent; a larger one is restored on the command line */
  archiveBytes: 256 * 1024 * 1024,
  /** ms that new answers wait to be written to the disk together */
  gatherMs: 1_000,
  /** requests a minute from one address; a slider held down makes about 1,200 */
  perMinute: 6_000,
  /** wrong tokens a minute from one address */
  wrongTokens: 20,
  /** MB of heap for one thread */
  threadHeapMb: 512,
  /**
   * ms until a request's head has come, and until the whole request has. The clock runs too while this process waits for the processor: whoever
   * asked in time on a crowded machine would be refused by a tight bound, and one below `keepAliveMs` guards nothing, since a quiet connection stays that long.
   */
  headersMs: 60_000,
  requestMs: 60_000,
  /** ms that a quiet connection is kept: longer than clients keep theirs, since one who asks while it is being closed is cut off */
  keepAliveMs: 75_000,
  /** connections at one time */
  connections: 512,
  /** ms that requests under way get to finish when the server is told to end */
  closingMs: 2_000,
} as const;

/** The port that is tried first: four digits of our own choosing, registered for nothing well known. */
export const USUAL_PORT = 4717;

export type Limits = { readonly [Name in keyof typeof LIMITS]: number };
