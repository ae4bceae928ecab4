/** The tables, step by step: a database of version n has the first n steps behind it. A step that was ever released is never changed. */

export const MIGRATIONS: readonly string[] = [
  `
  -- A scenario that is kept. latest: number of its newest revision.
  CREATE TABLE scenario (
    id TEXT PRIMARY KEY,
    latest INTEGER NOT NULL CHECK (latest > 0)
  ) STRICT;

  -- What it was each time it was saved, as written. A revision without text says that it was taken away then.
  CREATE TABLE revision (
    scenario TEXT NOT NULL REFERENCES scenario (id),
    number INTEGER NOT NULL CHECK (number > 0),
    saved_at INTEGER NOT NULL,
    form TEXT NOT NULL CHECK (form IN ('json', 'yaml')),
    name TEXT NOT NULL,
    hash TEXT NOT NULL,
    text TEXT,
    PRIMARY KEY (scenario, number)
  ) STRICT;

  -- Answers under the hash of their question: a rehearsal's findings and log, a study's result. Deflated. turn: when last used, in order.
  CREATE TABLE answer (
    kind TEXT NOT NULL CHECK (kind IN ('rehearsal', 'study')),
    id TEXT NOT NULL,
    turn INTEGER NOT NULL,
    bytes INTEGER NOT NULL CHECK (bytes >= 0),
    body BLOB NOT NULL,
    log BLOB,
    PRIMARY KEY (kind, id)
  ) STRICT;
  CREATE INDEX answer_by_turn ON answer (turn, bytes);
  `,
  `
  -- What a rehearsal was asked by: its day is told from that, and log is written no more.
  ALTER TABLE answer ADD COLUMN question BLOB;
  `,
];
