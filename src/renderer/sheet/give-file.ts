import type { Reply } from '../../main/contract.ts'
import { tell } from '../notices.ts'
import { withTelling } from '../plan-files.ts'

/** Gives a file out and says where it went; what goes wrong is told. */
export function giveFile(give: () => Promise<Reply<'exportFile'>>): void {
  const work = withTelling(async () => {
    const given = await give()
    if (given.outcome === 'cancelled') return
    const place = given.folder === '' ? '' : ` in ${given.folder}`
    tell(`Saved ${given.name}${place}`)
  })
  work.catch(() => undefined)
}
