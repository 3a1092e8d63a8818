import type { Change } from '../change.ts'
import { blastChiller } from './blast-chiller.ts'
import { blastFreezer } from './blast-freezer.ts'
import { chillBase } from './chill-base.ts'
import { colderSetting } from './colder-setting.ts'
import { fan } from './fan.ts'
import { iceBath } from './ice-bath.ts'
import { longerBake } from './longer-bake.ts'
import { longerRest } from './longer-rest.ts'
import { lowerOven } from './lower-oven.ts'
import { metalMould } from './metal-mould.ts'
import { pourCooler } from './pour-cooler.ts'
import { smallerLoad } from './smaller-load.ts'
import { spacers } from './spacers.ts'
import { startEarlier } from './start-earlier.ts'
import { thinner } from './thinner.ts'
import { twoPieces } from './two-pieces.ts'
import { twoPours } from './two-pours.ts'
import { uncoverFirstHour } from './uncover-first-hour.ts'

/** Every change that is tried; one more is a file and a line here. */
export const changes: readonly Change[] = [
  thinner,
  twoPieces,
  twoPours,
  pourCooler,
  chillBase,
  metalMould,
  spacers,
  fan,
  colderSetting,
  blastChiller,
  blastFreezer,
  iceBath,
  uncoverFirstHour,
  smallerLoad,
  startEarlier,
  longerRest,
  lowerOven,
  longerBake,
]
