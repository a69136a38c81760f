-- How a feed gathers its events, how long they last, and the local time (HH:mm) at which they begin; null: events of whole days.
ALTER TABLE feeds ADD COLUMN gathered TEXT NOT NULL DEFAULT 'each';
ALTER TABLE feeds ADD COLUMN span TEXT NOT NULL DEFAULT 'window';
ALTER TABLE feeds ADD COLUMN begins_at TEXT;

-- Of whoever fetches a feed only the kind of calendar app is kept; the full names of earlier days go.
UPDATE feeds SET last_fetched_by = NULL;

-- What each feed has told of each event, so that identity, sequence and stamps hold whatever the settings and the plan do.
CREATE TABLE feed_events (
    feed_id TEXT NOT NULL REFERENCES feeds(id) ON DELETE CASCADE,
    id TEXT NOT NULL,
    body TEXT NOT NULL,
    sequence INTEGER NOT NULL,
    changed_at TEXT NOT NULL,
    cancelled_at TEXT,
    PRIMARY KEY (feed_id, id)
);
