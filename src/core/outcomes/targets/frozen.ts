import type { Judge } from '../target.ts'
import { judgeFallen } from './fallen.ts'

/** Frozen: the last place has come down to the asked temperature; how much of its water is ice is the material's word. */
export const judgeFrozen: Judge<'frozen'> = judgeFallen
