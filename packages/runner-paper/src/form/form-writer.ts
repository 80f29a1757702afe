import { circle, round } from '../draw/strokes.js'
import { type FieldKind, type FormField, fieldName } from './form-field.js'

/** What is used of a document of the PDF library; its published types lack the open parts. */
export interface FormDocument {
  ref(data: object): FormReference
  annotate(x: number, y: number, width: number, height: number, options: object): unknown
  readonly page: { readonly annotations: FormReference[] }
  readonly _root: { readonly data: { AcroForm?: FormReference } }
  _acroform?: object
}

export interface FormReference {
  readonly data: Record<string, unknown>
  end(content?: string | Uint8Array): void
}

export interface FieldBox {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** Writes the fields of one document. Fields with fields under them are closed by the library, together with the form. */
export interface FormWriter {
  /** Places a field, or one circle of a choice, on the current page; `element` is its node of the structure tree. */
  readonly place: (field: FormField, pass: number, passes: number, box: FieldBox, element: object) => void
}

/** ISO 32000-1, tables 226, 228 and 230. */
const flags = { multiline: 1 << 12, noToggleToOff: 1 << 14, radio: 1 << 15 } as const
/** ISO 32000-1, table 165: printed with the page. */
const printed = 1 << 2

interface Node {
  readonly reference: FormReference
  readonly children: Map<string, Node>
}

/**
 * Fields as ISO 32000-1, 12.7 has them. A partial name may hold no full stop (12.7.3.2), so a name is a path of fields, of
 * which only the last is filled in. Looks are drawn here, never left to the reader, and texts are set in `font`.
 */
export function formWriter(document: FormDocument, font: () => FormReference): FormWriter {
  const roots = new Map<string, Node>()
  const looks = new Map<string, FormReference>()
  let form: FormReference | null = null

  const opened = (): FormReference => {
    if (form !== null) return form
    form = document.ref({
      Fields: [],
      NeedAppearances: false,
      DA: new String(appearance),
      // Only what is embedded (ISO 14289-1, 7.21.4.1): every tick and dot has a look of its own, and needs no font.
      DR: { Font: { [fontName]: font() } }
    })
    document._root.data.AcroForm = form
    // The library closes the form with the document, and wants a font of its own making unless it has this.
    document._acroform = { fonts: {}, defaultFont: fontName }
    return form
  }
  /** The field at the end of a path, each part under the one before. */
  const nodeOf = (path: readonly string[], last: () => object): Node => {
    const fields = opened().data['Fields'] as FormReference[]
    let siblings = roots
    let parent: Node | null = null
    let node: Node | null = null
    path.forEach((part, index) => {
      const known = siblings.get(part)
      if (known === undefined) {
        const above = parent === null ? {} : { Parent: parent.reference }
        const own = index === path.length - 1 ? last() : {}
        node = { reference: document.ref({ T: new String(part), ...above, ...own, Kids: [] }), children: new Map() }
        siblings.set(part, node)
        kidsOf(parent, fields).push(node.reference)
      } else node = known
      parent = node
      siblings = (node as Node).children
    })
    if (node === null) throw new Error('a field has a name')
    return node
  }
  const look = (width: number, height: number, content: string): FormReference => {
    const key = `${width} ${height} ${content}`
    const known = looks.get(key)
    if (known !== undefined) return known
    const made = document.ref({ Type: 'XObject', Subtype: 'Form', BBox: [0, 0, width, height], Resources: {} })
    made.end(content)
    looks.set(key, made)
    return made
  }
  const widget = (box: FieldBox, element: object, options: object): FormReference => {
    document.annotate(box.x, box.y, box.width, box.height, {
      Subtype: 'Widget',
      F: printed,
      structParent: element,
      ...options
    })
    const made = document.page.annotations.at(-1)
    if (made === undefined) throw new Error('the page holds what was just put on it')
    return made
  }

  return {
    place: (field, pass, passes, box, element) => {
      const told = new String(passes > 1 ? `${field.tip} (${pass})` : field.tip)
      const path = fieldName(field, pass).split('.')
      const { width, height } = box
      if (field.kind === 'choice') {
        const value = field.value ?? 'on'
        const group = nodeOf(path, () => ({
          FT: 'Btn',
          Ff: flags.radio | flags.noToggleToOff,
          TU: new String(field.tip.replace(/\. .*$/s, '')),
          V: 'Off'
        }))
        const states = { [value]: look(width, height, dot(width, height)), Off: look(width, height, 'q Q') }
        const kid = {
          Parent: group.reference,
          AS: 'Off',
          AP: { N: states },
          TU: told
        }
        kidsOf(group, []).push(widget(box, element, kid))
        return
      }
      // The last part of the path is the widget itself, field and annotation in one.
      const parent = path.length === 1 ? null : nodeOf(path.slice(0, -1), () => ({}))
      const own = field.kind === 'tick' ? tickOf(width, height) : textOf(field.kind, width, height)
      const above = parent === null ? {} : { Parent: parent.reference }
      const name = { T: new String(path.at(-1)), TU: told }
      kidsOf(parent, opened().data['Fields'] as FormReference[]).push(
        widget(box, element, { ...above, ...name, ...own })
      )
    }
  }

  function tickOf(width: number, height: number): object {
    const states = { Yes: look(width, height, check(width, height)), Off: look(width, height, 'q Q') }
    return { FT: 'Btn', AS: 'Off', V: 'Off', AP: { N: states } }
  }

  function textOf(kind: FieldKind, width: number, height: number): object {
    const several = kind === 'text' && height > 2 * textSize
    return {
      FT: 'Tx',
      ...(several ? { Ff: flags.multiline } : {}),
      DA: new String(appearance),
      AP: { N: look(width, height, '/Tx BMC EMC') }
    }
  }
}

const fontName = 'Fields'
const textSize = 9
const appearance = `/${fontName} ${textSize} Tf 0 g`

function kidsOf(node: Node | null, top: FormReference[]): FormReference[] {
  return node === null ? top : (node.reference.data['Kids'] as FormReference[])
}

/** A tick in two strokes, a little inside its box. */
function check(width: number, height: number): string {
  const at = (across: number, up: number): string => `${round(width * across)} ${round(height * up)}`
  return `q 1.6 w 1 J 0 G ${at(0.2, 0.5)} m ${at(0.42, 0.22)} l ${at(0.82, 0.8)} l S Q`
}

/** The dot in the circle that was chosen. */
function dot(width: number, height: number): string {
  return `q 0 g ${circle(width / 2, height / 2, Math.min(width, height) * 0.28)} f Q`
}
