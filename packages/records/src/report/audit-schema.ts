type Schema = Readonly<Record<string, unknown>>

const text: Schema = { type: 'string' }
const textOrNull: Schema = { type: ['string', 'null'] }
const count: Schema = { type: 'integer', minimum: 0 }
const time: Schema = { type: 'string', pattern: '^\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\d(\\.\\d+)?Z$' }
const timeOrNull: Schema = { anyOf: [time, { type: 'null' }] }
const day: Schema = { type: 'string', pattern: '^\\d{4}-\\d\\d-\\d\\d$' }
const truth: Schema = { type: 'boolean' }
const listOf = (items: Schema): Schema => ({ type: 'array', items })
const oneOf = (...values: readonly string[]): Schema => ({ enum: values })
const orNull = (schema: Schema): Schema => ({ anyOf: [schema, { type: 'null' }] })
const ref = (name: string): Schema => ({ $ref: `#/definitions/${name}` })

/** All members are required, and no other may stand there. */
const record = (properties: Readonly<Record<string, Schema>>, optional: readonly string[] = []): Schema => ({
  type: 'object',
  properties,
  required: Object.keys(properties).filter((name) => !optional.includes(name)),
  additionalProperties: false
})

const status = oneOf('running', 'paused', 'stopped', 'finished')
const mode = oneOf('issued', 'draft', 'rehearsal')

/** JSON Schema (draft 7) of what `audit --format json` prints. Published as `schema/audit.schema.json`. */
export const auditSchema: Schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  title: 'lockwright audit report, version 2',
  ...record({
    format: { const: 'lockwright-audit/2' },
    scope: oneOf('site', 'run'),
    asked: record({
      since: textOrNull,
      equipment: textOrNull,
      person: textOrNull,
      leftOut: listOf(record({ why: text, runs: count })),
      covered: orNull(record({ runs: count, checkpoint: text, kept: timeOrNull }))
    }),
    site: text,
    at: time,
    root: orNull(
      record({
        thumbprint: text,
        from: oneOf('auditor', 'site folder'),
        handedOver: listOf(record({ from: text, to: text, at: time }))
      })
    ),
    roster: orNull(record({ serial: count, signedAt: time, people: count })),
    general: listOf(ref('verdict')),
    runs: listOf(ref('run')),
    hanging: listOf(
      record({
        lock: text,
        point: text,
        device: textOrNull,
        by: text,
        since: timeOrNull,
        hours: { type: ['number', 'null'] },
        pastShift: truth,
        run: text,
        equipment: text,
        status: oneOf('running', 'paused', 'stopped', 'finished', 'not known'),
        from: oneOf('journal', 'log', 'kept')
      })
    ),
    takenOffLater: listOf(
      record({
        lock: text,
        point: text,
        by: text,
        since: timeOrNull,
        equipment: text,
        run: text,
        offIn: record({ run: text, seq: count, at: time })
      })
    ),
    open: listOf(
      record({
        run: text,
        procedure: text,
        equipment: text,
        status,
        openedAt: time,
        openedBy: text,
        lastAt: time,
        mode
      })
    ),
    inspections: listOf(
      record({
        procedure: text,
        revision: count,
        equipment: text,
        last: orNull(record({ on: day, by: text, file: text })),
        dueOn: day,
        counted: text,
        overdue: truth
      })
    ),
    sheets: listOf(
      record({
        serial: text,
        procedure: text,
        revision: count,
        printedAt: time,
        by: textOrNull,
        days: count,
        state: oneOf('out', 'partly-entered'),
        run: textOrNull
      })
    ),
    notAnswered: listOf(text),
    limits: listOf(text),
    caution: text
  }),
  definitions: {
    answer: oneOf('good', 'findings', 'cannot-tell'),
    finding: record({
      id: { type: 'string', pattern: '^[a-z0-9]+(-[a-z0-9]+)*$' },
      weight: oneOf('fault', 'doubt'),
      seq: { anyOf: [{ type: 'integer', minimum: 1 }, { type: 'null' }] },
      also: listOf({ type: 'integer', minimum: 1 }),
      where: text,
      file: text,
      what: text,
      danger: text,
      mend: text
    }),
    verdict: record({
      question: oneOf('whole', 'followed', 'fit', 'timely', 'due'),
      answer: ref('answer'),
      findings: listOf(ref('finding')),
      checked: listOf(text)
    }),
    run: record({
      run: text,
      file: text,
      summary: orNull(
        record(
          {
            run: text,
            file: text,
            mode,
            onPaper: truth,
            sheet: textOrNull,
            machine: { type: 'string', pattern: '^[0-9a-f]{64}$' },
            procedure: text,
            revision: count,
            equipment: text,
            openedAt: time,
            openedBy: text,
            lastAt: time,
            entries: count,
            status
          },
          ['sheet']
        )
      ),
      title: textOrNull,
      equipment: textOrNull,
      issue: orNull(record({ name: text, at: time, meaning: text, reason: textOrNull, later: truth })),
      locks: orNull(
        listOf(record({ lock: text, point: text, by: text, since: timeOrNull, asOf: { type: ['integer', 'null'] } }))
      ),
      waivers: listOf(record({ obligation: text, why: text, by: text })),
      answer: ref('answer'),
      verdicts: { type: 'array', items: ref('verdict'), minItems: 5, maxItems: 5 },
      waits: listOf(
        record({
          seq: count,
          title: text,
          source: textOrNull,
          needed: { type: 'number' },
          waited: { type: 'number' }
        })
      ),
      deviations: listOf(record({ seq: count, at: time, by: text, title: text, reason: text })),
      people: listOf(text),
      entries: listOf(
        record({
          seq: count,
          at: text,
          by: text,
          title: text,
          what: text,
          mark: text,
          signature: orNull(record({ name: text, at: text, meaning: text, good: truth }))
        })
      )
    })
  }
}
