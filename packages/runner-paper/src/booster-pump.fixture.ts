import type { Machine } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import { states } from './booster-pump-states.fixture.js'
import { quantity, span } from './made.fixture.js'

/**
 * A made machine with one of everything that a sheet has to show. It was not proved: tests of the paper stand
 * on their own feet, so the brand is given here and nowhere else. What `changes` names takes the place of its own.
 */
export function boosterPump(changes: Partial<Machine> = {}): ProvedMachine {
  const seriesT = [{ axis: 'cabinet', values: ['series-t'] }]
  const source = {
    span,
    at: [],
    fedBy: [],
    unfed: null,
    rebuilds: false,
    guarded: null,
    only: [],
    store: 'none',
    electricalWork: true,
    quantities: {},
    conductors: [],
    category: null,
    describe: null
  }
  const point = { span, normal: 'on', only: [] }
  const item = {
    span,
    details: [],
    measures: null,
    rated: null,
    category: null,
    range: null,
    needsCalibration: false,
    glove: null
  }
  const machine = {
    format: 'lockwright-machine/1',
    procedure: 'P202-PRECHARGE',
    title: 'Replace the pre-charge module of booster pump 2',
    revision: 3,
    language: 'en',
    equipment: { tag: 'P-202', name: 'Booster pump 2 drive', place: 'Sandholm pumping station' },
    scope: 'Replacing the pre-charge module. Not for work on the motor or the pump.',
    review: 'P1Y',
    order: 'general',
    noStartControl: null,
    axes: [
      {
        id: 'cabinet',
        span,
        ask: 'Which series is the cabinet?',
        values: [
          { id: 'series-s', name: 'Series S', tell: 'Plate code starts with S' },
          { id: 'series-t', name: 'Series T', tell: 'Plate code starts with T' }
        ]
      }
    ],
    sources: [
      {
        ...source,
        id: 'mains',
        kind: 'electrical',
        at: ['Q1'],
        quantities: { voltage: quantity('690 V ac ± 10 %') },
        conductors: ['L1', 'L2', 'L3']
      },
      {
        ...source,
        id: 'dc-link',
        kind: 'capacitor',
        fedBy: ['mains'],
        store: 'can-be-let-out',
        quantities: {
          voltage: quantity('930 V dc ± 5 %'),
          capacitance: quantity('9.4 mF ± 20 %'),
          bleed: quantity('18 kΩ ± 5 %'),
          'label-wait': quantity('15 min')
        },
        conductors: ['DC+', 'DC-']
      },
      {
        ...source,
        id: 'water',
        kind: 'liquid',
        at: ['V1'],
        store: 'can-be-let-out',
        electricalWork: false,
        quantities: { pressure: quantity('4.2 bar') }
      },
      {
        ...source,
        id: 'tank',
        kind: 'gas',
        at: ['V2'],
        store: 'can-be-let-out',
        electricalWork: false,
        only: seriesT,
        quantities: { pressure: quantity('6 bar') }
      }
    ],
    points: [
      { ...point, id: 'Q1', is: 'switch-disconnector', where: 'left door of the cabinet', safe: 'handle at O' },
      { ...point, id: 'V1', is: 'butterfly valve', where: 'suction header', safe: 'lever across the pipe' },
      { ...point, id: 'V2', is: 'ball valve', where: 'tank stand', safe: 'lever across the pipe', only: seriesT }
    ],
    restraints: [
      {
        span,
        id: 'earths',
        kind: 'earth',
        is: 'three-phase earthing set',
        holds: ['mains', 'dc-link'],
        needsPower: null,
        only: []
      }
    ],
    roles: [{ id: 'qualified', span, name: 'Qualified electrical person', holds: ['electrical-lv'], electrical: true }],
    items: [
      {
        ...item,
        id: 'tester',
        kind: 'tool',
        label: 'Two-pole voltage tester',
        details: ['rated 1000 V', 'category IV'],
        measures: 'voltage',
        needsCalibration: true
      },
      { ...item, id: 'gauge', kind: 'tool', label: 'Pressure gauge, 0 to 10 bar', measures: 'pressure' },
      { ...item, id: 'module', kind: 'part', label: 'Pre-charge module' },
      { ...item, id: 'gloves', kind: 'wear', label: 'Insulating gloves with leather protectors', details: ['class 0'] }
    ],
    leftOn: [],
    waivers: [],
    sections: ['Prepare', 'Lock out', 'Change the module', 'Hand back'].map((title, index) => ({
      id: ['prepare', 'lock-out', 'change', 'hand-back'][index],
      level: 1,
      title,
      span
    })),
    start: 'gather',
    states
  }
  return { ...(machine as unknown as Machine), ...changes } as ProvedMachine
}
