// C0 and C1 controls but for tab and line feed, the bidirectional controls, and the line and paragraph separators.
// biome-ignore lint/suspicious/noControlCharactersInRegex: finding them is what it is for.
export const steering = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g

/** Makes any text safe to write to a terminal: what would steer it is shown as `\u{...}` instead of sent. */
export function printable(text: string): string {
  return text.replace(steering, (character) => `\\u{${character.charCodeAt(0).toString(16)}}`)
}
