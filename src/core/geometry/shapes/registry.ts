import { ball } from './ball.ts'
import { bar } from './bar.ts'
import { block } from './block.ts'
import { dome } from './dome.ts'
import { log } from './log.ts'
import { ring } from './ring.ts'
import { round } from './round.ts'
import { sheet } from './sheet.ts'
import { shell } from './shell.ts'
import { stirred } from './stirred.ts'
import { tiers } from './tiers.ts'
import { trough } from './trough.ts'

/** Every shape, in the order in which they are offered: a new one is a file beside these and a line here. */
export const shapes = [sheet, bar, block, round, tiers, ring, trough, log, dome, ball, shell, stirred] as const
