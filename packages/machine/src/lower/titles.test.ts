import type { Content, Step } from '@lockwright/language'
import { describe, expect, it } from 'vitest'
import { titleOf } from './titles.js'

function prose(text: string): Content {
  return { kind: 'paragraph', runs: [{ kind: 'text', text }] }
}

function work(...body: readonly Content[]): string {
  return titleOf({ kind: 'work', body } as unknown as Step)
}

function list(...items: readonly string[]): Content {
  return { kind: 'list', ordered: true, start: 1, items: items.map((item) => [prose(item)]) }
}

describe('the title of a work step', () => {
  it('joins the items of a list without their full stops', () => {
    expect(work(list('Open the holder.', 'Take out the old blade.'))).toBe(
      'Work: Open the holder; Take out the old blade'
    )
  })

  it('leaves a single item and plain prose as they were written', () => {
    expect(work(list('Open the holder.'))).toBe('Work: Open the holder.')
    expect(work(prose('Mind the edge.'), list('Open it.', 'Shut it.'))).toBe('Work: Mind the edge. Open it; Shut it')
  })

  it('is never empty, and is cut where it would be long', () => {
    expect(work()).toBe('Work: hands on')
    const long = work(list('Undo the bolts of the bridge one after the other.', 'Lift the bridge off to the left.'))
    expect(long).toHaveLength('Work: '.length + 70)
    expect(long.endsWith('…')).toBe(true)
  })
})
