/** Texts of the lessons, ours from the first word to the last. Figures in them come from the engine, at the moment a room asks. */
import { spoken } from "../english.ts";

/** What every lesson says besides its explanation. */
export interface LessonWords {
  readonly title: string;
  readonly situation: string;
  readonly question: string;
  readonly plans: readonly string[];
  /** what a room may predict; empty where it gives a number */ readonly choices: Readonly<Record<string, string>>;
  readonly look: string;
  readonly tries: string;
  readonly exercise: string;
  readonly knobs: Readonly<Record<string, string>>;
}

const SHEET = {
  title: "Lessons for a room",
  what: "Seven short lessons. The room predicts, the day is rehearsed, and the figures answer. Each takes about ten minutes.",
  open: (n: number, title: string) => `${n}. ${title}`,
  all: "All lessons",
  large: "Large, for a projector",
  stepsTitle: "Steps of the lesson",
  steps: { predict: "Predict", run: "Run", see: "See", explain: "Explain", try: "Try", handout: "Handout" },
  next: { run: "Run it", see: "See what came of it", explain: "Why?", try: "Try it yourselves" },
  nextLesson: (title: string) => `Next lesson: ${title}`,
  toHandout: "Handout for this lesson",

  predict: {
    votes: "Votes of the room",
    vote: "One vote more",
    takeBack: "Take one back",
    none: "Nobody has voted yet. The answer comes after the first vote.",
    first: "A prediction comes first: the answer is kept back until then.",
    guess: "Your guess, of 100",
    add: "Take down this guess",
    guesses: (said: string) => `The room guesses: ${said}.`,
  },
  run: {
    rehearsing: (done: number, all: number) => `Rehearsing plan ${done + 1} of ${all}.`,
    done: (days: string) => `Rehearsed just now: ${days}, every plan on the same luck.`,
    days: (count: number) => (count === 1 ? "one day without chance" : `${count} days of each plan`),
    which: "Plan shown",
    time: "Time of day",
    play: "Play the day",
    pause: "Pause",
    again: "Ask again",
  },
  see: {
    came: (answer: string) => `What came out: ${answer}`,
    cameNumber: (figure: string) => `What came out: ${figure} of 100.`,
    room: (said: string) => `The room said: ${said}.`,
    votesFor: (choice: string, votes: number) => `${choice} (${votes})`,
    figures: "The plans side by side",
    head: { plan: "Plan", bar: "Drawn to one scale", figure: "Figure", range: "Range" },
    ranges: { days: "most days", ledger: "the ledger leaves open", relation: "8 of 10 clamps packed alike" },
    target: (target: string) => `target ${target}`,
    at: (plan: string, clock: string) => `${plan}, at ${clock}`,
    clampOf: (plan: string, laid: string) => `${plan}: ${laid}`,
    clampSummary: (plan: string, laid: string, density: string, under: string) => `The clamp of "${plan}" in long section: ${laid} at ${density}; ${under} of it under target.`,
    holds: "What a cubic metre holds",
    parts: { solids: "dry matter", water: "water", gas: "air and gas" },
    holdsSummary: (plan: string, solids: string, water: string, gas: string) => `${plan}: ${solids} dry matter, ${water} water, ${gas} air and gas.`,
  },
  explain: { title: "Why" },
  try: { answer: "The answer now", back: "Back to the lesson's plan", changed: (plan: string) => `${plan}, with your change` },
  handout: {
    print: "Print this page",
    predict: "We predict:",
    because: "because:",
    below: "Turn over or fold here until the day is rehearsed.",
    exercise: "Exercise",
    sources: "Where the figures come from",
    scatter: "Scatter between clamps",
    losses: "Loose packing",
    address: "This lesson:",
  },
  /** for any comparison of two densities */
  scatter: (band: string) => `One caution: clamps packed alike differ more than these two do. 8 of 10 like the first would lie at ${band}. The mean moves all the same.`,
  figuresOwn: { rolled: "Rolling, all tractors", chance: "Chance of the target", daysOfFeed: "Days of feed", spends: "What the farm spends", fed: "Dry matter left to feed" },
  gain: (share: string, more: boolean) => `${share} ${more ? "more" : "less"}`,
  days: "days",
} as const;

const LESSONS = {
  "another-truck": {
    title: "One truck more",
    situation: "Two choppers and fourteen trucks serve one clamp with one tipping place. Again and again a chopper stands and waits for a truck. Somebody offers a fifteenth truck.",
    question: "How much more reaches the clamp in an hour with one truck more?",
    plans: ["Fourteen trucks", "Fifteen trucks"],
    choices: { share: "5 % or more", some: "1 to 5 %", hardly: "Under 1 %", less: "Less than before" },
    look: "Look at the line in front of the clamp, then at the wait of a truck.",
    tries: "Turn the number of trucks. At how few does delivery begin to suffer?",
    exercise: "On your own yard: count the trucks that stand at the clamp at one moment. While two or more stand there, what would one more do?",
    knobs: { trucks: "Trucks" },
    explain: {
      gain: (now: string, before: string, gain: string) => `${now} reach the clamp, against ${before}: ${gain}.`,
      tipping: (most: string) => `Tipping passes ${most} at the most, by hand: so many places, and so many minutes for each load. More trucks do not change that.`,
      elsewhere: (station: string, most: string) => `The tightest station by hand is ${station}: it passes ${most} at the most.`,
      longer: (now: string, before: string) => `So whatever is added joins the line. Each truck waits ${now} a trip instead of ${before}.`,
      shorter: (now: string, before: string) => `Each truck waits ${now} a trip instead of ${before}: the line did not grow.`,
      choppers: (now: string, before: string) => `The choppers stand ${now} of their time instead of ${before}. What they wait for is not missing: it stands in line at the clamp.`,
      trucksShort: (now: string, before: string) => `The choppers stand ${now} of their time instead of ${before}, mostly for trucks that are still on the road: here trucks are short.`,
      choppersBusy: (now: string, before: string) => `The choppers stand ${now} of their time instead of ${before}: hardly at all.`,
      cost: (now: string, before: string) => `A tonne at the clamp costs ${now} instead of ${before}.`,
    },
  },
  "second-tipping-place": {
    title: "A second tipping place",
    situation: "The same two choppers and fourteen trucks. The yard makes room for a second truck to tip. The packing crew stays as it is.",
    question: "What becomes of the clamp?",
    plans: ["One tipping place", "Two tipping places"],
    choices: { denser: "Denser: the loads come more evenly", same: "The same: it is the same crew", looser: "Looser" },
    look: "Look at the line, at the pace, and then at the colour of the clamp.",
    tries: "Keep the second place, and find the mass of the heaviest roller that gives the density back.",
    exercise: "Name one thing in your yard that slows delivery today. Who would have to get heavier if it went away?",
    knobs: { tips: "Tipping places", roller: "Mass of the heavy roller" },
    explain: {
      faster: (now: string, before: string) => `${now} come in instead of ${before}: the trucks no longer stand in line.`,
      notFaster: (now: string, before: string) => `${now} come in instead of ${before}: delivery did not gain.`,
      waits: (truck: string, truckBefore: string, chopper: string, chopperBefore: string) => `A truck waits ${truck} a trip at the storage instead of ${truckBefore}; the choppers stand ${chopper} of their time instead of ${chopperBefore}.`,
      crew: (rate: string) => `The crew packs ${rate} at target, whoever tips where.`,
      less: (now: string, before: string) => `Each tonne now gets ${now} of rolling instead of ${before}.`,
      looser: (now: string, before: string) => `So the clamp ends at ${now} instead of ${before}. The bottleneck has moved from the tipping place to the tractors.`,
      denser: (now: string, before: string) => `The clamp ends at ${now} instead of ${before}: the crew was made heavier along with the delivery.`,
      equal: (now: string, before: string) => `The clamp ends at ${now} instead of ${before}: the same within one part in a hundred.`,
    },
  },
  "who-pays": {
    title: "Hold, bury or ease: who pays",
    situation: "The chopper brings more than the crew can pack. Three rules are open to the crew: hold the trucks until the lift is packed, bury it and keep moving, or ease the chopper to the crew's pace.",
    question: "Under which rule is the least crop in the clamp by the evening?",
    plans: ["Hold", "Bury", "Ease"],
    choices: { hold: "Hold", bury: "Bury", ease: "Ease", same: "No difference" },
    look: "Look at what came in, at who stood, and at the colour of the clamp.",
    tries: "Turn the mass of the roller. From what mass on does it no longer matter which rule holds?",
    exercise: "Who in your yard decides the rule, and who is told? Write down the sentence that you will use on the day.",
    knobs: { roller: "Mass of the roller" },
    explain: {
      holdPays: (stands: string, waits: string, mass: string, density: string) => `Hold: the chopper stands ${stands} of its time and a truck waits ${waits} a trip at the storage. ${mass} come in, at ${density}. The machines that stand pay.`,
      holdFree: (mass: string, density: string) => `Hold: the crew keeps up, so nobody waits long. ${mass} come in, at ${density}.`,
      buryPays: (mass: string, density: string, under: string) => `Bury: nobody stands. ${mass} come in, at ${density}; ${under} of it lies under target. The clamp pays, and with it whoever feeds from it.`,
      buryFree: (mass: string, density: string) => `Bury: ${mass} come in, at ${density}. Little of it lies under target: there was nothing to bury.`,
      easePays: (mass: string, less: string, density: string) => `Ease: nobody stands and nothing is buried. But ${mass} come in, ${less} less than under bury, at ${density}. The crop that is still in the field pays, and the day after.`,
      easeFree: (mass: string, density: string) => `Ease: ${mass} come in, at ${density}, nearly as much as under bury: the chopper hardly had to slow down.`,
      cost: (hold: string, bury: string, ease: string) => `A tonne of dry matter fed costs ${hold} under hold, ${bury} under bury, ${ease} under ease. What the crop left in the field will cost is not in these figures.`,
    },
  },
  "same-hours": {
    title: "The same hours, unevenly",
    situation: "Two days with the same area, the same tonnes, the same crew and the same hours. On one the crop stands evenly. On the other one half is thick and the other thin, so loads come fast in the morning and slowly in the afternoon. The average is the same.",
    question: "How dense is the clamp of the uneven day?",
    plans: ["Even crop", "Thick and thin"],
    choices: { denser: "Denser", same: "The same, within one part in a hundred", looser: "Looser" },
    look: "Look at the two clamps: where is the loose part, and does the dense part make up for it?",
    tries: "Turn the yield of the thick half; the thin half gives what is left, so that the sum stays.",
    exercise: "What makes loads come unevenly in your yard? Name two things that one phone call would even out.",
    knobs: { thick: "Yield of the thick half" },
    explain: {
      hours: (a: string, b: string, rateA: string, rateB: string) => `The tractors rolled ${a} on the even day and ${b} on the uneven one; ${rateA} and ${rateB} came in on the average.`,
      looser: (a: string, b: string) => `The even day ends at ${a}, the uneven one at ${b}: the same average, a looser clamp.`,
      denser: (a: string, b: string) => `The even day ends at ${a}, the uneven one at ${b}.`,
      same: (a: string, b: string) => `The even day ends at ${a}, the uneven one at ${b}: so little unevenness hardly shows.`,
      root: "Packing does not add up like hours do. In the relation, density grows with the square root of the time that a tonne gets: four times the time packs only twice as much. What the fast half loses, the slow half cannot give back.",
      queue: "When loads come faster than the blade can push, two are spread together as one thick layer. That costs once more.",
    },
  },
  "coin-toss": {
    title: "A plan right on the target",
    situation: "A plan that is right on the target: the crew is heavy enough, and the relation predicts what was asked for.",
    question: "Of 100 clamps packed exactly like this, how many reach the target?",
    plans: ["Right on the target"],
    choices: {},
    look: "Look at the two lines: the short one is the luck of the day, the long one is what the relation leaves open.",
    tries: "Make the roller heavier, or the chopper slower, until 90 of 100 clamps get there.",
    exercise: "You are asked to promise the target. What do you promise, and how would you find out afterwards whether it was kept?",
    knobs: { roller: "Mass of the roller", pace: "Pace of the chopper" },
    explain: {
      predicts: (mean: string, target: string) => `The plan predicts ${mean}; the target is ${target}.`,
      chance: (chance: string) => `About ${chance} of 100 clamps packed like this reach it.`,
      coin: "Half of them end above the prediction and half below. A prediction that sits on the target is a coin toss for it.",
      sure: "The prediction lies well above the target, and the scatter no longer reaches down to it on most days.",
      poor: "The prediction lies under the target: only the lucky ones get there.",
      band: (low: string, high: string, share: string) => `The relation was drawn through 175 bunkers and explains ${share} of what they differed by. 8 of 10 clamps packed alike lie between ${low} and ${high}.`,
      wanted: (density: string) => `To be sure on 9 of 10, a plan would have to predict ${density}.`,
      luck: (low: string, high: string) => `The luck of the day is small beside that: the mean of the days rehearsed lies between ${low} and ${high}.`,
    },
  },
  "drier-crop": {
    title: "The same meadow, drier",
    situation: "The same meadow, the same dry matter on each hectare, the same crew. Once it is chopped at 30 % dry matter, once at 45 %.",
    question: "The drier crop, packed by the same crew, is:",
    plans: ["At 30 %", "At 45 %"],
    choices: { better: "Denser in dry matter, and less air in it", parted: "Denser in dry matter, but more air in it", other: "Looser in dry matter, but less air in it", worse: "Looser in dry matter, and more air in it" },
    look: "Look at what fills a cubic metre. What has taken the place of the water?",
    tries: "Turn the dry matter of the second crop. Where do both targets hold?",
    exercise: "Which of the two figures do you ask your advisor for, and which does the air ask?",
    knobs: { dry: "Dry matter of the second crop" },
    explain: {
      figures: (a: string, b: string, poreA: string, poreB: string) => `Dry matter density goes from ${a} to ${b}; pore space, the share that air can fill, from ${poreA} to ${poreB}.`,
      parted: "So by the one measure the drier crop is better packed, and by the other worse.",
      both: "Both measures move the same way here.",
      water: (a: string, b: string) => `A cubic metre holds ${a} of fresh crop at first, then ${b}. The relation counts dry matter only. Water fills pores too, and the drier crop has less of it.`,
      meets: (plan: string, density: string, pore: string) => `${plan}: the density target is ${density}, the pore target is ${pore}.`,
      met: "met",
      missed: "missed",
    },
  },
  february: {
    title: "What is left in February",
    situation: "A herd, a field of corn, one bunker. In September it is packed by the blade tractor alone, or by the blade tractor and a roller. In February somebody counts what is left.",
    question: "For how many days longer does the firmer clamp feed the herd?",
    plans: ["Blade alone", "Blade and roller"],
    choices: { none: "Less than a day", few: "1 to 7 days", weeks: "More than a week" },
    look: "Look at the line for loose packing, and at how wide its range is.",
    tries: "Turn the mass of the roller, and what a tonne of feed is worth. When does the roller pay?",
    exercise: "What would you weigh, and when, to know next year which end of the range is yours?",
    knobs: { roller: "Mass of the roller", value: "A tonne of dry feed is worth" },
    explain: {
      density: (a: string, b: string) => `The first clamp ends at ${a}, the second at ${b}.`,
      fed: (a: string, rangeA: string, b: string, rangeB: string) => `Left to feed are ${a} (${rangeA}) and ${b} (${rangeB}) of dry matter.`,
      days: (more: string, a: string, b: string) => `That is ${more} more: ${b} against ${a}.`,
      range: (most: string) => `How sure is that? The line for loose packing says between nothing and ${most}: two trials share the slope behind it, a third one with grass found no difference at all.`,
      worth: (worth: string, extra: string) => `By the slope the feed saved is worth ${worth}; the crew costs ${extra} more.`,
      pays: "So the roller pays by this line alone, if the slope holds.",
      doesNotPay: (from: string) => `So by this line alone the roller does not pay. It would pay once a tonne of dry feed is worth ${from}.`,
      cheaper: (worth: string) => `By the slope the feed saved is worth ${worth}, and the firmer clamp costs no more to make.`,
      notCounted: "Not counted, because no figure for it is verified: heating at the face, mould, and what the cows leave. The open face is given the same share in both clamps, however loose they are.",
      noGain: (a: string, b: string) => `The second clamp does not feed longer: ${b} against ${a}.`,
    },
  },
} as const satisfies Record<string, LessonWords & { readonly explain: object }>;

export type LessonId = keyof typeof LESSONS;
export const LESSON_IDS = Object.keys(LESSONS) as readonly LessonId[];

export const lessonWords = spoken(LESSONS);
export const lessonSheet = spoken(SHEET);
export const wordsOf = (id: LessonId): LessonWords => lessonWords[id];
