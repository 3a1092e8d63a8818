import { type Command, commands } from './commands.ts'

const columns = (rows: readonly (readonly [string, string])[]): string => {
  const width = Math.max(...rows.map(([left]) => left.length))
  return rows.map(([left, right]) => `  ${left.padEnd(width)}  ${right}\n`).join('')
}

const callOf = ({ command, operands }: Command): string => (operands === '' ? command : `${command} ${operands}`)

/** What `thickset --help` prints. */
export function generalHelp(): string {
  return [
    'thickset COMMAND …\n',
    'How long a very thick dessert must bake, cool, set and freeze: computed from the piece itself.\n\n',
    columns(commands.map((command) => [callOf(command), command.says])),
    '\n',
    columns([
      ['COMMAND --help', 'what a command can do'],
      ['--version', 'version of the program'],
    ]),
    '\nA plan is a .thickset file, or - for standard input. Results go to standard output, all else to standard error.\n',
    'Exit 0: done. 1: an outcome outside its tolerance. 2: plan or words wrong. 3: not finished, or stopped by Ctrl+C.\n',
    'Of many plans each goes on without the others: 2 when any was wrong, else 3 when any was not finished.\n',
  ].join('')
}

/** What `thickset COMMAND --help` prints. */
export function commandHelp(command: Command): string {
  const options = Object.entries(command.options).map(
    ([name, { value, says }]) => [`--${name}${value === undefined ? '' : ` ${value}`}`, says] as const,
  )
  return `thickset ${callOf(command)}\n${command.says}\n\n${columns(options)}`
}
