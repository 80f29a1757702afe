-- Who may do what. Give a login of yours one of the two: GRANT lockwright_runner TO tablet_1;
-- The roles belong to the whole server, so another database of it may have made them already.

DO $$
BEGIN
  IF NOT EXISTS (SELECT FROM pg_catalog.pg_roles WHERE rolname = 'lockwright_runner') THEN
    CREATE ROLE lockwright_runner NOLOGIN;
  END IF;
  IF NOT EXISTS (SELECT FROM pg_catalog.pg_roles WHERE rolname = 'lockwright_auditor') THEN
    CREATE ROLE lockwright_auditor NOLOGIN;
  END IF;
END $$;

REVOKE ALL ON SCHEMA lockwright FROM PUBLIC;
REVOKE ALL ON ALL TABLES IN SCHEMA lockwright FROM PUBLIC;
REVOKE ALL ON ALL FUNCTIONS IN SCHEMA lockwright FROM PUBLIC;

GRANT USAGE ON SCHEMA lockwright TO lockwright_runner, lockwright_auditor;
GRANT SELECT ON ALL TABLES IN SCHEMA lockwright TO lockwright_runner, lockwright_auditor;

-- Nothing but adding, and only what does not follow from something else.
GRANT INSERT ON lockwright.entries TO lockwright_runner;
GRANT INSERT (path, content) ON lockwright.documents TO lockwright_runner;
GRANT INSERT (name, serial, content) ON lockwright.signed TO lockwright_runner;
GRANT INSERT (run, line) ON lockwright.leaves TO lockwright_runner;
GRANT INSERT ON lockwright.checkpoints TO lockwright_runner;
