/** What a template can put in, by its path, and what stands there; the only paths that a template can name. */
export const templateValues = {
  'equipment.tag': 'tag of the equipment, as P-202',
  'equipment.name': 'name of the equipment',
  'equipment.place': 'where it stands',
  procedure: 'id of the procedure',
  title: 'title of the procedure',
  revision: 'number of the revision',
  scope: 'scope of the procedure',
  generation: 'the generation that the sheet is for; empty for all',
  language: 'language of the fixed wording: en, es, de or fr',
  digest: 'first twelve digits of the digest',
  serial: 'serial number of the sheet; empty where it has none',
  printed: 'when it was printed; empty where that is not said',
  'issue.by': 'who issued the procedure; empty on a draft',
  'issue.at': 'when it was issued; empty on a draft'
} as const

export type TemplatePath = keyof typeof templateValues

/** A text for each path; empty where there is nothing to say. */
export type TemplateValues = Readonly<Record<TemplatePath, string>>

/** As Handlebars looks paths up: own properties of plain objects without a prototype, nothing else. */
export function nestedValues(values: TemplateValues): object {
  const root = bare()
  for (const [path, value] of Object.entries(values)) {
    const text = value.replace(/\s+/g, ' ')
    const [first = '', second] = path.split('.')
    if (second === undefined) root[first] = text
    else root[first] = Object.assign(bare(), root[first], { [second]: text })
  }
  return root
}

function bare(): Record<string, unknown> {
  return Object.create(null) as Record<string, unknown>
}
