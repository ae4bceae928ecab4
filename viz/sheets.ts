/** What the page is made of, and what it is printed on. */

/** The sheets, in the order of the page's head: the day and its answer, what to change, plans side by side, the rest of a day that is under way, several days, weigh tickets, lessons for a room, the sheet for the crew. */
export const SHEETS = ["day", "change", "beside", "noon", "campaign", "tickets", "lessons", "crew"] as const;
export type Sheet = (typeof SHEETS)[number];

/** The steps of a lesson, in the order in which a room takes them; the handout stands beside them. */
export const STEPS = ["predict", "run", "see", "explain", "try", "handout"] as const;
export type Step = (typeof STEPS)[number];

/** Light, dark, and one for a tablet in the sun. */
export const PAPERS = ["light", "dark", "sun"] as const;
export type Paper = (typeof PAPERS)[number];
