import type { Machine } from '../../machine.js'
import { type FlowNode, flowOf, type Role } from './flow-of.js'

/** Attributes of Graphviz for what a step is. Shapes are ours; no colour means anything. */
const looks: Readonly<Record<Role, string>> = {
  step: 'shape=box, style=rounded',
  secures: 'shape=hexagon, margin="0.05,0.05"',
  verifies: 'shape=box, peripheries=2',
  restores: 'shape=parallelogram, margin="0,0.05"',
  'hands-on': 'shape=box, penwidth=2.5',
  choice: 'shape=invhouse, margin="0.05,0"',
  end: 'shape=ellipse, margin="0,0"',
  passing: 'shape=plaintext'
}

/** The flow for Graphviz: sections as clusters, copies with broken frames. The same machine gives the same text. */
export function dotOf(machine: Machine): string {
  const { panels } = flowOf(machine)
  const nodes = panels.flatMap((panel) => panel.nodes)
  return [
    `digraph ${quoted(machine.procedure)} {`,
    `  label=${quoted(`${machine.procedure}, revision ${machine.revision}: ${machine.title}`)};`,
    '  labelloc=t;',
    '  rankdir=TB;',
    '  node [fontname="Helvetica", fontsize=11];',
    '  edge [fontname="Helvetica", fontsize=10];',
    ...panels.flatMap(({ title, copy, nodes: inside }, index) => [
      `  subgraph cluster_${index + 1} {`,
      `    label=${quoted(title)};`,
      '    labeljust=l;',
      '    fontname="Helvetica-Bold";',
      `    style=${copy ? 'dashed' : 'solid'};`,
      ...inside.map((node) => `    ${node.number} [label=${labelOf(node)}, ${looks[node.role]}];`),
      '  }'
    ]),
    ...nodes.flatMap(({ number, exits }) =>
      exits.map(({ to, label, late }) => {
        const attributes = [
          ...(label === null ? [] : [`label=${quoted(label)}`]),
          ...(late ? ['style=dashed', 'constraint=false'] : [])
        ]
        return `  ${number} -> ${to}${attributes.length === 0 ? '' : ` [${attributes.join(', ')}]`};`
      })
    ),
    '}',
    ''
  ].join('\n')
}

function labelOf({ number, state, copyOf, facts }: FlowNode): string {
  const lines = [
    ...wrapped(`${number}  ${state.title}`),
    facts.join(' · '),
    ...(copyOf === null ? [] : [`as step ${copyOf}`])
  ]
  return `"${lines.map(escaped).join('\\n')}"`
}

/** About forty characters a line. */
function wrapped(text: string): readonly string[] {
  const lines: string[] = []
  let line = ''
  for (const word of text.split(/\s+/)) {
    if (line !== '' && line.length + word.length >= 40) {
      lines.push(line)
      line = word
    } else line = line === '' ? word : `${line} ${word}`
  }
  return [...lines, line]
}

function quoted(text: string): string {
  return `"${escaped(text)}"`
}

/** A backslash would begin one of Graphviz's escapes, an ampersand one of HTML's. */
function escaped(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Cs}]+/gu, ' ')
    .replaceAll('\\', '\\\\')
    .replaceAll('"', '\\"')
    .replaceAll('&', '&amp;')
}
