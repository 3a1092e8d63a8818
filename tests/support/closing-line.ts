import type { Reporter, TestCase, TestModule } from 'vitest/node'

/**
 * Ends a run with one line, `N passed, N failed` (and `, N skipped` where some were), alone at the very end.
 * A file that could not be loaded counts as a failure, as none of its tests ran.
 */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    const count = { passed: 0, failed: errors.length, skipped: 0 }
    for (const module of modules) {
      for (const test of module.children.allTests()) count[outcomeOf(test)]++
      const failedTests = [...module.children.allTests('failed')].length
      if (module.state() === 'failed' && failedTests === 0) count.failed++
    }
    process.once('exit', (code) => {
      // Something outside the tests failed, such as the build before them, or no test was found.
      if (code !== 0 && count.failed === 0) count.failed = 1
      const skipped = count.skipped > 0 ? `, ${count.skipped} skipped` : ''
      process.stdout.write(`${count.passed} passed, ${count.failed} failed${skipped}\n`)
    })
  }
}

function outcomeOf(test: TestCase): 'passed' | 'failed' | 'skipped' {
  const { state } = test.result()
  // A test that never got an outcome did not pass: the run was cut short.
  return state === 'pending' ? 'failed' : state
}
