-- Identities of an OpenID Connect provider, and the access keys that stand for sign-ins through them. Nobody holds such a key; revoking
-- it ends the sign-in, and taking the identity away ends them all.
CREATE TABLE sign_ins (
    id TEXT PRIMARY KEY,
    issuer TEXT NOT NULL,
    subject TEXT NOT NULL,
    account_id TEXT NOT NULL REFERENCES accounts(id) ON DELETE CASCADE,
    created_at TEXT NOT NULL,
    UNIQUE (issuer, subject)
);
CREATE INDEX sign_ins_account ON sign_ins(account_id);

ALTER TABLE access_keys ADD COLUMN sign_in_id TEXT REFERENCES sign_ins(id) ON DELETE CASCADE;
