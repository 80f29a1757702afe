import { Box, Text, useApp, useInput, useStdout } from 'ink'
import { useCallback, useEffect, useReducer, useRef, useState } from 'react'
import type { Ended, Session } from '../session/session.js'
import { frameOf, type Size } from './frame.js'
import type { Row } from './main-lines.js'
import { afterReply, firstView, type Press, type Pressed, press } from './press.js'

/** The run on the whole screen: draws the frame, hands keys on, and lets the clock in once a second. */
export function FullScreen({ session, onEnd }: { readonly session: Session; readonly onEnd: (ended: Ended) => void }) {
  const { stdout } = useStdout()
  const { exit } = useApp()
  const [size, setSize] = useState<Size>(() => sizeOf(stdout))
  // Keys can come faster than the screen is drawn: each one finds what the one before left.
  const held = useRef(firstView)
  const [view, setView] = useState(firstView)
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
      if (session.isDue()) turn(afterReply(session, held.current, session.passTime))
      else if (session.screen().countdowns.length > 0) drawAgain()
    }, 1000)
    return () => clearInterval(timer)
  }, [session, turn])

  useInput((input, key) => {
    const pressed = pressOf(input, key)
    if (pressed !== null) turn(press(session, held.current, pressed, size))
  })

  const { rows } = frameOf(session.screen(), view, size, session.options.now())
  return (
    <Box flexDirection="column">
      {rows.map((row, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a line of the screen is nothing but its place
        <Line key={index} row={row} />
      ))}
    </Box>
  )
}

function Line({ row: { text, tone } }: { readonly row: Row }) {
  return (
    <Text wrap="truncate" bold={tone === 'strong' || tone === 'alarm'} dimColor={tone === 'faint'}>
      {text === '' ? ' ' : text}
    </Text>
  )
}

/** One row less than there is: a terminal whose last row is written scrolls, and the screen would jump. */
function sizeOf(stdout: NodeJS.WriteStream): Size {
  return { columns: Math.max(20, stdout.columns ?? 80), rows: Math.max(10, (stdout.rows ?? 24) - 1) }
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
