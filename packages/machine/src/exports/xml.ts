// Characters that XML 1.0 has no way to write (production 2), and unpaired surrogates.
const unwritable = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu

/** Text between tags. What XML cannot hold becomes U+FFFD. */
export function xmlText(text: string): string {
  return text.replace(unwritable, '\u{fffd}').replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
}

/** Text inside an attribute in double quotes; line ends are kept by reference. */
export function xmlAttribute(text: string): string {
  return xmlText(text)
    .replaceAll('"', '&quot;')
    .replace(/[\t\n\r]/g, (space) => `&#${space.charCodeAt(0)};`)
}

/** One line inside a comment; two hyphens would end it. */
export function xmlComment(text: string): string {
  return text
    .replace(unwritable, '\u{fffd}')
    .replace(/\s+/g, ' ')
    .replace(/-(?=-)|-$/g, '- ')
}
