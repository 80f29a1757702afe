import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock } from '../../fixtures/memory-run.js'
import { stepLines } from '../../fixtures/plain-run.js'
import { pumpLines } from '../../fixtures/pump-lines.js'
import { provedFixture, pumpMachine } from '../../fixtures/pump-machine.js'

/** The first lines up to, and without, this one. */
const upTo = (line: string): readonly string[] => pumpLines.slice(0, pumpLines.indexOf(line))

describe('stepInPlainLines', () => {
  it('steps a whole run on a pipe', async () => {
    const { run, out, ended } = await stepLines(pumpLines)
    expect(ended).toBe('finished')
    expect(run.snapshot.status).toBe('finished')
    expect(run.snapshot.locks).toEqual([])
    expect(out.at(-1)).toBe('Finished: the equipment is returned to service.')
    expect(out).toContain('The seal has failed.')
    expect(
      run.events.filter(({ kind }) => kind === 'reading').map((event) => event.kind === 'reading' && event.value)
    ).toEqual([0, 0.4, 0, 3, 2, 12, 0, 4.2])
  })

  it('keeps to the order of the screen: the notice alone, then the step, then what is asked', async () => {
    const { out } = await stepLines(upTo('start'))
    const notice = out.findIndex((line) => line.startsWith('DANGER: Stored charge'))
    const step = out.findIndex((line) => line.startsWith('Open the drain cock'))
    expect(notice).toBeGreaterThan(0)
    expect(step).toBeGreaterThan(notice)
    expect(out.slice(notice, step).filter((line) => line.includes('type '))).toEqual([
      expect.stringContaining('or read')
    ])
    expect(out.at(-3)).toBe("Wait 5 min (as the equipment's label says).")
  })

  it('says how every source stands, in words', async () => {
    const { out } = await stepLines(upTo('clear'))
    const sources = out.filter((line) => line.startsWith('Sources: '))
    expect(sources).toEqual([
      'Sources: mains on; link on; water on',
      'Sources: mains locked; link holds energy (locked); water holds energy (locked)',
      'Sources: mains locked; link released; water released'
    ])
    expect(out).toContain('Locks: Q1: lock 17 of m.vega; V1: lock 18 of m.vega')
  })

  it('stands open exactly where it was when no more is typed', async () => {
    const { run, out, ended } = await stepLines(upTo('released'))
    expect(ended).toBe('input-ended')
    expect(run.snapshot.state).toBe('relieve')
    expect(out.at(-1)).toBe(
      'No more was typed. The run stays open and goes on exactly here. ' +
        'Still hanging: 17 of m.vega on Q1, 18 of m.vega on V1.'
    )
  })

  it('goes on from the journal after a crash anywhere, and asks for the locks first', async () => {
    for (let cut = 1; cut < pumpLines.length; cut++) {
      const clock = standingClock()
      const first = await stepLines(pumpLines.slice(0, cut), { clock })
      const again = memoryRun(pumpMachine, clock.now, { events: first.run.events })
      expect(again.snapshot).toEqual(first.run.snapshot)
      const { out, run } = await stepLines([first.run.snapshot.locks.length > 0 ? 'locks on' : 'go on', 'whole'], {
        run: again,
        clock,
        takenUp: true
      })
      expect(out.some((line) => line.startsWith('The run was interrupted.'))).toBe(true)
      expect(run.events.at(-1)).toMatchObject({ kind: 'resumed', locksOn: first.run.snapshot.locks.length > 0 })
      expect(run.snapshot.state).toBe(first.run.snapshot.state)
    }
  })

  it('lets a wait go on by the wall clock while nobody is there', async () => {
    const clock = standingClock()
    const first = await stepLines([...upTo('released'), 'leave'], {
      clock,
      duringWaits: 'listen',
      sleepUntil: () => new Promise(() => {})
    })
    expect(first.ended).toBe('left')
    clock.pass(240)
    const again = memoryRun(pumpMachine, clock.now, { events: first.run.events })
    const late = await stepLines(['locks on', 'read', 'released'], { run: again, clock, takenUp: true })
    const started = late.run.events.find(({ kind }) => kind === 'wait-started')
    const over = late.run.events.find(({ kind }) => kind === 'wait-over')
    expect(Date.parse(over?.at ?? '') - Date.parse(started?.at ?? '')).toBe(300_000)
    expect(late.run.snapshot.state).toBe('away')
  })

  it('does not let a wait be skipped, but a note can be made meanwhile', async () => {
    const { run, out } = await stepLines([...upTo('released'), 'released', 'note cock is stiff', ''], {
      duringWaits: 'listen',
      sleepUntil: () => new Promise(() => {})
    })
    expect(out).toContain('The wait is not over.')
    expect(run.events.at(-1)).toMatchObject({ kind: 'note', text: 'cock is stiff' })
    expect(run.snapshot.state).toBe('relieve')
  })

  it('takes the late branch by the clock where a step is not done in time', async () => {
    const { run, out } = await stepLines(upTo('4,2 bar'), {})
    expect(run.snapshot.state).toBe('flow')
    expect(out.some((line) => /^To be done by \d\d:\d\d:\d\d: (2 min|1 min \d+ s) to go$/.test(line))).toBe(true)
    const clock = standingClock(run.snapshot.at)
    const again = memoryRun(pumpMachine, clock.now, { events: run.events })
    clock.pass(121)
    const late = await stepLines(['stopped'], { run: again, clock, sleepUntil: async () => {} })
    expect(late.out).toContain('The time ran out.')
    expect(late.ended).toBe('stopped')
  })

  it('proves again what was proven, after a pause behind the proof', async () => {
    const clock = standingClock()
    const first = await stepLines([...upTo('1 2').slice(0, -2), 'pause end of shift'], { clock })
    expect(first.ended).toBe('paused')
    const again = memoryRun(pumpMachine, clock.now, { events: first.run.events })
    const { out, run } = await stepLines(['locks on', '0 V', '60 V', 'V1 was not shut', '1 V', '0 bar', '1'], {
      run: again,
      clock,
      takenUp: true
    })
    expect(out.filter((line) => line.startsWith('Prove again that '))).toHaveLength(4)
    expect(out).toContain('Not taken: The reading of link is 60 V: it is not dead any more.')
    expect(run.events.filter(({ kind }) => kind === 'note')).toMatchObject([
      { text: 'On proving again, link: P to M read 60 V; out of limits' },
      { text: 'Why link: P to M read 60 V: V1 was not shut' }
    ])
    expect(run.snapshot.recheck).toEqual([])
  })

  it('stops by hand, and where that is not safe yet asks in what condition the machine is left', async () => {
    const opened = await stepLines([...upTo('18'), 'stop the seal does not fit'])
    expect(opened.ended).toBe('stopped')
    const clock = standingClock()
    const unsafe = provedFixture('pump.md')
    const run = memoryRun(unsafe, clock.now)
    const { ended, run: stopped } = await stepLines(['stop', '', 'stop', 'no spare part'], { run, clock })
    expect(ended).toBe('stopped')
    expect(stopped.events.at(-1)).toMatchObject({ kind: 'stopped', reason: 'no spare part' })
  })

  it('sends nothing raw to the terminal, whatever the procedure, a name or a note holds', async () => {
    const title = 'Replace\u202e the \u001b]0;shaft\u0007 seal'
    const states = pumpMachine.states.map((state) => ({ ...state, title: `${state.title}\u001b[2J` }))
    const hostile = { ...pumpMachine, title, states }
    const clock = standingClock()
    const run = memoryRun(hostile, clock.now)
    const { out } = await stepLines(['note \u001b[2Jx\u202ey', 'join \u001b]0;x', '\u001b[31m4'], { run, clock })
    for (const line of out) expect(line).not.toMatch(/[\p{Cc}\u200b\u2028-\u202e\u2066-\u2069]/u)
    expect(out[0]).toContain('<U+202E>')
  })
})
