-- Windows of gardens that are gone: calendars must still be told that they are off.
CREATE TABLE former_windows (
    id TEXT PRIMARY KEY,
    account_id TEXT NOT NULL REFERENCES accounts(id) ON DELETE CASCADE,
    garden_id TEXT NOT NULL,
    body TEXT NOT NULL,
    growth_year INTEGER NOT NULL,
    sequence INTEGER NOT NULL,
    changed_at TEXT NOT NULL,
    withdrawn_at TEXT NOT NULL
);
CREATE INDEX former_windows_account ON former_windows(account_id);
