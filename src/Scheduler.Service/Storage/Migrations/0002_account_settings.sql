-- The account's choices where practice disagrees, JSON text: choice by the name of the point.
ALTER TABLE accounts ADD COLUMN settings TEXT NOT NULL DEFAULT '{}';
