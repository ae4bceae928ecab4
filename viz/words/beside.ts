/** Texts of the sheet "Side by side". */
import { spoken } from "../english.ts";

const WORDS = {
  title: "Side by side",
  lead: "All on the same luck: the same loads are heavy, the same trips slow. Under a figure stands what the model leaves open.",
  plan: "This plan",
  asOpened: "This plan as opened",
  choose: (place: number) => `Plan ${place}`,
  add: "Set another beside it",
  remove: (name: string) => `Take ${name} away`,
  away: "Take away",
  again: "Ask again",
  days: (days: number) => (days === 1 ? "one day" : `${days} days`),
  against: "against this plan",
  head: { measure: "Measure", unit: "Unit" },
  apart: { title: "What tells them apart", waits: "The pairs of days are being compared.", ask: "Compare day by day", notes: "To be read with it" },
  step: { title: "The days in step", over: "This day is over." },
  scale: {
    title: "To one scale",
    lead: "Across and lengthwise, all drawn with the same metre. What lies in it stands beside.",
    across: "across", along: "lengthwise",
    longAndHigh: (length: string, height: string) => `${length} long, ${height} high`,
    cover: "to cover", filled: "in it",
    picture: (name: string, form: string, width: string, length: string, height: string) => `${name}, a ${form}: ${width} wide, ${length} long, ${height} high.`,
    forms: { bunker: "bunker", pile: "pile" },
    head: ["Plan", "Storage", "Form", "Width", "Length", "Height", "To cover", "Dry matter in it"],
  },
} as const;

export const words = spoken(WORDS);
