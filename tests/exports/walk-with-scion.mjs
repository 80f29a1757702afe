/** Walks from standard input (JSON: lists of events) through an SCXML file; writes the state after the start and each event. */

import { createRequire } from 'node:module'
import { join } from 'node:path'
import { text } from 'node:stream/consumers'

const [home, file] = process.argv.slice(2)
const scxml = createRequire(join(home, 'package.json'))('@scion-scxml/scxml')
const walks = JSON.parse(await text(process.stdin))

scxml.pathToModel(file, (fault, model) => {
  if (fault) throw fault
  model.prepare((unready, prepared) => {
    if (unready) throw unready
    const walked = walks.map((events) => {
      const chart = new scxml.core.Statechart(prepared)
      return [chart.start(), ...events.map((name) => chart.gen({ name }))].map((states) => states.join(' '))
    })
    process.stdout.write(JSON.stringify(walked))
  })
})
