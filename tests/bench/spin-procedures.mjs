/**
 * Procedures for measuring: a full lockout of `sources` liquids, `rounds` rounds of questions in which each is proven
 * once more or not, work, and everything back. Every rule is kept. Each question doubles the configurations; each
 * round beyond the first adds states alone.
 */
export function measuredProcedure({ sources, rounds }) {
  const numbers = Array.from({ length: sources }, (_, index) => index + 1)
  const all = (prefix) => `"${numbers.map((number) => prefix + number).join(' ')}"`
  return [
    '---',
    `procedure: BENCH-${sources}-${rounds}`,
    'title: A lockout of many liquids',
    'revision: 1',
    'equipment: { tag: B-1, name: Test stand, place: Sandholm workshop }',
    'scope: Nothing but measuring.',
    'energy:',
    ...numbers.map((number) => `  s${number}: { kind: liquid, pressure: 4 bar, at: [P${number}] }`),
    'points:',
    ...numbers.map((number) => `  P${number}: { is: valve, where: header ${number}, safe: across }`),
    '---',
    '',
    '# Lock out',
    '',
    '::tool[Gauge]{#gauge measures=pressure range="0 to 10 bar"}',
    '',
    '::notify[Everyone]',
    '::shutdown',
    `::lock{at=${all('P')}}`,
    `::relieve{of=${all('s')} wait="10 s"}`,
    '::clear',
    '::tryout',
    `::prove{of=${all('s')} with=gauge}`,
    '::inspect',
    '::clear',
    '',
    '# Ask',
    '',
    ...numbers.map((number) =>
      [
        `::::ask[Is s${number} in doubt?]`,
        ':::answer[Yes]',
        `::prove{of=s${number} with=gauge}`,
        ':::',
        ':::answer[No]',
        '::look[The gauge]',
        ':::',
        '::::'
      ].join('\n')
    ),
    '',
    '# Go on',
    '',
    ...Array.from({ length: rounds - 1 }, () => '::inspect\n\n::repeat{section=ask}\n'),
    '1. Reach in.',
    '',
    '# Hand back',
    '',
    '::inspect',
    '::clear',
    `::unlock{at=${all('P')}}`,
    '::notify[Everyone]',
    `::energize{at=${all('P')}}`,
    ''
  ]
    .join('\n\n')
    .replace(/\n\n(?=(procedure|title|revision|equipment|scope|energy|points| {2}|---))/g, '\n')
}
