import { pictureLimits, type Read, refused } from './picture.js'

const mend = 'save it as a plain SVG without scripts, links and outside files'

/** What a drawing must not hold: code, other documents, anything from outside the file. */
const refusals: readonly (readonly [RegExp, string])[] = [
  [/<!DOCTYPE|<!ENTITY/i, 'it declares a document type or entities'],
  [/<\?(?!xml[\s?])/i, 'it holds a processing instruction'],
  [/<(?:\w+:)?script[\s/>]/i, 'it holds a script'],
  [/[\s"'/]on[a-z]+\s*=/i, 'it holds code that runs on an event'],
  [/javascript\s*:/i, 'it holds a script'],
  [/<(?:\w+:)?foreignObject[\s/>]/i, 'it holds another kind of document (foreignObject)'],
  [/<(?:\w+:)?(?:image|feImage|iframe|audio|video|a)[\s/>]/i, 'it holds a picture, a link or a medium of its own'],
  [/\bhref\s*=\s*(?:"\s*[^#"\s]|'\s*[^#'\s]|[^"'\s#])/i, 'it refers to something outside itself'],
  [/url\s*\(\s*["']?\s*[^#"'\s]/i, 'it refers to something outside itself'],
  [/<(?:\w+:)?style[\s/>]/i, 'its colors stand in a style sheet, which is not printed'],
  [/@import/i, 'it refers to something outside itself'],
  [/<(?:\w+:)?(?:animate|animateTransform|animateMotion|set)[\s/>]/i, 'it moves: paper does not']
]

/** An SVG that is a drawing and nothing else. Its text is handed on as it is. */
export function readDrawing(data: Buffer): Read {
  if (data.length > pictureLimits.drawingBytes) return refused(`it has ${data.length} bytes`, 'make it simpler')
  let text: string
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(data)
  } catch {
    return refused('it is not written in UTF-8', mend)
  }
  // A comment or a character reference could hide what is looked for.
  const plain = text.replace(/<!--[\s\S]*?-->/g, '')
  if (/&#/.test(plain.replace(/>[^<]*</g, '><'))) return refused('it hides characters within its attributes', mend)
  for (const [pattern, what] of refusals) if (pattern.test(plain)) return refused(what, mend)
  const structure = structureOf(plain)
  if (structure === 'repeats') return refused('it repeats parts that repeat parts', 'flatten the drawing')
  const root = /<svg\b[^>]*>/.exec(plain)?.[0]
  if (root === undefined || structure === 'broken' || !/<\/svg\s*>\s*$/.test(plain))
    return refused('it is not a whole SVG', mend)
  const size = sizeOf(root)
  if (size === null) return refused('it has neither a view box nor a width and a height', 'give it a viewBox')
  return { ok: true, picture: { kind: 'drawing', ...size, text: plain.replace(root, scalable(root, size)) } }
}

/** The root with a view box and without a size of its own, so that it fills whatever room it is given. */
function scalable(root: string, { width, height }: Size): string {
  const bare = root.replace(/\s(?:width|height)\s*=\s*(?:"[^"]*"|'[^']*')/g, '')
  return /\sviewBox\s*=/.test(bare) ? bare : bare.replace(/^<svg/, `<svg viewBox="0 0 ${width} ${height}"`)
}

interface Size {
  readonly width: number
  readonly height: number
}

/**
 * Whether every element is closed where it has to be, and whether a `use` stands within something that is used: such a
 * drawing could grow without end.
 */
function structureOf(text: string): 'whole' | 'broken' | 'repeats' {
  const uses = text.matchAll(/<(?:\w+:)?use\b[^>]*href\s*=\s*["']\s*#([^"']*)["']/g)
  const used = new Set([...uses].map((match) => match[1]))
  const open: { readonly name: string; readonly within: boolean }[] = []
  for (const [whole, closing, name = ''] of text.matchAll(/<(\/?)([\w:-]+)(?:"[^"]*"|'[^']*'|[^<>"'])*>/g)) {
    if (closing === '/') {
      if (open.pop()?.name !== name) return 'broken'
      continue
    }
    const id = /\sid\s*=\s*["']([^"']*)["']/.exec(whole)?.[1]
    const within = open.at(-1)?.within === true || (id !== undefined && used.has(id))
    if (within && /(?:^|:)use$/.test(name)) return 'repeats'
    if (!whole.endsWith('/>')) open.push({ name, within })
  }
  return open.length === 0 ? 'whole' : 'broken'
}

function sizeOf(root: string): Size | null {
  const attribute = (name: string): string | undefined =>
    new RegExp(`\\s${name}\\s*=\\s*["']([^"']*)["']`).exec(root)?.[1]
  const box = attribute('viewBox')
    ?.trim()
    .split(/[\s,]+/)
    .map(Number)
  const [width, height] =
    box?.length === 4
      ? [box[2], box[3]]
      : [attribute('width'), attribute('height')].map((text) => Number.parseFloat(text ?? ''))
  if (width === undefined || height === undefined || !(width > 0) || !(height > 0)) return null
  return Number.isFinite(width) && Number.isFinite(height) ? { width, height } : null
}
