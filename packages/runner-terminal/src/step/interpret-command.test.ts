import { describe, expect, it } from 'vitest'
import { memoryRun, standingClock, vega } from '../../fixtures/memory-run.js'
import { pumpMachine } from '../../fixtures/pump-machine.js'
import { eventsOf, ringOf, sessionAt } from '../../fixtures/session-at.js'
import { openSession } from '../session/session.js'

describe('a command', () => {
  it('lets a step be done differently with a signature, but nothing that guards energies', () => {
    const session = sessionAt('told', ringOf('m.vega'))
    session.answer('deviate')
    session.answer('the control room was told by mail')
    expect(session.screen()).toMatchObject({
      secret: true,
      question: 'Passphrase of m.vega, who signs that this step was done differently'
    })
    session.answer('')
    expect(session.question()).toBeNull()
    expect(session.run.snapshot.state).toBe('tell')
    session.answer('deviate the control room was told by mail')
    session.answer('right horse')
    expect(eventsOf(session).at(-1)).toMatchObject({
      kind: 'deviation',
      role: 'qualified',
      reason: 'the control room was told by mail'
    })
    expect(session.run).toMatchObject({ signedBy: ['m.vega'] })
    expect(session.run.snapshot.state).toBe('halt')
    const gate = sessionAt('17', ringOf('m.vega'))
    expect(gate.answer('deviate no lock at hand').said[0]).toContain('cannot be done differently')
    expect(gate.question()).toBeNull()
  })

  it('asks who directs it and the three conditions before the lock of somebody who is away comes off', () => {
    const session = sessionAt('18')
    session.answer('as p.lind')
    expect(session.answer('absent').refused).toBe(false)
    expect(session.screen().question).toContain('Who directs it?')
    expect(session.answer('the shift lead').refused).toBe(true)
    session.answer('birk')
    const asked: string[] = []
    for (const line of ['the gate log shows him out', 'called twice', 'a note at the gate']) {
      asked.push(session.screen().question)
      expect(session.run.snapshot.locks).toHaveLength(2)
      session.answer(line)
    }
    expect(asked.map((question) => question.includes('m.vega'))).toEqual([true, true, true])
    expect(eventsOf(session).at(-1)).toMatchObject({
      kind: 'lock-removed',
      owner: 'm.vega',
      by: 'p.lind',
      absent: {
        verifiedAway: 'the gate log shows him out',
        triedToReach: 'called twice',
        toldBeforeReturn: 'a note at the gate',
        directedBy: 'birk'
      }
    })
    expect(session.run.snapshot.locks).toHaveLength(1)
    expect(session.answer('record').page?.lines[0]).toContain(
      'lock removed, V1, m.vega, directed by birk, the gate log shows him out, called twice, a note at the gate'
    )
  })

  it('takes the lock of nobody off while a condition is not answered, and no lock of one’s own that way', () => {
    const session = sessionAt('18')
    expect(session.answer('absent').refused).toBe(true)
    session.answer('as p.lind')
    session.answer('absent')
    session.answer('birk')
    session.answer('the gate log shows him out')
    session.answer('')
    expect(session.question()).toBeNull()
    expect(session.run.snapshot.locks).toHaveLength(2)
  })

  it('keeps a file with the record', () => {
    const clock = standingClock()
    const run = memoryRun(pumpMachine, clock.now)
    const sha256 = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'
    const attach = (path: string) =>
      path === 'seal 1.jpg'
        ? { ok: true as const, name: path, sha256 }
        : { ok: false as const, why: `There is no file ${path}.`, mend: '' }
    const session = openSession(run, { person: vega, keys: null, now: clock.now, takenUp: false, attach })
    expect(session.answer('attach').refused).toBe(true)
    expect(session.answer('attach none.jpg')).toMatchObject({ refused: true, said: ['There is no file none.jpg.'] })
    expect(session.answer('attach "seal 1.jpg"').said).toEqual(['Kept with the record: seal 1.jpg'])
    expect(run.events.at(-1)).toMatchObject({ kind: 'attachment', name: 'seal 1.jpg', sha256 })
  })

  it('shows what was recorded so far, the latest first', () => {
    const lines = sessionAt('told').answer('record').page?.lines ?? []
    expect(lines.map((line) => line.replace(/^\d\d:\d\d:\d\d /, ''))).toEqual([
      'm.vega, Does water come out at the shaft?: choice, Yes, it drips',
      'm.vega, Identify the seal: choice, Single seal',
      'm.vega, Gather the tools, parts and protective equipment: done',
      'm.vega, Gather the tools, parts and protective equipment: opened, rehearsal'
    ])
  })

  it('finds the steps in which words stand', () => {
    const { page } = sessionAt('told').answer('whole Drain Cock')
    expect(page).toEqual({
      title: 'Steps with `Drain Cock`: 1',
      lines: ['Lock out', '   Let the energy out of link and water (relieve)', '     Open the drain cock under V1.']
    })
    expect(sessionAt('told').answer('whole zebra').page?.lines).toHaveLength(1)
  })
})
