/** Explanations stay true when a participant turns a plan: they are made of what came out, whatever it was. */
import { describe, expect, it } from "vitest";
import { LESSONS } from "../../viz/lessons/all-lessons.ts";
import { sayIn } from "../../viz/lessons/say.ts";
import { turnable, withTurned } from "../../viz/lessons/turned.ts";
import { written } from "../../viz/quantity.ts";
import { LESSON_IDS, lessonWords, wordsOf, type LessonId } from "../../viz/words/lessons.ts";
import { plansOf, told } from "./rehearsed.ts";

/** Days enough to tell a branch; the claims are asserted of the usual number. */
const DAYS = 4;
const lessonOf = (id: LessonId) => LESSONS.find((lesson) => lesson.id === id)!;
const explained = (id: LessonId, values: Readonly<Record<string, string>> = {}) => {
  const lesson = lessonOf(id);
  return lesson.explain(withTurned(lesson, plansOf(lesson), values).map((plan) => told(plan, DAYS)), sayIn("metric")).join(" ");
};

describe("the lessons", () => {
  it("are all there in the order of their words, each with a choice for every truth and words for every slider", () => {
    expect(LESSONS.map(({ id }) => id)).toEqual(LESSON_IDS);
    for (const { id, plans, knobs } of LESSONS) {
      const words = wordsOf(id);
      expect(words.plans).toHaveLength(plans.length);
      expect(Object.keys(words.knobs)).toEqual(knobs.map((knob) => knob.id));
    }
  });

  it.each(LESSONS.map((lesson) => [lesson.id, lesson] as const))("%s: explains the ends of every slider without a missing figure, in either system of units, and judges them by one of its choices", (_, lesson) => {
    for (const knob of lesson.knobs) {
      for (const end of [0, 1] as const) {
        const figure = knob.range.metric[end];
        const value = knob.dimension === null ? String(figure) : written(figure, knob.dimension, "metric");
        const outcomes = withTurned(lesson, plansOf(lesson), { [knob.id]: value }).map((plan) => told(plan, DAYS));
        for (const system of ["metric", "us"] as const) {
          const sentences = lesson.explain(outcomes, sayIn(system));
          expect(new Set(sentences).size).toBe(sentences.length);
          for (const sentence of sentences) expect(sentence).not.toMatch(/NaN|undefined|Infinity|–/);
        }
        const truth = lesson.truth(outcomes);
        if (typeof truth === "number") expect(truth).toBeGreaterThanOrEqual(0);
        else expect(Object.keys(wordsOf(lesson.id).choices)).toContain(truth);
        expect(knob.read(withTurned(lesson, plansOf(lesson), { [knob.id]: value }).at(-1)!)).not.toBeNaN();
      }
    }
  });
});

describe("what an address says was turned", () => {
  it("is taken as far as a slider of the lesson can be turned to it, in either system of units, and left out beyond that", () => {
    for (const lesson of LESSONS) {
      for (const { id, dimension, range } of lesson.knobs) {
        for (const system of ["metric", "us"] as const) {
          const [least, most, step] = range[system];
          const say = (figure: number) => ({ [id]: dimension === null ? String(figure) : written(figure, dimension, system) });
          for (const figure of [least, least + step, most]) expect(turnable(lesson, say(figure))).toEqual(say(figure));
        }
        for (const value of ["", "a lot", "-1", "1e9", "0.5", "NaN", dimension === null ? "7.5" : "900 h"]) expect([id, value, turnable(lesson, { [id]: value })]).toEqual([id, value, {}]);
      }
      expect(turnable(lesson, { another: "7", constructor: "7" })).toEqual({});
    }
  });
});

describe("an explanation", () => {
  it("says that trucks are short where they are, and not that they stand in line", () => {
    expect(explained("another-truck", { trucks: "7" })).toContain("here trucks are short");
    expect(explained("another-truck")).toContain("stands in line at the clamp");
  });

  it("calls the clamp denser once the crew was made heavy enough for the second place", () => {
    expect(explained("second-tipping-place", { roller: "40 t" })).toContain("made heavier along with the delivery");
    expect(explained("second-tipping-place")).toContain("The bottleneck has moved");
  });

  it("lets nobody pay where the crew keeps up", () => {
    const said = explained("who-pays", { roller: "60 t" });
    expect(said).toContain("the crew keeps up");
    expect(said).toContain("there was nothing to bury");
    expect(said).not.toContain("The machines that stand pay");
  });

  it("finds the same density where the crop was made even", () => {
    expect(explained("same-hours", { thick: "45 t/ha" })).toContain("so little unevenness hardly shows");
  });

  it("calls a plan far over the target sure, and one under it poor", () => {
    expect(explained("coin-toss", { roller: "40 t" })).toContain("well above the target");
    expect(explained("coin-toss", { roller: "10 t" })).toContain("lies under the target");
  });

  it("lets the roller pay once feed is dear enough", () => {
    expect(explained("february", { value: "600 per t" })).toContain(lessonWords.february.explain.pays);
    expect(explained("february", { value: "60 per t" })).toContain("does not pay");
  });
});
