-- How the owner reads pages, kept with the account: units (metric, imperial) and language. Null: not chosen, the browser decides.
ALTER TABLE accounts ADD COLUMN units TEXT;
ALTER TABLE accounts ADD COLUMN language TEXT;
