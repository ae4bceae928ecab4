/**
 * The ladder: what goes first when several things happen at one instant.
 *
 * Events are taken in order of time, then of rank, then of scheduling. The ranks, from first to last:
 *
 *   interrupt   a process is struck before anything else it might do at this instant
 *   grant       a process gets what it waited for: units, an item, room, a signal
 *   hold        a process has held for the time it wanted, or has reached an absolute time
 *   start       a new process begins; so whatever is given back at this instant is there when a newcomer asks for it
 *   lapse       a limited wait runs out; whatever fires at this very instant still counts as in time
 *   observer    whoever only looks sees the instant as it is left
 *
 * One step may run on through several grants: a wait that can be granted at once, with nobody queued before it, does not go
 * through the list of events; the process continues in the same step. That breaks no rung of the ladder, because a grant to
 * a queued process is *made* at the moment that something is given back, not when the process resumes: what has been granted
 * cannot be taken by a process that happens to run in between.
 */
export const RANK = { interrupt: 0, grant: 1, hold: 2, start: 3, lapse: 4, observer: 5 } as const;

export type Rank = (typeof RANK)[keyof typeof RANK];

/** Rank and sequence are compared as one number, rank x 2^49 + sequence: exact for ranks up to 7 and 5.6e14 events. */
export const RANK_STEP = 2 ** 49;
