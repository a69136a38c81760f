-- Follow-ups are worked out from the log; only what the owner let go is kept, named as it is worked out.
CREATE TABLE dismissed_follow_ups (
    id TEXT PRIMARY KEY,
    work_id TEXT NOT NULL REFERENCES work(id) ON DELETE CASCADE,
    what TEXT NOT NULL,
    technique TEXT,
    created_at TEXT NOT NULL
);
CREATE INDEX dismissed_follow_ups_work ON dismissed_follow_ups(work_id);
