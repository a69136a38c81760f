-- Days that differ from the usual week, JSON text.
ALTER TABLE gardens ADD COLUMN exceptions TEXT NOT NULL DEFAULT '[]';

-- The owner's days as they were last planned: kept so that the next plan changes only what it must.
CREATE TABLE plans (
    garden_id TEXT PRIMARY KEY REFERENCES gardens(id) ON DELETE CASCADE,
    body TEXT NOT NULL,
    made_for TEXT NOT NULL,
    changed_at TEXT NOT NULL
);
