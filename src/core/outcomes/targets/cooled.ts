import type { Judge } from '../target.ts'
import { judgeFallen } from './fallen.ts'

/** Cooled: the last place has come down to the asked temperature. */
export const judgeCooled: Judge<'cooled'> = judgeFallen
