import { Cancelled, ComputeError, PlanError } from '../../core/errors.ts'
import { type Command, commands } from './commands.ts'
import { DONE, UNFINISHED, WRONG } from './exit-codes.ts'
import { commandHelp, generalHelp } from './help.ts'
import { faultLines, meant, sortWords, wordFault } from './words.ts'

const asksHelp = (word: string | undefined): boolean => word === '--help' || word === '-h' || word === 'help'

function findCommand(word: string): Command {
  const found = commands.find(({ command }) => command === word)
  if (found !== undefined) return found
  const names = commands.map(({ command }) => command)
  const near = meant(word, names)
  throw wordFault(
    `"${word}" is no command`,
    near === undefined ? `write one of ${names.join(', ')}, or --help` : `write ${near}`,
  )
}

async function carryOut(words: readonly string[], version: () => string): Promise<number> {
  const [first, ...rest] = words
  if (first === undefined) {
    process.stderr.write(generalHelp())
    return WRONG
  }
  if (first === '--version' || first === '-V') {
    process.stdout.write(`${version()}\n`)
    return DONE
  }
  if (asksHelp(first)) {
    const about = rest.find((word) => !word.startsWith('-'))
    process.stdout.write(about === undefined ? generalHelp() : commandHelp(findCommand(about)))
    return DONE
  }
  const command = findCommand(first)
  if (rest.some((word) => word === '--help' || word === '-h')) {
    process.stdout.write(commandHelp(command))
    return DONE
  }
  const sorted = sortWords(command, rest)
  const carry = await command.load()
  return carry(sorted)
}

/** Carries out the words after `thickset`; gives the exit code. */
export async function run(words: readonly string[], version: () => string): Promise<number> {
  try {
    return await carryOut(words, version)
  } catch (error) {
    if (error instanceof PlanError) {
      process.stderr.write(faultLines(error.faults))
      return WRONG
    }
    if (error instanceof ComputeError || error instanceof Cancelled) {
      process.stderr.write(`${error.message}\n`)
      return UNFINISHED
    }
    process.stderr.write(
      `A mistake in the program itself, please report it:\n${error instanceof Error ? error.stack : error}\n`,
    )
    return UNFINISHED
  }
}
