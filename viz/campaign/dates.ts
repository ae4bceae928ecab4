/** Dates as they stand in pictures and tables, where a year would only take room. */
import { campaignWords } from "../words/campaign.ts";

/** `2026-09-14` -> `14 Sep`, `2026-09-17 13:42` -> `17 Sep 13:42`; a time of day alone stays. */
export const short = (moment: string): string => moment.replace(/^\d{4}-(\d\d)-(\d\d)/, (_, month: string, day: string) => campaignWords.date(Number(day), Number(month)));

/** px that such a date takes beneath an axis. */
export const DATE = 56;
