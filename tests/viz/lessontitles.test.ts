import { describe, expect, it } from "vitest";
import { LESSON_IDS, wordsOf } from "../../viz/words/lessons.ts";

/** Words that tell how a comparison comes out. */
const OUTCOME = /\b(help|free|loosen|loose|looser|dense|denser|worse|better|less|coin|toss|costs?)(s|ed)?\b/i;

describe("the title of a lesson", () => {
  it.each(LESSON_IDS)("stands large before the room has predicted, and gives nothing of the answer away: %s", (id) => {
    const { title, question } = wordsOf(id);
    expect(title).not.toMatch(OUTCOME);
    expect(title).not.toBe(question);
  });
});
