-- Written in the SQL that SQLite and PostgreSQL share. Ids and tokens are made by the application; dates are ISO 8601 text
-- (local dates yyyy-MM-dd, instants in UTC with a trailing Z), truth values are 0 or 1, lists and bags are JSON text.

CREATE TABLE accounts (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    created_at TEXT NOT NULL
);

CREATE TABLE access_keys (
    id TEXT PRIMARY KEY,
    account_id TEXT NOT NULL REFERENCES accounts(id) ON DELETE CASCADE,
    key_hash TEXT NOT NULL UNIQUE,
    label TEXT NOT NULL,
    created_at TEXT NOT NULL,
    last_used_at TEXT
);
CREATE INDEX access_keys_account ON access_keys(account_id);

CREATE TABLE cells (
    key TEXT PRIMARY KEY,
    latitude DOUBLE PRECISION NOT NULL,
    longitude DOUBLE PRECISION NOT NULL,
    elevation_m DOUBLE PRECISION,
    time_zone TEXT,
    utc_offset_hours INTEGER,
    wanted_from TEXT NOT NULL,
    filled_from TEXT,
    refreshed_at TEXT,
    finalized_at TEXT,
    fallback_expires_at TEXT,
    fallback_last_modified TEXT,
    last_error TEXT,
    archive_error TEXT
);

CREATE TABLE cell_days (
    cell_key TEXT NOT NULL REFERENCES cells(key) ON DELETE CASCADE,
    date TEXT NOT NULL,
    tmin_c DOUBLE PRECISION NOT NULL,
    tmax_c DOUBLE PRECISION NOT NULL,
    tmean_c DOUBLE PRECISION,
    precip_mm DOUBLE PRECISION,
    et0_mm DOUBLE PRECISION,
    gust_kmh DOUBLE PRECISION,
    kind TEXT NOT NULL,
    source TEXT NOT NULL,
    final INTEGER NOT NULL DEFAULT 0,
    fetched_at TEXT NOT NULL,
    PRIMARY KEY (cell_key, date)
);

CREATE TABLE call_budget (
    source TEXT NOT NULL,
    period TEXT NOT NULL,
    starts_at TEXT NOT NULL,
    weight DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (source, period)
);

CREATE TABLE gardens (
    id TEXT PRIMARY KEY,
    account_id TEXT NOT NULL REFERENCES accounts(id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    latitude DOUBLE PRECISION NOT NULL,
    longitude DOUBLE PRECISION NOT NULL,
    elevation_m DOUBLE PRECISION,
    time_zone TEXT,
    hardiness_zone TEXT,
    temperature_offset_c DOUBLE PRECISION,
    work_days TEXT NOT NULL DEFAULT '[]',
    first_frost_choice TEXT NOT NULL DEFAULT 'average',
    water_assured INTEGER,
    frost_free_shelter INTEGER,
    recorded INTEGER NOT NULL DEFAULT 0,
    cell_key TEXT,
    created_at TEXT NOT NULL,
    changed_at TEXT NOT NULL,
    planned_for TEXT,
    planned_at TEXT
);
CREATE INDEX gardens_account ON gardens(account_id);
CREATE INDEX gardens_cell ON gardens(cell_key);

CREATE TABLE readings (
    garden_id TEXT NOT NULL REFERENCES gardens(id) ON DELETE CASCADE,
    date TEXT NOT NULL,
    tmin_c DOUBLE PRECISION NOT NULL,
    tmax_c DOUBLE PRECISION NOT NULL,
    PRIMARY KEY (garden_id, date)
);

CREATE TABLE trees (
    id TEXT PRIMARY KEY,
    garden_id TEXT NOT NULL REFERENCES gardens(id) ON DELETE CASCADE,
    body TEXT NOT NULL,
    created_at TEXT NOT NULL,
    changed_at TEXT NOT NULL
);
CREATE INDEX trees_garden ON trees(garden_id);

CREATE TABLE work (
    id TEXT PRIMARY KEY,
    tree_id TEXT NOT NULL REFERENCES trees(id) ON DELETE CASCADE,
    date TEXT NOT NULL,
    body TEXT NOT NULL,
    created_at TEXT NOT NULL
);
CREATE INDEX work_tree ON work(tree_id, date);

-- What was seen on a tree, or (tree_id null) at the benches of a garden.
CREATE TABLE observations (
    id TEXT PRIMARY KEY,
    garden_id TEXT NOT NULL REFERENCES gardens(id) ON DELETE CASCADE,
    tree_id TEXT REFERENCES trees(id) ON DELETE CASCADE,
    date TEXT NOT NULL,
    body TEXT NOT NULL,
    created_at TEXT NOT NULL
);
CREATE INDEX observations_tree ON observations(tree_id, date);
CREATE INDEX observations_garden ON observations(garden_id, date);

-- A window outlives its tree: calendars must be told that it is off.
CREATE TABLE windows (
    id TEXT PRIMARY KEY,
    garden_id TEXT NOT NULL REFERENCES gardens(id) ON DELETE CASCADE,
    tree_id TEXT NOT NULL,
    technique TEXT NOT NULL,
    mode TEXT NOT NULL DEFAULT '',
    growth_year INTEGER NOT NULL,
    pass INTEGER NOT NULL,
    state TEXT NOT NULL,
    body TEXT NOT NULL,
    sequence INTEGER NOT NULL,
    changed_at TEXT NOT NULL,
    withdrawn_at TEXT,
    UNIQUE (tree_id, technique, mode, growth_year, pass)
);
CREATE INDEX windows_garden ON windows(garden_id);

CREATE TABLE feeds (
    id TEXT PRIMARY KEY,
    account_id TEXT NOT NULL REFERENCES accounts(id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    token_hash TEXT NOT NULL UNIQUE,
    token_sealed TEXT NOT NULL,
    garden_ids TEXT,
    techniques TEXT,
    content TEXT NOT NULL,
    reminders TEXT NOT NULL,
    created_at TEXT NOT NULL,
    changed_at TEXT NOT NULL,
    body BYTEA,
    etag TEXT,
    body_changed_at TEXT,
    last_fetched_at TEXT,
    last_fetched_by TEXT
);
CREATE INDEX feeds_account ON feeds(account_id);

CREATE TABLE answers (
    account_id TEXT NOT NULL,
    idempotency_key TEXT NOT NULL,
    request_hash TEXT NOT NULL,
    status INTEGER NOT NULL,
    location TEXT,
    body TEXT NOT NULL,
    created_at TEXT NOT NULL,
    PRIMARY KEY (account_id, idempotency_key)
);
