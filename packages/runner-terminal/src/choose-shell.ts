/**
 * Which shell fits the terminal: a pipe, a dumb terminal, NO_COLOR and a screen reader get plain lines; so does a
 * build server, on which the library of the full screen draws nothing until the end.
 */
export function chooseShell(
  stdin: { readonly isTTY?: boolean },
  stdout: { readonly isTTY?: boolean },
  env: NodeJS.ProcessEnv
): 'full-screen' | 'plain' {
  if (stdin.isTTY !== true || stdout.isTTY !== true) return 'plain'
  if ((env['TERM'] ?? 'dumb') === 'dumb' || (env['NO_COLOR'] ?? '') !== '') return 'plain'
  if (!['', '0', 'false'].includes(env['CI'] ?? '')) return 'plain'
  return env['INK_SCREEN_READER'] === 'true' ? 'plain' : 'full-screen'
}
