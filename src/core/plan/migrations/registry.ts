import { from0 } from './from-0.ts'
import type { Migration } from './migration.ts'

/** Every step from an older plan file, in order; the place of each is the version that it takes. */
export const migrations: readonly Migration[] = [from0]
