/** What a thread of a study does: one batch of days at a time. Run from the built file only. */
import { rehearseBatch, type Batch, type Days } from "../sim/study/work.ts";

export default (batch: Batch): Days => rehearseBatch(batch);
