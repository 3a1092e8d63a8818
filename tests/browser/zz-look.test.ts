import { mkdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { it } from 'vitest'
import { openBrowser, openPage } from '../support/chromium.ts'
import { startProgram } from '../support/program.ts'

const layer = (material: string, thickness_mm: number, start_C = 20) => ({ material, thickness_mm, start_C })
const rest = [{ name: 'Rest', in: { air_C: 4, h_W_m2K: 8 }, start: [{ do: 'coat', material: 'dark-chocolate', thickness_mm: 3, start_C: 32 }], until: { after_h: 2 } }]
const lined = [layer('sponge-crumb', 8), layer('dark-chocolate', 4)]
const shapes: Record<string, unknown> = {
  sheet: { shape: { kind: 'sheet' }, fill: [layer('egg-custard', 40, 60), layer('air', 6), layer('sponge-crumb', 12)] },
  bar: { shape: { kind: 'bar', width_mm: 160, length_mm: 700 }, lining: lined, fill: [layer('egg-custard', 30), layer('air', 8), layer('sponge-crumb', 12)], inserts: [{ material: 'fruit-puree', start_C: 4, margin_mm: 9 }], mould: [{ faces: ['sides', 'bottom'], material: 'silicone', thickness_mm: 6 }] },
  round: { shape: { kind: 'round', diameter_mm: 200 }, lining: lined, fill: [layer('egg-custard', 60)] },
  tiers: { shape: { kind: 'tiers', tiers: [{ diameter_mm: 260, height_mm: 50 }, { diameter_mm: 180, height_mm: 40 }, { diameter_mm: 100 }] }, fill: [layer('sponge-crumb', 60), layer('egg-custard', 20), layer('sponge-crumb', 50)] },
  ring: { shape: { kind: 'ring', outer_mm: 260, inner_mm: 80 }, lining: lined, fill: [layer('egg-custard', 60)] },
  trough: { shape: { kind: 'trough', radius_mm: 110, length_mm: 700 }, lining: [layer('sponge-crumb', 8)], fill: [layer('egg-custard', 40), layer('fruit-puree', 25), layer('sponge-crumb', 12)], inserts: [{ material: 'butter', start_C: 4, margin_mm: 9 }] },
  dome: { shape: { kind: 'dome', radius_mm: 110 }, lining: [layer('dark-chocolate', 8)], fill: [layer('dark-chocolate', 8), { material: 'air', start_C: 20 }] },
  log: { shape: { kind: 'log', diameter_mm: 140, length_mm: 600 }, lining: lined, fill: [{ material: 'egg-custard', start_C: 20 }] },
  ball: { shape: { kind: 'ball', diameter_mm: 160 }, lining: lined, fill: [{ material: 'egg-custard', start_C: 20 }], inserts: [{ material: 'fruit-puree', start_C: 4, margin_mm: 20 }] },
  shell: { shape: { kind: 'shell', diameter_mm: 160, hollow_mm: 90 }, fill: [{ material: 'dark-chocolate', start_C: 20 }] },
  stirred: { shape: { kind: 'stirred', volume_L: 8 }, fill: [{ material: 'egg-custard', start_C: 20 }] },
}
it('looks', async () => {
  const browser = await openBrowser()
  const program = await startProgram()
  await mkdir(program.plansFolder, { recursive: true })
  for (const dark of [false, true])
    for (const width of [1280, 390]) {
      const context = await browser.newContext({ viewport: { width, height: 1000 }, colorScheme: dark ? 'dark' : 'light' })
      const { page } = await openPage(context, program.origin)
      for (const [kind, piece] of Object.entries(shapes)) {
        if ((dark || width === 390) && !['bar', 'tiers', 'trough', 'dome'].includes(kind)) continue
        const stages = kind === 'stirred' ? [{ ...rest[0], start: [] }] : kind === 'bar' ? [...[{ ...rest[0], start: [{ do: 'unmould' }, ...rest[0]!.start, { do: 'cut', across: 3, along: 8 }] }]] : rest
        await writeFile(join(program.plansFolder, `${kind}.thickset`), JSON.stringify({ format: 'thickset-plan', version: 1, title: kind, startsAt: '2027-03-12T16:00', fidelity: 'quick', piece, stages }))
        await page.goto(program.host.newAddress())
        await page.waitForTimeout(700)
        await page.keyboard.press('Control+O')
        await page.getByRole('dialog').getByRole('button', { name: kind, exact: true }).first().click()
        await page.locator('.section-drawing').first().waitFor({ timeout: 8000 }).catch(() => console.log('no drawing', kind))
        await page.waitForTimeout(500)
        await page.screenshot({ path: `/tmp/shots/${kind}-${width}${dark ? '-dark' : ''}.png`, clip: { x: 0, y: 0, width: Math.min(width, 400), height: 1000 } })
      }
      await context.close()
    }
  await browser.close()
  await program.stop()
}, 240_000)
