import { readdirSync, readFileSync } from 'node:fs'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, test } from 'vitest'
import manifest from '../../package.json'
import cases from '../../shared/reference/validation-cases.json'
import { PLAN_VERSION } from '../../src/core/plan/schema/plan.ts'
import {
  type Evidence,
  type EvidenceRow,
  explained,
  fileEvidence,
  totals,
} from '../../src/core/verification/evidence.ts'
import { verifyCases } from '../../src/core/verification/verify.ts'
import { EvidenceBody } from '../../src/renderer/evidence/EvidenceBody.tsx'
import type { Collected } from '../evidence/collect.ts'
import { convergence } from '../evidence/convergence.ts'
import { referenceFiles, verified } from '../evidence/files.ts'
import { evidenceHtml } from '../evidence/html.tsx'
import { keptEvidence, keptText, oldCases, oldRows, RENEW } from '../evidence/kept.ts'
import { evidenceMarkdown } from '../evidence/markdown.ts'
import { convergencePicture, measuredPicture } from '../evidence/picture.tsx'
import { residuals } from '../evidence/residuals.ts'
import { knownMisses } from './known-misses.ts'

/*
 * The page of evidence: that what is kept of it for the window is what is computed, that it names every case, and that
 * it would tell a miss. Cases, measurements and formulae are compared where they are computed: validation-cases,
 * measured, freezing-formulae.
 */

const folder = new URL('../../shared/examples/', import.meta.url)
const plans = readdirSync(folder).map((name) => readFileSync(new URL(name, folder), 'utf8'))

describe('what is kept for the window', () => {
  test('is of this program and this format of plans', () => {
    expect({ program: keptEvidence.program, planVersion: keptEvidence.planVersion }, RENEW).toEqual({
      program: manifest.version,
      planVersion: PLAN_VERSION,
    })
    expect(keptEvidence.madeOn).toMatch(/^\d{4}-\d{2}-\d{2}$/)
  })

  test.each(referenceFiles.slice(1).map((file) => [file.id, file] as const))('%s is as computed', (id, file) => {
    const { cases: count, rows } = verified(file, knownMisses)
    const kept = keptEvidence.files.find((one) => one.id === id)
    expect(oldCases(kept, fileEvidence(file, count, rows)), RENEW).toEqual([])
  })

  test('convergence is as computed, and of second order', () => {
    const now = convergence(cases.cases)
    expect(now.map((study) => study.case)).toEqual(keptEvidence.convergence.map((study) => study.case))
    for (const [index, study] of now.entries()) {
      const kept = keptEvidence.convergence[index]!
      expect(study.order, study.case).toBeGreaterThan(1.85)
      expect(Math.abs(study.order - kept.order), RENEW).toBeLessThan(0.1)
      for (const [place, { error_K }] of study.points.entries())
        expect(Math.abs(error_K / kept.points[place]!.error_K - 1), RENEW).toBeLessThan(0.1)
    }
  })

  test('the books of heat are those of the examples, and close', () => {
    const now = residuals(plans)
    expect(keptEvidence.residuals.map(({ of }) => of).sort(), RENEW).toEqual(now.map(({ of }) => of).sort())
    for (const { of, residual } of [...now, ...keptEvidence.residuals]) expect(residual, of).toBeLessThan(1e-8)
  }, 240_000)

  test('an older figure is noticed', () => {
    const file = keptEvidence.files[1]!
    const moved = file.cases.map((one, index) =>
      index > 0 || one.worst === undefined ? one : { ...one, worst: { ...one.worst, computed: 1e9 } },
    )
    expect(oldCases({ ...file, cases: moved }, file)).toEqual([file.cases[0]!.case])
    expect(oldCases(undefined, file)).toHaveLength(file.cases.length)
    const [first, ...others] = keptEvidence.measured
    expect(oldRows(others, keptEvidence.measured)).toEqual([`${first!.case}, ${first!.output}`])
    expect(oldRows(keptEvidence.measured, others)).toEqual([`${first!.case}, ${first!.output}`])
  })

  test('its file is written the same again', () => {
    expect(keptText(keptEvidence)).toBe(
      readFileSync(new URL('../../shared/evidence/evidence.json', import.meta.url), 'utf8'),
    )
  })
})

/** The pages of some evidence. */
function pages(collected: Collected): Readonly<Record<string, string>> {
  return {
    html: evidenceHtml(collected),
    markdown: evidenceMarkdown(collected),
    window: renderToStaticMarkup(<EvidenceBody evidence={collected.evidence} />),
  }
}

/** As the page is made, from the kept figures: every case has its worst one for a row, or those that were not judged. */
const rowsOf = ({ files }: Evidence): Collected['rows'] =>
  Object.fromEntries(files.map((file) => [file.id, [...file.cases.flatMap(({ worst }) => worst ?? []), ...file.left]]))

describe.each(Object.entries(pages({ evidence: keptEvidence, rows: rowsOf(keptEvidence) })))(
  'the page as %s',
  (_, page) => {
    test('names every case of every file, with its source', () => {
      for (const { cases: own } of keptEvidence.files)
        for (const one of own) expect(page.includes(one.case), one.case).toBe(true)
      const text = page.replaceAll('&amp;', '&')
      const ids = new Set(keptEvidence.files.flatMap((file) => file.cases.map((one) => one.case)))
      for (const { id, source } of cases.cases) {
        expect(ids.has(id), id).toBe(true)
        expect(text.includes(source.ref), source.ref).toBe(true)
      }
    })

    test('tells every miss with its reason, what was not judged and why, and how many of each', () => {
      const { figures, outside, unexplained, left } = totals(keptEvidence)
      expect(unexplained).toBe(0)
      expect(outside).toBeGreaterThan(0)
      const text = page.replaceAll(',', '')
      expect(text).toContain(`${figures} figures`)
      expect(text).toMatch(new RegExp(`${outside} (lie )?outside`))
      expect(text).toMatch(new RegExp(`${left} (were )?not judged`))
      for (const { known } of keptEvidence.files.flatMap((file) => file.outside)) expect(page).toContain(known)
      for (const file of keptEvidence.files)
        for (const { reason } of file.summary.reasons) expect(page.replaceAll('&quot;', '"')).toContain(reason)
    })

    test('names program, format and day, and never says more than was computed', () => {
      expect(page).toContain(
        `Program ${manifest.version}, plan format ${PLAN_VERSION}, computed on ${keptEvidence.madeOn}`,
      )
      expect(/\bsafe\b|guarantee/i.exec(page)?.[0]).toBeUndefined()
      expect(/.{40}(undefined|NaN|Infinity)/.exec(page)?.[0]).toBeUndefined()
    })
  },
)

describe('a made-up miss', () => {
  const chosen = cases.cases.find(({ id }) => id === 'B-cengel-egg')!
  const changed = structuredClone(chosen) as { outputs: { value: number }[] }
  changed.outputs[0]!.value *= 1.5
  const evidenceOf = (rows: readonly EvidenceRow[]): Collected => {
    const file = fileEvidence({ id: 'made-up', title: 'Made up', source: 'nowhere' }, 1, rows)
    return { evidence: { ...keptEvidence, files: [file], measured: [] }, rows: { 'made-up': rows } }
  }
  const { rows } = verifyCases([changed], { fidelity: 'standard' })

  test('shows on every page as outside, its reason not known, and is counted', () => {
    const told = evidenceOf(rows.map((row) => explained(row, knownMisses)))
    expect(totals(told.evidence)).toMatchObject({ figures: rows.length, outside: 1, unexplained: 1 })
    for (const [kind, page] of Object.entries(pages(told))) {
      expect(page, kind).toContain('B-cengel-egg')
      expect(page, kind).toMatch(/1 (lies )?outside/)
      expect(page, kind).toContain('Outside, reason not known')
      expect(page, kind).toMatch(/without a known reason/)
    }
  })

  test('shows with its reason once there is one, and not at all where nothing is outside', () => {
    const reason = 'The book was printed upside down.'
    const told = evidenceOf(rows.map((row) => explained(row, [{ case: 'B-cengel-egg', output: '', reason }])))
    expect(totals(told.evidence)).toMatchObject({ outside: 1, unexplained: 0 })
    for (const page of Object.values(pages(told))) expect(page).toContain(reason)
    const good = evidenceOf(verifyCases([chosen], { fidelity: 'standard' }).rows)
    expect(totals(good.evidence)).toMatchObject({ outside: 0, unexplained: 0 })
    for (const page of Object.values(pages(good))) expect(page).not.toMatch(/reason (not )?known/)
  })

  test('so does a figure that could not be computed', () => {
    const failed: EvidenceRow = { case: 'X', output: 'y', unit: 'K', verdict: 'outside', reason: 'steps vanish' }
    for (const page of Object.values(pages(evidenceOf([failed])))) {
      expect(page).toContain('steps vanish')
      expect(page).toContain('Outside, reason not known')
    }
  })
})

test('pictures stand by themselves and say what they show', () => {
  const pictures = [measuredPicture(keptEvidence.measured), ...keptEvidence.convergence.map(convergencePicture)]
  for (const picture of pictures) {
    expect(picture).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg"/)
    expect(picture).toContain('aria-label=')
    expect(picture).not.toMatch(/NaN|Infinity/)
  }
})
