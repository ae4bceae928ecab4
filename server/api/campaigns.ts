/** Campaigns as the API gives them. The compiler holds the schema to the type that the engine fills. */
import { z } from "zod";
import type { WindowSide } from "../../sim/forage/window.ts";
import type { Campaigns, CampaignsSoFar, PlannedCampaigns, ToldDay, ToldStorage } from "../../sim/study/campaigns.ts";
import type { TriedStart, WhenToStart } from "../../sim/study/campaignstart.ts";

type Of<T> = z.ZodType<T>;

const share = z.number().min(0).max(1);
const SIDES = ["too wet", "inside", "too dry"] as const satisfies readonly WindowSide[];

const day = z.object({
  date: z.string(), farm: z.string(), lost: z.enum(["rain"]).nullable(),
  fields: z.array(z.object({ name: z.string(), freshT: z.number(), dryMatter: share, side: z.enum(SIDES) })),
  loads: z.number(), freshT: z.number(), dryT: z.number(), dryMatter: share.nullable(), density: z.number().nullable().describe("kg DM/m3 of what was laid that day"),
  closedAt: z.string().nullable(), cost: z.number().describe("What the farm spends on the work of that day."), storages: z.array(z.object({ name: z.string(), filled: z.number(), openFace: z.number().describe("m2") })), openFor: z.number().describe("h"),
}).meta({ id: "CampaignDay" }) satisfies Of<ToldDay>;

const storage = z.object({
  farm: z.string(), name: z.string(), filledOn: z.tuple([z.string(), z.string()]), freshT: z.number(), dryT: z.number(), dryMatter: share, window: z.tuple([share, share]),
  density: z.object({ mean: z.number(), band: z.tuple([z.number(), z.number()]) }), poreSpace: z.number().nullable(), effluent: z.number().describe("L"),
}).meta({ id: "CampaignStorage" }) satisfies Of<ToldStorage>;

const tried = z.object({ starts: z.string(), inside: share, tooWet: share, tooDry: share, endsInside: share, allIn: share, costPerDryTonne: z.number().nullable() }) satisfies Of<TriedStart>;
const whenToStart = z.object({ by: z.enum(["day", "time of day"]), best: tried, latest: tried.nullable(), tried: z.array(tried), inWords: z.string() }).meta({ id: "WhenToStart" }) satisfies Of<WhenToStart>;

const planned = {
  engine: z.string(), farms: z.array(z.object({ name: z.string(), hash: z.string(), crop: z.string() })), seed: z.number(), campaigns: z.number(), starts: z.string(),
  chance: z.object({ allIn: share, endsInside: share }), window: z.object({ inside: share, tooWet: share, tooDry: share }),
  finish: z.object({ early: z.string(), median: z.string(), late: z.string() }).nullable(), rainDays: z.number(),
  shown: z.object({ campaign: z.number(), days: z.array(day) }), storages: z.array(storage), notes: z.array(z.string()), assumptions: z.array(z.string()),
  cost: z.object({ currency: z.string(), mean: z.number(), low: z.number(), high: z.number(), perDryTonne: z.number() }).nullable().describe("Of the work of all days; 8 of 10 campaigns between low and high; null where the farms reckon in several currencies."),
} satisfies { readonly [Key in keyof PlannedCampaigns]: Of<PlannedCampaigns[Key]> };

/** What can be shown while starts are being tried. */
export const campaignsSoFar = z.object({ ...planned, tried: z.array(tried) }) satisfies Of<CampaignsSoFar>;

export const campaigns = z.object({ ...planned, whenToStart }).meta({ id: "Campaigns", description: "Several days while the crop dries, and when to start." }) satisfies Of<Campaigns>;
