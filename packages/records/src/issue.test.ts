import { copyFileSync, readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { digestOf, type Machine } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'
import { fanMachine } from '../fixtures/fan-machine.js'
import { inFolder, person, plantPeople, plantSite, scriptedClock, signerOf, writeRoster } from '../fixtures/plant.js'
import { canonicalJson } from './canonical-json.js'
import { isIssued, issue, issuedMachine, lastIssued } from './issue.js'
import { type IssuedPicture, unsignedPicture } from './issued-pictures.js'
import { startRun } from './run.js'
import { layout, openSite, type Site } from './site.js'

describe('issuing', () => {
  const ask = (site: Site, id: string) =>
    issue({ site, machine: fanMachine, signer: signerOf(id), clock: scriptedClock() })

  it('is for someone who holds `coordinator`, with their own key', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      expect(isIssued(site, fanMachine)).toBe(false)
      expect(ask(site, 'runa')).toMatchObject({ ok: false, faults: [{ id: 'not-entitled' }] })
      expect(ask(site, 'nobody')).toMatchObject({ ok: false, faults: [{ id: 'not-their-key' }] })
      expect(readdirSync(join(folder, 'issued'))).toEqual([])
      const issued = ask(site, 'birk')
      if (!issued.ok) return expect.fail(JSON.stringify(issued.faults))
      expect(issued.value).toMatchObject({ procedure: 'F12-BEARING', revision: 2, name: 'Birk Amdal' })
      expect(isIssued(site, fanMachine)).toBe(true)
      const read = issuedMachine(site, issued.value.machine)
      expect(read).toEqual({ ok: true, value: { machine: fanMachine, issue: issued.value } })
    })
  })

  it('holds for exactly one machine, and not from someone who was revoked by then', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      ask(site, 'birk')
      expect(isIssued(site, { ...fanMachine, revision: 3 })).toBe(false)
      const revokedAt = (at: string) =>
        writeRoster(
          site,
          plantPeople.map((one) => (one.id === 'birk' ? { ...one, revokedAt: at } : one)),
          2
        )
      revokedAt('2026-03-02T09:00:00Z')
      expect(isIssued(site, fanMachine)).toBe(true)
      revokedAt('2026-03-02T08:00:00Z')
      expect(isIssued(site, fanMachine)).toBe(false)
    })
  })

  it('is over one machine, and not over another that its signature is laid beside', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      const issued = ask(site, 'birk')
      if (!issued.ok) return expect.fail(JSON.stringify(issued.faults))
      const other = { ...fanMachine, revision: 3 }
      const digest = digestOf(other)
      writeFileSync(layout.issued(site, digest), canonicalJson(other))
      copyFileSync(layout.issueSignature(site, issued.value.machine), layout.issueSignature(site, digest))
      expect(issuedMachine(site, digest)).toMatchObject({ ok: false, faults: [{ id: 'issue-unsound' }] })
      expect(isIssued(site, other)).toBe(false)
    })
  })

  it('of a revision that asks less needs a reason, which the signature covers', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      const clock = scriptedClock()
      const put = (changes: Partial<Machine>, reason?: string) => {
        clock.pass(60)
        const machine = { ...fanMachine, ...changes } as ProvedMachine
        return issue({ site, machine, signer: signerOf('birk'), clock, ...(reason === undefined ? {} : { reason }) })
      }
      const first = put({})
      if (!first.ok) return expect.fail(JSON.stringify(first.faults))
      expect(first.value).not.toHaveProperty('replaces')
      // Another wording asks no less.
      const second = put({ revision: 3, title: 'Another title' })
      expect(second).toMatchObject({ ok: true, value: { revision: 3, replaces: first.value.machine } })
      expect(second.ok && 'reason' in second.value).toBe(false)
      const less = { revision: 4, review: 'P5Y' }
      const refused = put(less, ' ')
      expect(refused).toMatchObject({ ok: false, faults: [{ id: 'reason-needed' }] })
      expect(JSON.stringify(refused)).toContain('time between inspections')
      expect(lastIssued(site, 'F12-BEARING')?.issue.revision).toBe(3)
      const third = put(less, 'Inspected together with fan 11 from now on')
      if (!third.ok) return expect.fail(JSON.stringify(third.faults))
      expect(third.value.reason).toBe('Inspected together with fan 11 from now on')
      expect(issuedMachine(site, third.value.machine)).toMatchObject({ ok: true, value: { issue: third.value } })
      // Asking more again needs no reason; another procedure has nothing to do with it.
      expect(put({ revision: 5, review: 'P1Y' }).ok).toBe(true)
      expect(put({ procedure: 'F13-BEARING', review: 'P9Y' })).toMatchObject({ ok: true })
      expect(lastIssued(site, 'F12-BEARING')?.issue.revision).toBe(5)
      expect(lastIssued(site, 'F14-BEARING')).toBeNull()
    })
  })

  it('is what an issued run begins with', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      const begin = (by: string) =>
        startRun({ site, machine: fanMachine, mode: 'issued', by: person(by), clock: scriptedClock(), id: 'first' })
      expect(begin('odd')).toMatchObject({ ok: false, faults: [{ id: 'not-issued' }] })
      ask(site, 'birk')
      expect(begin('stranger')).toMatchObject({ ok: false, faults: [{ id: 'no-such-person' }] })
      expect(readdirSync(layout.runs(site))).toEqual([])
    })
  })

  it('cannot be had without a site folder, nor without a roster', () => {
    inFolder((folder) => {
      expect(openSite(join(folder, 'nowhere'))).toMatchObject({ ok: false, faults: [{ id: 'no-site' }] })
      const site = { folder }
      expect(ask(site, 'birk')).toMatchObject({ ok: false, faults: [{ id: 'no-roster' }] })
    })
  })

  it('covers the pictures that the procedure names, and nothing else is taken for them', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      const image = (source: string) => ({ kind: 'image' as const, source, alternate: 'Door' })
      const states = fanMachine.states.map((state, at) =>
        at === 0 ? { ...state, intro: [image('pictures/b.png'), image('a.svg'), image('a.svg')] } : state
      )
      const machine = { ...fanMachine, states } as ProvedMachine
      const [a, b] = [
        { source: 'a.svg', sha256: 'a'.repeat(64) },
        { source: 'pictures/b.png', sha256: 'b'.repeat(64) }
      ]
      const put = (...pictures: readonly IssuedPicture[]) =>
        issue({ site, machine, signer: signerOf('birk'), clock: scriptedClock(), pictures })
      expect(put(a)).toMatchObject({ ok: false, faults: [{ id: 'picture-missing', file: 'pictures/b.png' }] })
      expect(put(a, b, { source: 'c.png', sha256: a.sha256 })).toMatchObject({
        ok: false,
        faults: [{ id: 'picture-not-named', file: 'c.png' }]
      })
      expect(readdirSync(join(folder, 'issued'))).toEqual([])
      const issued = put(b, a)
      if (!issued.ok) return expect.fail(JSON.stringify(issued.faults))
      expect(issued.value.pictures).toEqual([a, b])
      expect(put(a, b)).toEqual(issued)
      const changed = { ...b, sha256: 'c'.repeat(64) }
      expect(put(a, changed)).toMatchObject({ ok: false, faults: [{ id: 'picture-changed', file: b.source }] })
      const read = issuedMachine(site, issued.value.machine)
      expect(read).toEqual({ ok: true, value: { machine, issue: issued.value } })
      expect(unsignedPicture(issued.value, [a, b])).toBeNull()
      expect(unsignedPicture(issued.value, [a])).toMatchObject({ id: 'picture-missing', file: b.source })
      const { pictures: _, ...old } = issued.value
      expect(unsignedPicture(old, [a])).toMatchObject({ id: 'picture-not-signed', file: a.source })
      expect(unsignedPicture(old, [])).toBeNull()
    })
  })
})
