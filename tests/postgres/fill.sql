-- Fills a shared store with :runs runs of twelve entries each, past its triggers: for measuring, not for auditing. What
-- a question asks for stays as much however many runs there are: 25 open runs, 20 with locks on, 30 sheets out, 20 runs
-- of an equipment and of a procedure, about 60 of a person; the runs are an hour apart.
SET session_replication_role = replica;

INSERT INTO lockwright.runs
SELECT 'run-' || lpad(n::text, 7, '0'), 'issued', false, NULL, NULL, md5('machine' || n % 50) || md5('digest' || n % 50),
  'P' || n / 20, lockwright.key_of('P' || n / 20), 2, 'E-' || n / 20, lockwright.key_of('E-' || n / 20),
  to_char(to_timestamp(1767225600 + n * 3600) AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS".000Z"'), (1767225600 + n * 3600)::bigint * 1000,
  'person-' || n * 7 % greatest(:runs / 20, 1),
  to_char(to_timestamp(1767225600 + n * 3600 + 1800) AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS".000Z"'), (1767225600 + n * 3600 + 1800)::bigint * 1000,
  12, sha256(('head' || n)::bytea), CASE WHEN n > :runs - 25 THEN 'running' ELSE 'finished' END
FROM generate_series(1, :runs) AS n;

INSERT INTO lockwright.entries
SELECT 'run-' || lpad(n::text, 7, '0'), seq,
  convert_to('{"at":"2026-03-02T09:00:00.000Z","by":"person-' || n || '","elapsed":' || seq * 60000 ||
    ',"event":{"acknowledged":[],"boxes":["' || md5(n::text || seq) || '","' || md5(seq::text || n) || '"],"kind":"done","state":"step-' || seq ||
    '"},"prev":"' || md5('prev' || n || seq) || md5('hash' || n || seq) || '","run":"run-' || lpad(n::text, 7, '0') || '","seq":' || seq ||
    ',"session":1,"state":"step-' || seq || '"}', 'UTF8')
FROM generate_series(1, :runs) AS n, generate_series(1, 12) AS seq;

INSERT INTO lockwright.run_people
SELECT lockwright.key_of('person-' || (n * 7 + k * 13) % greatest(:runs / 20, 1)), 'run-' || lpad(n::text, 7, '0')
FROM generate_series(1, :runs) AS n, generate_series(0, 2) AS k
ON CONFLICT DO NOTHING;

INSERT INTO lockwright.hung_locks (run, point, lock, person, since)
SELECT 'run-' || lpad(n::text, 7, '0'), point, '17', 'person-1', '2026-03-02T09:00:00.000Z'
FROM generate_series(:runs - 19, :runs) AS n, unnest(ARRAY['Q1', 'V2']) AS point;

INSERT INTO lockwright.documents (path, sha256, content)
SELECT 'sheets/' || lpad(n::text, 6, '0') || '-7K2-' || lpad(to_hex(n % 65536), 4, '0') || '.json', sha256(n::text::bytea), n::text::bytea
FROM generate_series(1, :runs) AS n;
INSERT INTO lockwright.documents (path, sha256, content)
SELECT 'attachments/' || encode(sha256(('photo' || n)::bytea), 'hex'), sha256(('photo' || n)::bytea), ('photo' || n)::bytea
FROM generate_series(1, :runs) AS n;
INSERT INTO lockwright.documents (path, sha256, content)
SELECT 'issued/' || encode(sha256(('machine' || n)::bytea), 'hex') || '.json', sha256(('machine' || n)::bytea), ('machine' || n)::bytea
FROM generate_series(1, 50) AS n;

INSERT INTO lockwright.sheets_out
SELECT path, substr(path, 15, 8) FROM lockwright.documents
WHERE path LIKE 'sheets/%' ORDER BY path DESC LIMIT 30;

INSERT INTO lockwright.leaves
SELECT n - 1, 'run-' || lpad(n::text, 7, '0'), ('leaf ' || n)::bytea FROM generate_series(1, :runs - 25) AS n;
INSERT INTO lockwright.nodes
SELECT level, n, sha256((level || '/' || n)::bytea)
FROM generate_series(0, 20) AS level, generate_series(0, ((:runs - 25) >> level) - 1) AS n;

SET session_replication_role = origin;
VACUUM ANALYZE lockwright.runs, lockwright.entries, lockwright.run_people, lockwright.hung_locks, lockwright.documents,
  lockwright.sheets_out, lockwright.leaves, lockwright.nodes;
