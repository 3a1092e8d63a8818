#!/usr/bin/env node
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { run } from './cli/run.ts'

/*
 * The command line: words in, results on standard output, everything else on standard error. What a command needs is
 * loaded when it is called, so that each starts quickly.
 */

// A reader that has seen enough (`| head`) is no failure.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0)
  throw error
})

const version = (): string => {
  const manifest = join(import.meta.dirname, '..', '..', 'package.json')
  return (JSON.parse(readFileSync(manifest, 'utf8')) as { version: string }).version
}

process.exitCode = await run(process.argv.slice(2), version)
