/*
 * Commands of the papers that a clone runs on itself. Within the tests they would build, fetch or start the tests again;
 * so it is said where each is run, and the test looks there.
 */
export const cloneCommands: Readonly<Record<string, { readonly runBy: string; readonly as: string }>> = {
  'npm ci': { runBy: '.ci/run', as: 'npm ci' },
  'npm start': { runBy: 'tests/main/launch.test.ts', as: "'start.mjs'" },
  'npm run build': { runBy: 'tests/support/build-once.ts', as: "'build.mjs'" },
  'npm test': { runBy: '.ci/run', as: 'npm test' },
  'npm run types': { runBy: '.ci/run', as: 'npm run types' },
  'npm run lint': { runBy: '.ci/run', as: 'npm run lint' },
}

export const isOfClone = (words: string): boolean => Object.hasOwn(cloneCommands, words)
