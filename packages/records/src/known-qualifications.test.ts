import { describe, expect, it } from 'vitest'
import { fanMachine } from '../fixtures/fan-machine.js'
import { inFolder, plantSite, scriptedClock, signerOf, writeRoster } from '../fixtures/plant.js'
import { issue, keepDraft } from './issue.js'
import { knownQualifications } from './known-qualifications.js'
import { readRoster } from './roster-file.js'
import type { Site } from './site.js'

const known = (site: Site): readonly string[] => {
  const roster = readRoster(site)
  return roster.ok ? knownQualifications(site, roster.value) : expect.fail('no roster')
}

describe('the qualifications that a site knows', () => {
  it('are those that people hold, and those that procedures kept here ask for, issued or not', () => {
    inFolder((folder) => {
      const site = plantSite(folder)
      expect(known(site)).toEqual(['coordinator', 'electrical-lv'])
      const roles = fanMachine.roles.map((role) => ({ ...role, holds: ['crane'] }))
      keepDraft(site, { ...fanMachine, roles } as unknown as typeof fanMachine)
      expect(known(site)).toEqual(['coordinator', 'crane', 'electrical-lv'])
      issue({ site, machine: fanMachine, signer: signerOf('birk'), clock: scriptedClock() })
      writeRoster(site, [], 2)
      expect(known(site)).toEqual(['coordinator', 'crane', 'electrical-lv'])
    })
  })
})
