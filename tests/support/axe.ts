import type { AxeResults } from 'axe-core'
import axe from 'axe-core'
import type { Page } from 'playwright-core'

/** WCAG 2.2, level A and AA, as far as a browser can tell. */
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa']

/**
 * What was asked for is drawn: three frames, so that a change has begun and charts have measured their box, then until
 * none is going on. Colours change softly; what is looked at in between is neither.
 */
export async function settled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    for (let frame = 0; frame < 3; frame++) await new Promise((done) => requestAnimationFrame(done))
  })
  await page.waitForFunction(() => document.getAnimations().every(({ playState }) => playState !== 'running'))
}

/**
 * What is wrong with a page by WCAG 2.2 A and AA, once it is drawn: the rule, the element, and what would mend it.
 * @param rules  only these, such as that of contrast where nothing but colours has changed
 */
export async function complaintsOfAxe(page: Page, rules: readonly string[] = TAGS): Promise<string[]> {
  await settled(page)
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source)
  const { violations } = (await page.evaluate(`axe.run({ runOnly: ${JSON.stringify(rules)} })`)) as AxeResults
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary?.slice(0, 240)}`),
  )
}
