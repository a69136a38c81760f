-- What kind of fault the last error of a road is, with its values, as JSON: pages say it in the owner's language. Null: only its text is known.
ALTER TABLE roads ADD COLUMN last_error_kind TEXT;
