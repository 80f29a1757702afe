/**
 * Prints the one closing line that the workplace and a hurried reader look for: `N passed, N failed`.
 * A module that failed to load counts as one failure, so that a broken import is never a green run.
 */
export default class SummaryReporter {
  onTestRunEnd(modules, unhandledErrors) {
    let passed = 0
    let failed = unhandledErrors.length
    let skipped = 0
    for (const module of modules) {
      const tests = [...module.children.allTests()]
      for (const test of tests) {
        const { state } = test.result()
        if (state === 'passed') passed += 1
        else if (state === 'failed') failed += 1
        else skipped += 1
      }
      if (module.state() === 'failed' && tests.every((test) => test.result().state !== 'failed')) failed += 1
    }
    const tail = skipped > 0 ? `, ${skipped} skipped` : ''
    process.stdout.write(`\n${passed} passed, ${failed} failed${tail}\n`)
  }
}
