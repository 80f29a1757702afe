-- What the runners write. Each of these tables is only ever added to.

CREATE TABLE lockwright.entries (
  run text COLLATE "C" NOT NULL CHECK (run ~ '^[a-z0-9][a-z0-9-]{0,79}$'),
  seq integer NOT NULL CHECK (seq >= 1),
  -- The line of the journal, without its line feed, byte for byte.
  line bytea NOT NULL CHECK (octet_length(line) <= 1048576 AND position('\x0a'::bytea IN line) = 0),
  PRIMARY KEY (run, seq)
);

CREATE TABLE lockwright.documents (
  path text COLLATE "C" PRIMARY KEY
    CHECK (path ~ '^(issued|drafts|attachments|sheets|inspections|runs)/[A-Za-z0-9][A-Za-z0-9_.-]{0,126}$'),
  sha256 bytea NOT NULL,
  content bytea NOT NULL,
  -- Where a document is named by its SHA-256, nothing else can take its place.
  CHECK (path !~ '^(drafts|attachments)/|^issued/.*\.json$'
    OR encode(sha256, 'hex') = coalesce(substring(path FROM '/([0-9a-f]{64})(\.json)?$'), '')),
  taken_at timestamptz NOT NULL DEFAULT now()
);

-- people.yaml and instruments.yaml: every one that ever held, the highest number holds now.
CREATE TABLE lockwright.signed (
  name text COLLATE "C" NOT NULL CHECK (name IN ('people.yaml', 'instruments.yaml')),
  serial bigint NOT NULL CHECK (serial >= 1),
  content bytea NOT NULL,
  taken_at timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (name, serial)
);

-- The site log: its leaves in the order in which they came in, and the hash of every whole subtree (RFC 9162, 2.1.1).
CREATE TABLE lockwright.leaves (
  index bigint PRIMARY KEY CHECK (index >= 0),
  run text COLLATE "C" NOT NULL UNIQUE,
  line bytea NOT NULL
);

CREATE TABLE lockwright.nodes (
  level integer NOT NULL,
  index bigint NOT NULL,
  hash bytea NOT NULL,
  PRIMARY KEY (level, index)
);

CREATE TABLE lockwright.checkpoints (
  size bigint PRIMARY KEY CHECK (size >= 0),
  note bytea NOT NULL
);

-- What follows from the entries, so that lists of runs need not read all of them. Written by the triggers alone.

CREATE TABLE lockwright.runs (
  run text COLLATE "C" PRIMARY KEY,
  mode text NOT NULL,
  on_paper boolean NOT NULL,
  -- Serial number of the printed sheet that the run was entered from.
  sheet text,
  sheet_key bytea,
  machine text NOT NULL,
  procedure text NOT NULL,
  procedure_key bytea NOT NULL,
  revision bigint NOT NULL,
  equipment text NOT NULL,
  equipment_key bytea NOT NULL,
  opened_at text NOT NULL,
  opened_ms bigint NOT NULL,
  opened_by text NOT NULL,
  last_at text NOT NULL,
  last_ms bigint NOT NULL,
  entries integer NOT NULL,
  -- SHA-256 of the last line.
  head bytea NOT NULL,
  status text NOT NULL CHECK (status IN ('running', 'paused', 'stopped', 'finished'))
);

CREATE INDEX runs_by_opening ON lockwright.runs (opened_ms DESC, run);
CREATE INDEX runs_by_last ON lockwright.runs (last_ms);
CREATE INDEX runs_open ON lockwright.runs (opened_ms DESC, run) WHERE status IN ('running', 'paused');
CREATE INDEX runs_by_equipment ON lockwright.runs (equipment_key, opened_ms DESC, run);
CREATE INDEX runs_by_sheet ON lockwright.runs (sheet_key) WHERE sheet_key IS NOT NULL;
CREATE INDEX runs_by_procedure ON lockwright.runs (procedure_key, opened_ms DESC, run);

-- A person's id can be as long as a text of an entry, which no index takes; its SHA-256 stands for it.
CREATE TABLE lockwright.run_people (
  person_key bytea NOT NULL,
  run text COLLATE "C" NOT NULL,
  PRIMARY KEY (person_key, run)
);

CREATE TABLE lockwright.hung_locks (
  place bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  run text COLLATE "C" NOT NULL,
  point text NOT NULL,
  lock text NOT NULL,
  person text NOT NULL,
  since text NOT NULL
);

CREATE INDEX hung_locks_by_run ON lockwright.hung_locks (run, place);

-- Printed sheets that no run was entered from and that are not void.
CREATE TABLE lockwright.sheets_out (
  path text COLLATE "C" PRIMARY KEY,
  serial text COLLATE "C" NOT NULL
);

CREATE INDEX sheets_out_by_serial ON lockwright.sheets_out (serial);

CREATE TABLE lockwright.void_sheets (
  serial text COLLATE "C" PRIMARY KEY
);

-- A text of this database cannot hold U+0000. In the tables that follow from the entries it is written U+F8FF 0, and
-- U+F8FF itself U+F8FF F; the entries hold their bytes as they came.
CREATE FUNCTION lockwright.read_json(line bytea) RETURNS jsonb
  LANGUAGE plpgsql IMMUTABLE SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  content text := convert_from(line, 'UTF8');
BEGIN
  IF strpos(content, '\u0000') > 0 OR strpos(content, U&'\F8FF') > 0 THEN
    -- First every backslash that stands for itself, so that what is left before `u0000` is an escape.
    content := replace(content, '\\', '\u005c');
    content := replace(content, U&'\F8FF', U&'\F8FF' || 'F');
    content := replace(content, '\u0000', U&'\F8FF' || '0');
  END IF;
  RETURN content::jsonb;
END $$;

CREATE FUNCTION lockwright.key_of(content text) RETURNS bytea
  LANGUAGE sql IMMUTABLE SET search_path = pg_catalog, pg_temp AS $$ SELECT sha256(convert_to(content, 'UTF8')) $$;

-- Milliseconds since 1970 of a time in RFC 3339, UTC. The year 0000 is none in this database: 400 years are 146,097 days.
CREATE FUNCTION lockwright.milliseconds(at text) RETURNS bigint
  LANGUAGE sql STABLE SET search_path = pg_catalog, pg_temp AS $$
  SELECT (extract(epoch FROM (
      CASE WHEN at LIKE '0000%' THEN '0400' || substr(at, 5, 15) ELSE substr(at, 1, 19) END || 'Z')::timestamptz) * 1000)::bigint
    + rpad(coalesce(substring(at FROM '\.(\d{1,3})'), ''), 3, '0')::bigint
    - CASE WHEN at LIKE '0000%' THEN 146097::bigint * 86400000 ELSE 0 END
$$;

-- Takes one entry: only the next of its run, chained to the one before; and writes down what follows from it.
CREATE FUNCTION lockwright.take_entry() RETURNS trigger
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  standing lockwright.runs;
  entry jsonb;
  event jsonb;
  opens jsonb;
  kind text;
  doer text;
  new_status text;
BEGIN
  PERFORM pg_advisory_xact_lock(20260302, hashtext(NEW.run));
  SELECT * INTO standing FROM lockwright.runs WHERE run = NEW.run;
  IF NEW.seq <> coalesce(standing.entries, 0) + 1 THEN
    RAISE EXCEPTION 'Line % of run % cannot be added: the next line is %.', NEW.seq, NEW.run, coalesce(standing.entries, 0) + 1
      USING ERRCODE = 'LW001';
  END IF;
  entry := lockwright.read_json(NEW.line);
  event := entry -> 'event';
  opens := entry -> 'opens';
  kind := event ->> 'kind';
  doer := entry ->> 'by';
  IF entry ->> 'run' IS DISTINCT FROM NEW.run OR entry -> 'seq' IS DISTINCT FROM to_jsonb(NEW.seq)
    OR entry ->> 'prev' IS DISTINCT FROM coalesce(encode(standing.head, 'hex'), opens ->> 'machine')
    OR (opens IS NOT NULL) IS DISTINCT FROM (NEW.seq = 1) OR (kind = 'opened') IS DISTINCT FROM (NEW.seq = 1) THEN
    RAISE EXCEPTION 'Line % of run % does not follow from the line before it.', NEW.seq, NEW.run USING ERRCODE = 'LW002';
  END IF;

  IF NEW.seq = 1 THEN
    INSERT INTO lockwright.runs VALUES (
      NEW.run, event ->> 'mode', event ? 'onPaper', event -> 'onPaper' ->> 'sheet',
      lockwright.key_of(event -> 'onPaper' ->> 'sheet'), opens ->> 'machine',
      opens ->> 'procedure', lockwright.key_of(opens ->> 'procedure'), (opens ->> 'revision')::bigint,
      opens ->> 'equipment', lockwright.key_of(opens ->> 'equipment'),
      entry ->> 'at', lockwright.milliseconds(entry ->> 'at'), doer,
      entry ->> 'at', lockwright.milliseconds(entry ->> 'at'), 1, sha256(NEW.line), 'running');
    IF event -> 'onPaper' ? 'sheet' THEN
      PERFORM pg_advisory_xact_lock(20260302, hashtext('/sheets'));
      DELETE FROM lockwright.sheets_out WHERE serial = event -> 'onPaper' ->> 'sheet';
    END IF;
  ELSE
    new_status := CASE
      WHEN kind IN ('finished', 'stopped', 'paused') THEN kind
      WHEN kind = 'resumed' THEN 'running'
      ELSE standing.status END;
    UPDATE lockwright.runs SET last_at = entry ->> 'at', last_ms = lockwright.milliseconds(entry ->> 'at'),
      entries = NEW.seq, head = sha256(NEW.line), status = new_status WHERE run = NEW.run;
  END IF;
  INSERT INTO lockwright.run_people
    SELECT DISTINCT lockwright.key_of(who), NEW.run
    FROM unnest(ARRAY[doer, entry -> 'signature' ->> 'by']) AS who WHERE who IS NOT NULL
    ON CONFLICT DO NOTHING;

  IF coalesce(standing.mode, '') <> 'rehearsal' THEN
    IF kind = 'lock-hung' THEN
      INSERT INTO lockwright.hung_locks (run, point, lock, person, since)
        VALUES (NEW.run, event ->> 'point', event ->> 'lock', doer, entry ->> 'at');
    ELSIF kind IN ('joined', 'handed-over') THEN
      INSERT INTO lockwright.hung_locks (run, point, lock, person, since)
        SELECT NEW.run, one ->> 'point', one ->> 'lock', coalesce(event ->> 'to', doer), entry ->> 'at'
        FROM jsonb_array_elements(event -> 'locks') WITH ORDINALITY AS list (one, n) ORDER BY n;
    ELSIF kind = 'lock-removed' THEN
      DELETE FROM lockwright.hung_locks
        WHERE run = NEW.run AND person = event ->> 'owner' AND point = event ->> 'point';
    END IF;
    IF kind IN ('left', 'handed-over') THEN
      DELETE FROM lockwright.hung_locks WHERE run = NEW.run AND person = doer;
    END IF;
  END IF;
  RETURN NEW;
END $$;

CREATE TRIGGER take_entry BEFORE INSERT ON lockwright.entries
  FOR EACH ROW EXECUTE FUNCTION lockwright.take_entry();

CREATE FUNCTION lockwright.take_document() RETURNS trigger
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  -- `sheets/000012-7K2-M4QX.json`, or `.void.json` where it was declared void.
  name text[] := regexp_match(NEW.path, '^sheets/\d{6,15}-([0-9A-Z]{3}-[0-9A-Z]{4})(\.void)?\.json$');
BEGIN
  NEW.sha256 := sha256(NEW.content);
  NEW.taken_at := now();
  IF name IS NOT NULL AND NOT EXISTS (SELECT FROM lockwright.documents WHERE path = NEW.path) THEN
    PERFORM pg_advisory_xact_lock(20260302, hashtext('/sheets'));
    IF name[2] IS NOT NULL THEN
      INSERT INTO lockwright.void_sheets VALUES (name[1]) ON CONFLICT DO NOTHING;
      DELETE FROM lockwright.sheets_out WHERE serial = name[1];
    ELSIF NOT EXISTS (SELECT FROM lockwright.void_sheets WHERE serial = name[1])
      AND NOT EXISTS (SELECT FROM lockwright.runs WHERE sheet_key = lockwright.key_of(name[1])) THEN
      INSERT INTO lockwright.sheets_out VALUES (NEW.path, name[1]) ON CONFLICT DO NOTHING;
    END IF;
  END IF;
  RETURN NEW;
END $$;

CREATE TRIGGER take_document BEFORE INSERT ON lockwright.documents
  FOR EACH ROW EXECUTE FUNCTION lockwright.take_document();

CREATE FUNCTION lockwright.take_signed() RETURNS trigger
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  PERFORM pg_advisory_xact_lock(20260302, hashtext('/signed'));
  IF EXISTS (SELECT FROM lockwright.signed WHERE name = NEW.name AND serial >= NEW.serial) THEN
    RAISE EXCEPTION 'A later %, or another of number %, holds already.', NEW.name, NEW.serial USING ERRCODE = 'LW003';
  END IF;
  NEW.taken_at := now();
  RETURN NEW;
END $$;

CREATE TRIGGER take_signed BEFORE INSERT ON lockwright.signed
  FOR EACH ROW EXECUTE FUNCTION lockwright.take_signed();

-- Takes one leaf: gives it the next number, under a lock that is held to the end of the transaction, so that whoever
-- sees a number sees all before it; and only if its journal stands here to the line that it names.
CREATE FUNCTION lockwright.take_leaf() RETURNS trigger
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  leaf jsonb := lockwright.read_json(NEW.line);
  at_level integer := 0;
  at_index bigint;
  hash_here bytea := sha256('\x00'::bytea || NEW.line);
  hash_left bytea;
BEGIN
  PERFORM pg_advisory_xact_lock(20260302, hashtext('/log'));
  SELECT coalesce(max(index) + 1, 0) INTO NEW.index FROM lockwright.leaves;
  IF leaf ->> 'run' IS DISTINCT FROM NEW.run OR NOT EXISTS (
    SELECT FROM lockwright.entries
    WHERE run = NEW.run AND seq = (leaf ->> 'entries')::integer AND encode(sha256(line), 'hex') = leaf ->> 'head'
  ) THEN
    RAISE EXCEPTION 'The journal of run % does not stand here as the leaf has it.', NEW.run USING ERRCODE = 'LW004';
  END IF;
  at_index := NEW.index;
  INSERT INTO lockwright.nodes VALUES (0, at_index, hash_here);
  WHILE at_index % 2 = 1 LOOP
    SELECT hash INTO STRICT hash_left FROM lockwright.nodes WHERE level = at_level AND index = at_index - 1;
    hash_here := sha256('\x01'::bytea || hash_left || hash_here);
    at_index := at_index / 2;
    at_level := at_level + 1;
    INSERT INTO lockwright.nodes VALUES (at_level, at_index, hash_here);
  END LOOP;
  RETURN NEW;
END $$;

CREATE TRIGGER take_leaf BEFORE INSERT ON lockwright.leaves
  FOR EACH ROW EXECUTE FUNCTION lockwright.take_leaf();

-- Not even the owner changes or removes a record by accident. No grant and no trigger stops one who means to: what
-- that would change, the chain of the journal, the signatures and a kept checkpoint show.
CREATE FUNCTION lockwright.refuse_change() RETURNS trigger
  LANGUAGE plpgsql SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  RAISE EXCEPTION '% of % is refused: records are only added to.', TG_OP, TG_TABLE_NAME USING ERRCODE = 'LW005';
END $$;

CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON lockwright.entries
  FOR EACH STATEMENT EXECUTE FUNCTION lockwright.refuse_change();
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON lockwright.documents
  FOR EACH STATEMENT EXECUTE FUNCTION lockwright.refuse_change();
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON lockwright.signed
  FOR EACH STATEMENT EXECUTE FUNCTION lockwright.refuse_change();
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON lockwright.leaves
  FOR EACH STATEMENT EXECUTE FUNCTION lockwright.refuse_change();
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON lockwright.nodes
  FOR EACH STATEMENT EXECUTE FUNCTION lockwright.refuse_change();
CREATE TRIGGER refuse_change BEFORE UPDATE OR DELETE OR TRUNCATE ON lockwright.checkpoints
  FOR EACH STATEMENT EXECUTE FUNCTION lockwright.refuse_change();
