-- What the owner should hear: never twice for one job, kind and due date.
CREATE TABLE notices (
    id TEXT PRIMARY KEY,
    garden_id TEXT NOT NULL REFERENCES gardens(id) ON DELETE CASCADE,
    window_id TEXT NOT NULL,
    kind TEXT NOT NULL,
    visit INTEGER NOT NULL,
    due TEXT NOT NULL,
    urgent INTEGER NOT NULL,
    raised_at TEXT NOT NULL,
    closed_at TEXT,
    UNIQUE (window_id, kind, visit, due)
);
CREATE INDEX notices_garden ON notices(garden_id);

-- The planning that a garden's notices follow; one that differs from the garden's last planning is caught up with.
CREATE TABLE notice_turns (
    garden_id TEXT PRIMARY KEY REFERENCES gardens(id) ON DELETE CASCADE,
    planned_at TEXT NOT NULL
);

-- Ways to the owner other than feeds. Address, subscription and secret are sealed; tokens of links are kept as hashes.
CREATE TABLE roads (
    id TEXT PRIMARY KEY,
    account_id TEXT NOT NULL REFERENCES accounts(id) ON DELETE CASCADE,
    kind TEXT NOT NULL,
    state TEXT NOT NULL,
    settings TEXT NOT NULL,
    target_sealed TEXT NOT NULL,
    confirm_hash TEXT UNIQUE,
    confirm_until TEXT,
    leave_hash TEXT UNIQUE,
    digest_on TEXT,
    failures INTEGER NOT NULL DEFAULT 0,
    wait_until TEXT,
    last_sent_at TEXT,
    last_error TEXT,
    last_error_at TEXT,
    claim TEXT,
    claimed_until TEXT,
    on_since TEXT,
    created_at TEXT NOT NULL
);
CREATE INDEX roads_account ON roads(account_id);

CREATE TABLE deliveries (
    road_id TEXT NOT NULL REFERENCES roads(id) ON DELETE CASCADE,
    notice_id TEXT NOT NULL REFERENCES notices(id) ON DELETE CASCADE,
    state TEXT NOT NULL,
    attempts INTEGER NOT NULL DEFAULT 0,
    error TEXT,
    sent_at TEXT,
    PRIMARY KEY (road_id, notice_id)
);
CREATE INDEX deliveries_notice ON deliveries(notice_id);
