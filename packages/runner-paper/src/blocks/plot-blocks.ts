import { type CurvePlotOptions, curvePlot, type DecayCurve, type SheetEntry } from '@lockwright/energy'
import type { Catalog } from '../catalog.js'
import { say, stress } from '../text/say.js'
import { plotInLanguage } from '../translations/entry-in-language.js'
import type { PlotBlock } from './block.js'

/** The curve of a source that falls by itself, with the safe level and the waits marked; empty where none does. */
export function plotBlocks(
  { id, curve, wait }: SheetEntry,
  size: Pick<CurvePlotOptions, 'width' | 'height'>,
  catalog: Catalog
): readonly PlotBlock[] {
  if (curve === undefined) return []
  const { energy, number } = catalog
  const { written, label } = wait.grounds
  const drawn = curvePlot(curve, {
    ...size,
    ...(label === undefined ? {} : { labelWait: label }),
    ...(written === undefined ? {} : { writtenWait: written })
  })
  const plot = plotInLanguage(drawn, catalog)
  const marked = [
    ...(label === undefined ? [] : [energy.ground.label(label)]),
    ...(written === undefined ? [] : [energy.ground.written(written)])
  ]
  // Read out, not set: no blank has to hold number and unit together.
  const waits = energy.curve.waits(marked).replaceAll('\u00A0', ' ')
  const start = `${number(Number((curve.slow[0]?.level ?? curve.safe).toPrecision(4)))} ${curve.unit}`
  return [
    {
      plot,
      caption: [...stress(id), ...say(isBand(curve) ? energy.curve.key : '')],
      alternate: energy.curve.alternate(id, curve.title, start, plot.description, waits)
    }
  ]
}

/** Whether tolerances part the slowest case from the fastest. */
function isBand({ slow, fast }: DecayCurve): boolean {
  return slow.some(({ seconds, level }, index) => seconds !== fast[index]?.seconds || level !== fast[index]?.level)
}
