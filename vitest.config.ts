import { defineConfig } from 'vitest/config'

// The tests run from the packages' sources; only the command-line tests need the built bundle.
export default defineConfig({
  resolve: { conditions: ['@lockwright/source'] },
  ssr: { resolve: { conditions: ['@lockwright/source'] } },
  test: {
    include: ['packages/*/src/**/*.test.{ts,tsx}', 'tests/**/*.test.ts'],
    reporters: ['default', './.ci/summary-reporter.mjs'],
    // Two cores are what CI has; by itself the runner would keep one of them idle.
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 60_000
  }
})
