import { bridge } from '../bridge.ts'
import { useMaterialPage } from '../material/material-page.ts'
import { tell } from '../notices.ts'
import { useView } from '../view-store.ts'

/** Longest that the sheet may take to be there, ms. */
const PATIENCE_MS = 20_000

/** Shows the sheet and prints it once it is drawn. */
export async function printSheet(): Promise<void> {
  useMaterialPage.getState().close()
  useView.getState().show('sheet')
  const asked = performance.now()
  while (document.querySelector('.sheet-view article') === null) {
    if (performance.now() - asked > PATIENCE_MS) {
      tell('There is no sheet to print before the first forecast')
      return
    }
    await new Promise((drawn) => setTimeout(drawn, 50))
  }
  await bridge.print()
}
