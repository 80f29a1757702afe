import { Box, Text, useApp, useInput, useStdout } from 'ink'
import { useCallback, useEffect, useReducer, useRef, useState } from 'react'
import type { Ended, Session } from '../session/session.js'
import type { Screen } from '../step/screen.js'
import { frameOf, type Size } from './frame.js'
import type { Palette } from './palette.js'
import { afterClock, firstView, type Press, type Pressed, press } from './press.js'
import type { Row } from './row.js'

/** The run on the whole screen: draws the frame, hands keys on, and lets the clock in once a second. */
export function FullScreen({
  session,
  palette,
  onEnd
}: {
  readonly session: Session
  readonly palette: Palette
  readonly onEnd: (ended: Ended) => void
}) {
  const { stdout } = useStdout()
  const { exit } = useApp()
  const [size, setSize] = useState<Size>(() => sizeOf(stdout))
  // Keys can come faster than the screen is drawn: each one finds what the one before left.
  const held = useRef(firstView)
  const [view, setView] = useState(firstView)
  const drawn = useRef<Screen | null>(null)
  // The clock is read when the screen is drawn: a time that was kept would be that of the last drawing.
  const [, drawAgain] = useReducer((drawn: number) => drawn + 1, 0)

  useEffect(() => {
    const resized = () => setSize(sizeOf(stdout))
    stdout.on('resize', resized)
    return () => {
      stdout.off('resize', resized)
    }
  }, [stdout])

  const turn = useCallback(
    (next: Pressed) => {
      held.current = next.view
      setView(next.view)
      if (next.ended === null) return
      onEnd(next.ended)
      exit()
    },
    [onEnd, exit]
  )

  useEffect(() => {
    const timer = setInterval(() => {
      if (session.isDue()) turn(afterClock(session, held.current))
      // A warning can begin by the clock too.
      else if (session.screen().countdowns.length > 0 || session.screen() !== drawn.current) drawAgain()
    }, 1000)
    return () => clearInterval(timer)
  }, [session, turn])

  useInput((input, key) => {
    const pressed = pressOf(input, key)
    if (pressed !== null) turn(press(session, held.current, pressed, size))
  })

  const screen = session.screen()
  drawn.current = screen
  const { rows } = frameOf(screen, view, size, session.options.now())
  return (
    <Box flexDirection="column">
      {rows.map((row, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a line of the screen is nothing but its place
        <Line key={index} row={row} palette={palette} />
      ))}
    </Box>
  )
}

function Line({ row: { text, tone, beside }, palette }: { readonly row: Row; readonly palette: Palette }) {
  return (
    <Text wrap="truncate">
      <Text {...palette[tone]}>{text === '' ? ' ' : text}</Text>
      {beside === undefined ? null : (
        <>
          {' | '}
          <Text {...palette[beside.tone]}>{beside.text}</Text>
        </>
      )}
    </Text>
  )
}

/** One row less than there is: a terminal whose last row is written scrolls, and the screen would jump. */
function sizeOf(stdout: NodeJS.WriteStream): Size {
  return { columns: stdout.columns || 80, rows: Math.max(1, (stdout.rows || 24) - 1) }
}

function pressOf(input: string, key: Parameters<Parameters<typeof useInput>[0]>[1]): Press | null {
  if (key.ctrl && input === 'c') return { kind: 'leave' }
  if (key.ctrl && input === 'u') return { kind: 'clear' }
  if (key.return) return { kind: 'enter' }
  if (key.backspace || key.delete) return { kind: 'backspace' }
  if (key.escape) return { kind: 'escape' }
  if (key.pageUp) return { kind: 'page-up' }
  if (key.pageDown) return { kind: 'page-down' }
  if (key.upArrow) return { kind: 'up' }
  if (key.downArrow) return { kind: 'down' }
  if (key.ctrl || key.meta || input === '') return null
  return { kind: 'text', text: input }
}
