import { spawn, spawnSync } from 'node:child_process'
import {
  closeSync,
  existsSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'

/* The built command line as a person calls it: words in, standard output, standard error and exit code out. */

const root = join(import.meta.dirname, '..', '..')
const program = join(root, 'out', 'main', 'cli.js')
const folder = mkdtempSync(join(tmpdir(), 'thickset-cli-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

function thickset(words: readonly string[], input?: string) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    encoding: 'utf8',
    cwd: folder,
    timeout: 60_000,
    maxBuffer: 1e8,
    ...(input === undefined ? {} : { input }),
  })
  return { status, stdout, stderr, lines: stderr.trim().split('\n') }
}

function save(name: string, content: unknown): string {
  const path = join(folder, name)
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content))
  return path
}

const plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Almond cream, a hand high',
  startsAt: '2027-03-12T16:00',
  rules: ['fda-food-code-2022'],
  materials: { cream: { fixed: { k_W_mK: 0.48, rho_kg_m3: 1050, c_J_kgK: 3500 } } },
  piece: { shape: { kind: 'sheet', area_m2: 0.2 }, fill: [{ material: 'cream', thickness_mm: 90, start_C: 75 }] },
  stages: [{ name: 'Chill', in: { air_C: 3, h_W_m2K: 12 }, until: { after_h: 20 } }],
  targets: [{ kind: 'cooled', core_C: 10, by: '2027-03-13T08:00' }],
  probes: [{ name: 'upper, "thin"', y: 0.9 }],
}

describe('words', () => {
  it('starts with a line that runs it', () => {
    expect(readFileSync(program, 'utf8').startsWith('#!/usr/bin/env node\n')).toBe(true)
  })

  it('tells its version and its commands', () => {
    const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string }
    expect(thickset(['--version'])).toMatchObject({ status: 0, stdout: `${manifest.version}\n`, stderr: '' })
    const help = thickset(['--help'])
    expect(help).toMatchObject({ status: 0, stderr: '' })
    for (const command of [
      'forecast',
      'spread',
      'decide',
      'thickest',
      'fit',
      'sheet',
      'check',
      'material',
      'batch',
      'schema',
      'verify',
    ]) {
      expect(help.stdout).toContain(`  ${command}`)
      const own = thickset([command, '--help'])
      expect(own.status).toBe(0)
      expect(own.stdout).toContain(`thickset ${command}`)
    }
  })

  it.each([
    [[], 'thickset COMMAND'],
    [['forcast', 'plan.thickset'], 'write forecast'],
    [['bake'], 'write one of forecast, spread, decide, thickest, fit, check, material, batch, sheet, schema, verify'],
    [['forecast'], 'needs at least one PLAN'],
    [['decide', 'a', 'b'], '2 given'],
    [['forecast', 'a', 'b', '--csv', 'c'], 'name one plan with it'],
    [['forecast', '-', '-'], 'write - once'],
    [['forecast', 'a', 'b', '--jobs', '0'], 'write a whole number from 1'],
    [['forecast', '-', '--jason'], 'write --json'],
    [['forecast', '-', '--fidelity'], 'write --fidelity F'],
    [['forecast', '-', '--fidelity', 'finest'], 'quick, standard, fine'],
    [['forecast', '-', '--json=yes'], 'write --json alone'],
    [['forecast', '-', '--json', '--csv', '-'], 'write --csv FILE'],
    [['verify'], 'needs at least one FILE'],
    [['decide', '-', '--target', 'frozen'], 'ask for one of cooled'],
    [['decide', '-', '--rule', 'uk-doh-1989'], 'ask for one of fda-food-code-2022'],
    [['thickest', '-', '--from', 'thin'], 'write --from 120'],
    [['thickest', '-', '--number', 'fill[0].material'], 'name a number of the plan'],
    [['thickest', '-', '--layer', 'fill[7]'], 'name a number of the plan'],
    [['spread', '-', '--runs', 'many'], 'write a whole number from 20 to 20000'],
    [['spread', '-', '--seed', '1.5'], 'write a whole number from 0'],
    [['fit', '-'], 'write --readings LOG.csv'],
    [['fit', '-', '--factors', 'weather'], 'write some of film'],
    [['schema', 'x'], '1 given'],
    [['material'], 'needs one ID'],
    [['material', 'lemon-crem'], 'did you mean "lemon-cream"?'],
    [['material', 'butter', '--at', '20,warm'], '--at -18,20,60'],
    [['batch', '-', '--kg', '3'], 'write --layer NAME'],
    [['batch', '-', '--layer', 'fill[1]', '--kg', '3'], 'did you mean "fill[0]"?'],
    [['batch', '-', '--layer', 'cream'], 'write --kg N'],
    [['batch', '-', '--layer', 'cream', '--kg', 'much'], '--kg 24.5'],
  ])('refuses %j and says what would be right', (words, remedy) => {
    const call = thickset(words, JSON.stringify(plan))
    expect(call.status).toBe(2)
    expect(call.stdout).toBe('')
    expect(call.stderr).toContain(remedy)
  })

  it('names every wrong word at once', () => {
    expect(thickset(['decide', '--jsn', '--cvs', 'a', 'b']).lines).toHaveLength(3)
  })
})

describe('a plan that can be computed', () => {
  const path = save('cream.thickset', plan)

  it('is answered in words, answers first', () => {
    const { status, stdout, stderr } = thickset(['forecast', path])
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    const [title, , heading, answer] = stdout.split('\n')
    expect(title).toBe(plan.title)
    expect(heading).toBe('Answers')
    expect(answer).toMatch(
      /^ {2}(yes|no|not yet) .*cooled to 10\.0 °C: at \d\d:\d\d on .* \(\d\d:\d\d on .* to .*\), after /,
    )
    expect(stdout).toContain('\nCautions\n')
    expect(stdout).toContain('calibrated probe')
    expect(stdout).not.toMatch(/\bsafe\b/i)
  })

  it('is the same of a file of an older version, and says that it is one; a newer one is refused', () => {
    const formats = join(root, 'tests', 'support', 'formats')
    const of = (version: number) => thickset(['forecast', join(formats, `version-${version}.thickset`), '--csv', '-'])
    const [older, present] = [of(0), of(1)]
    expect(present).toMatchObject({ status: 0, stderr: '' })
    expect(present.stdout.split('\n').length).toBeGreaterThan(20)
    expect(older).toMatchObject({ status: 0, stdout: present.stdout })
    expect(older.lines).toEqual([
      'the file is of version 0 of the plan format: it is read as version 1, and saved as that',
    ])
    const newer = thickset(['forecast', '-'], JSON.stringify({ ...plan, version: 2, glaze: 'mirror' }))
    expect(newer).toMatchObject({ status: 2, stdout: '' })
    expect(newer.lines).toHaveLength(1)
    expect(newer.stderr).toContain('version: is 2, and this program reads up to 1')
  })

  it('is the same from standard input, and as an object', () => {
    const { status, stdout, stderr } = thickset(
      ['forecast', '-', '--json', '--fidelity', 'quick'],
      JSON.stringify(plan),
    )
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    const object = JSON.parse(stdout)
    expect(object).toMatchObject({ format: 'thickset-forecast', version: 1, title: plan.title })
    expect(object.model).toMatchObject({ dimensions: 1, fidelity: 'quick' })
    expect(object.model.energyResidual).toBeLessThan(1e-8)
    expect(object.model.wall_ms).toBeGreaterThan(0)
    expect(Object.keys(object.curves)).toEqual(['core', 'surface', 'mean', 'air', `probe:${plan.probes[0]?.name}`])
    for (const curve of Object.values<unknown[]>(object.curves)) expect(curve).toHaveLength(object.times_h.length)
    expect(object.stages).toEqual([{ name: 'Chill', from_h: 0, to_h: 20, endedBy: 'after_h' }])
    expect(object.answers[0]).toMatchObject({ target: 'cooled', by_h: 16 })
    expect(object.answers[0].early_h).toBeLessThan(object.answers[0].at_h)
    expect(object.answers[0].late_h).toBeGreaterThan(object.answers[0].at_h)
    expect(object.safety[0].rule).toBe('fda-food-code-2022')
    expect(object.cautions.every((caution: unknown) => typeof caution === 'string')).toBe(true)
    // 0.2 m² of 90 mm at 1050 kg/m³.
    expect(object.quantities.mass_kg).toBeCloseTo(18.9, 6)
  })

  it('gives its curves as a table of RFC 4180', () => {
    const table = join(folder, 'curves.csv')
    expect(thickset(['forecast', path, '--csv', table])).toMatchObject({ status: 0, stderr: '' })
    const text = readFileSync(table, 'utf8')
    expect(text.endsWith('\r\n')).toBe(true)
    const rows = text.trimEnd().split('\r\n')
    expect(rows[0]).toMatch(/^time_h,core_C,core_low_C,core_high_C,/)
    expect(rows[0]).toContain('"probe:upper, ""thin""_C"')
    expect(rows[1]?.split(',')[1]).toBe('75')
    const printed = thickset(['forecast', path, '--csv', '-'])
    expect(printed.stdout).toBe(text)
  })

  it('shows progress only where someone watches or asks', () => {
    const asked = thickset(['forecast', path, '--progress'])
    expect(asked.status).toBe(0)
    expect(asked.stderr).toMatch(/^\d+ % /)
  })

  it('passes the check', () => {
    const call = thickset(['check', path])
    expect(call).toMatchObject({ status: 0, stderr: '' })
    expect(call.stdout).toContain('can be computed')
  })

  it('fits the schema that is printed', () => {
    const { status, stdout } = thickset(['schema'])
    expect(status).toBe(0)
    const schema = JSON.parse(stdout)
    expect(schema.$schema).toContain('json-schema.org')
    for (const key of Object.keys(plan)) expect(schema.properties).toHaveProperty(key)
    for (const key of schema.required) expect(plan).toHaveProperty(key)
  })
})

describe('many plans in one call', () => {
  const impossible = { ...plan, materials: { cream: { fixed: { k_W_mK: 500, rho_kg_m3: 0.01, c_J_kgK: 0.01 } } } }
  const thick = (thickness_mm: number) => ({
    ...plan,
    title: `Cream of ${thickness_mm} mm`,
    piece: { ...plan.piece, fill: [{ ...plan.piece.fill[0], thickness_mm }] },
  })
  // The slowest first, so that those behind it are there before it.
  const files = [90, 40, 60, 20, 30].map((mm) => save(`many-${mm}.thickset`, thick(mm)))
  const documents = (stdout: string) =>
    stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line))
      .map(({ model: { wall_ms: _, ...model }, ...rest }) => ({ ...rest, model }))

  it('are printed one object a line in their order, the same for any number of jobs, each as on its own', () => {
    const calls = ['1', '2', '3'].map((jobs) => thickset(['forecast', ...files, '--json', '--jobs', jobs]))
    for (const { status, stderr } of calls) expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    const [one, ...others] = calls.map(({ stdout }) => documents(stdout))
    expect(one?.map(({ file }) => file)).toEqual(files)
    for (const other of others) expect(other).toEqual(one)
    const alone = documents(thickset(['forecast', files[2] ?? '', '--json']).stdout)
    expect([{ file: files[2], ...alone[0] }]).toEqual([one?.[2]])
  })

  it('go on past one that is wrong and one that cannot be finished, which are named', () => {
    const wrong = save('many-wrong.thickset', { ...plan, colour: 'yellow', startsAt: 'soon' })
    const failing = save('many-failing.thickset', impossible)
    const none = join(folder, 'many-none.thickset')
    const { status, stdout, lines } = thickset(['forecast', failing, wrong, none, files[3] ?? '', '--json'])
    expect(status).toBe(2)
    expect(documents(stdout).map(({ file }) => file)).toEqual([files[3]])
    expect(lines).toHaveLength(4)
    expect(lines[0]).toMatch(/^.*many-failing\.thickset: stopped in "Chill"/)
    for (const line of lines.slice(1, 3)) expect(line).toMatch(/^.*many-wrong\.thickset: (colour|startsAt|plan): .*; /)
    expect(lines[3]).toMatch(/^\S*many-none\.thickset: there is no such file/)
    expect(thickset(['forecast', failing, files[3] ?? '']).status).toBe(3)
  })

  it('are told in short, a caution once; standard input is one of them', () => {
    const { status, stdout, stderr } = thickset(['forecast', files[3] ?? '', '-', '--progress'], JSON.stringify(plan))
    expect(status).toBe(0)
    expect(stderr).toContain('100 % 2 of 2 plans')
    const [, first, second] = stdout.split(/^(?=\S)/m).map((text) => text.split('\n'))
    expect(first?.slice(0, 2)).toEqual([files[3], '  Cream of 20 mm'])
    expect(first?.[2]).toMatch(/^ {2}yes .*cooled to 10\.0 °C: at .* \(.* to .*\), after /)
    expect(second?.slice(0, 2)).toEqual(['-', `  ${plan.title}`])
    expect(stdout.match(/calibrated probe/g)).toHaveLength(1)
    expect(second?.at(-2)).toMatch(/^ {2}\d+ cautions? more, told above$/)
  })
})

describe('what cannot be used', () => {
  it('names six different faults in one run', () => {
    const faulty = {
      ...plan,
      colour: 'yellow',
      startsAt: '2027-02-30T16:00',
      rules: ['no-such-rule'],
      piece: {
        shape: { kind: 'sheet', area_m2: 'large' },
        fill: [{ material: 'creme', thickness_mm: -90, start_C: 75 }],
      },
    }
    const path = save('six.thickset', faulty)
    for (const command of ['forecast', 'check']) {
      const { status, stdout, lines } = thickset([command, path])
      expect(status).toBe(2)
      expect(stdout).toBe('')
      expect(lines).toHaveLength(6)
      for (const field of ['colour', 'startsAt', 'rules[0]', 'area_m2', 'thickness_mm', 'material'])
        expect(lines.filter((line) => line.split(':')[0]?.includes(field))).toHaveLength(1)
    }
  })

  it('refuses a plan of 100 MB without reading it', () => {
    const path = join(folder, 'huge.thickset')
    closeSync(openSync(path, 'w'))
    truncateSync(path, 100_000_000)
    const { status, stderr } = thickset(['forecast', path])
    expect(status).toBe(2)
    expect(stderr).toContain('100 MB')
    expect(thickset(['forecast', '-'], ' '.repeat(20_000_000)).status).toBe(2)
  })

  it.each([
    ['deep nesting', '['.repeat(100_000)],
    ['text that is no number', JSON.stringify(plan).replace('"thickness_mm":90', '"thickness_mm":NaN')],
    ['a number in quotes', JSON.stringify(plan).replace('"thickness_mm":90', '"thickness_mm":"NaN"')],
    ['a negative thickness', JSON.stringify(plan).replace('"thickness_mm":90', '"thickness_mm":-90')],
    ['nothing', ''],
    ['half a plan', JSON.stringify(plan).slice(0, 200)],
  ])('refuses %s', (_, text) => {
    const { status, stdout, stderr } = thickset(['forecast', '-'], text)
    expect(status).toBe(2)
    expect(stdout).toBe('')
    expect(stderr).toMatch(/: .*; /)
    expect(stderr).not.toContain('mistake in the program')
  })

  it.runIf(existsSync('/dev/zero'))('reads no further than it may, of what has no size too', () => {
    const endless = thickset(['check', '/dev/zero'])
    expect(endless).toMatchObject({ status: 2 })
    expect(endless.stderr).toMatch(/dev.zero: \d+ MB, more than the 5 MB that are read/)
    const log = thickset(['fit', save('short.thickset', plan), '--readings', '/dev/zero'])
    expect(log).toMatchObject({ status: 2 })
    expect(log.stderr).toMatch(/more than the 20 MB that are read/)
  })

  it('says what is wrong with a name', () => {
    expect(thickset(['forecast', join(folder, 'none.thickset')])).toMatchObject({ status: 2 })
    expect(thickset(['forecast', join(folder, 'none.thickset')]).stderr).toContain('no such file')
    expect(thickset(['forecast', folder]).stderr).toContain('folder')
  })

  it('ends with 3 when a computation cannot be finished, and says why', () => {
    const impossible = {
      ...plan,
      materials: { cream: { fixed: { k_W_mK: 500, rho_kg_m3: 0.01, c_J_kgK: 0.01 } } },
    }
    const { status, stdout, stderr } = thickset(['forecast', '-'], JSON.stringify(impossible))
    expect({ status, stdout }).toEqual({ status: 3, stdout: '' })
    expect(stderr).toContain('stopped in "Chill"')
  })
})

describe('verify', () => {
  const entry = {
    id: 'slab',
    geometry: { shape: 'slab', half_thickness_m: 0.06, symmetric: true },
    material: { k_W_mK: 0.48, rho_kg_m3: 1050, c_J_kgK: 3500 },
    initial: { T_C: 80 },
    boundary: { surface: { type: 'convection', h_W_m2K: 40, T_C: 4 } },
    outputs: [{ quantity: 'mean_temperature', t_s: 0, value: 80, unit: 'degC' }],
    tolerance: { abs_K: 0.1 },
  }
  const file = (...cases: unknown[]) => ({ format: { schema: 'thermal-validation-cases/1' }, cases })
  const at = (value: number) => ({ quantity: 'temperature', position: { x_m: 0 }, t_s: 36_000, value, unit: 'degC' })
  const own = JSON.parse(readFileSync(join(root, 'shared', 'reference', 'validation-cases.json'), 'utf8'))
  const byId = (id: string) => own.cases.find((one: { id: string }) => one.id === id)

  it('prints every output and ends with 0 when all are inside', () => {
    const path = save('good.json', file(byId('A1-slab-Bi5'), byId('E-half-round')))
    const { status, stdout, stderr } = thickset(['verify', path])
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    const lines = stdout.trimEnd().split('\n')
    expect(lines).toHaveLength(1 + 35 + 1 + 1)
    expect(lines[0]).toMatch(/^case +output +computed +expected +unit +error +tolerance/)
    expect(lines.at(-1)).toMatch(/^2 cases, 36 outputs, 0 outside, 1 not applicable \(1 because .*\)$/)
  })

  it('ends with 1 when one is outside', () => {
    const path = save('wrong.json', file({ ...entry, outputs: [at(60)] }))
    const { status, stdout } = thickset(['verify', path, '--fidelity', 'fine'])
    expect(status).toBe(1)
    expect(stdout).toContain('1 cases, 1 outputs, 1 outside')
  })

  it('gives the rows as an object', () => {
    const path = save('rows.json', file(byId('A4-bar')))
    const { status, stdout } = thickset(['verify', path, '--json'])
    expect(status).toBe(0)
    const { rows, summary } = JSON.parse(stdout)
    expect(summary).toMatchObject({ cases: 1, outputs: 23, outside: 0, notApplicable: 0 })
    expect(rows[0]).toMatchObject({ case: 'A4-bar', unit: 'degC', verdict: 'ok' })
    expect(rows[0].error).toBeLessThanOrEqual(rows[0].tolerance)
    expect(rows[0].source).toContain('Carslaw')
  })

  it('names a malformed case, runs the others and ends with 2', () => {
    const path = save(
      'malformed.json',
      file(byId('A4-bar'), { ...entry, geometry: { shape: 'slab', thickness_m: -1 } }),
    )
    const { status, stdout, stderr } = thickset(['verify', path])
    expect(status).toBe(2)
    expect(stdout).toContain('1 cases, 23 outputs, 0 outside')
    expect(stderr).toContain('slab.geometry.thickness_m')
  })

  it('says what it knows when it does not know a format', () => {
    const call = thickset(['verify', save('other.json', { format: 'something/9' }), save('none.json', '{')])
    expect(call.status).toBe(2)
    expect(thickset(['verify', join(folder, 'other.json')]).stderr).toContain('thermal-validation-cases/1')
  })
})

describe('a material', () => {
  it('is shown in words: a table over temperature, its freezing point, what is weak, its sources', () => {
    const { status, stdout, stderr } = thickset(['material', 'condensed-milk'])
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
    for (const words of ['begins to freeze at', 'k W/(m K)', 'more than 15 % off', 'Sources', 'USDA'])
      expect(stdout).toContain(words)
  })

  it('is printed as one object with whole curves, or at the temperatures that are asked', () => {
    const whole = JSON.parse(thickset(['material', 'milk-chocolate', '--json']).stdout)
    expect(whole.T_C.length).toBeGreaterThan(100)
    for (const key of ['k_W_mK', 'c_J_kgK', 'rho_kg_m3', 'enthalpy_J_kg', 'ice_share', 'solid_fat_share'])
      expect(whole[key]).toHaveLength(whole.T_C.length)
    const asked = thickset(['material', 'butter', '--at', '-18,20', '--json'])
    expect(JSON.parse(asked.stdout)).toMatchObject({ id: 'butter', T_C: [-18, 20], sources: expect.any(Array) })
    expect(thickset(['material', 'milk-pudding', '--at', '140']).stderr).toContain('where its properties hold: 140 °C')
  })

  it('of a plan shows its recipe, weighed by its densities and counts', () => {
    const recipe = { recipe: [{ ingredient: 'egg-whole', count: 10, unit: 'piece-L' }] }
    const path = save('own.thickset', { ...plan, materials: { ...plan.materials, beaten: recipe } })
    const call = thickset(['material', 'beaten', '--plan', path, '--json'])
    // middle of the EU class L without its shell: 60.5 g each
    expect(JSON.parse(call.stdout).recipe).toMatchObject({ put_together_kg: 0.605, allergens: ['egg'] })
  })
})

describe('a batch', () => {
  it('the piece is weighed out by layer', () => {
    const { status, stdout } = thickset(['batch', '-', '--json'], JSON.stringify(plan))
    expect(status).toBe(0)
    // 0.2 m² of 90 mm at 1050 kg/m³
    expect(JSON.parse(stdout)).toMatchObject({
      mass_kg: expect.closeTo(18.9, 9),
      layers: [{ name: 'fill[0]', thickness_m: 0.09 }],
      unknown: ['cream'],
    })
  })

  it('gives a layer its thickness', () => {
    const call = thickset(['batch', '-', '--layer', 'cream', '--kg', '10.5'], JSON.stringify(plan))
    expect(call.stdout).toContain('50 mm thick')
  })
})

describe('the sheet', () => {
  it('says when to do and to measure what, with the figures of the forecast', () => {
    const told = thickset(['sheet', '-'], JSON.stringify(plan))
    expect(told.status).toBe(0)
    for (const heading of ['Stages', 'Checks', 'Answers', 'Quantities', 'Cautions'])
      expect(told.stdout).toContain(`\n${heading}\n`)
    const page = JSON.parse(thickset(['sheet', '-', '--json'], JSON.stringify(plan)).stdout)
    const forecast = JSON.parse(thickset(['forecast', '-', '--json'], JSON.stringify(plan)).stdout)
    const checks = page.blocks.find((block: { title: string }) => block.title === 'Checks')
    const [when, , expected] = checks.rows.at(-1)
    expect(when).toBe('12:00 on Sat 13 Mar')
    expect(expected).toBe(`${forecast.curves.core.at(-1).toFixed(1)} °C`)
    expect(page.facts).toContainEqual(['Mass', `${forecast.quantities.mass_kg.toFixed(1)} kg`])
  })

  it.each(['A4', 'letter'])('goes to %s paper as PDF with its letters embedded, and to a calendar', (paper) => {
    const [pdf, calendar] = [join(folder, `${paper}.pdf`), join(folder, `${paper}.ics`)]
    const words = ['sheet', '-', '--pdf', pdf, '--paper', paper, '--calendar', calendar]
    expect(thickset(words, JSON.stringify(plan))).toMatchObject({ status: 0, stdout: '' })
    const written = readFileSync(pdf, 'latin1')
    expect(written.startsWith('%PDF-')).toBe(true)
    expect(written).toContain(paper === 'A4' ? '[0 0 595.28 841.89]' : '[0 0 612 792]')
    expect(written.match(/\/Type \/Page\b(?!s)/g)?.length).toBeLessThanOrEqual(2)
    expect(written.match(/\/FontFile2/g)?.length).toBe(2)
    expect(written.match(/\/ToUnicode/g)?.length).toBe(2)
    expect(readFileSync(calendar, 'utf8')).toContain('BEGIN:VEVENT')
  })

  it('refuses paper that is none, and a folder that is not there', () => {
    expect(thickset(['sheet', '-', '--paper', 'a9'], JSON.stringify(plan))).toMatchObject({ status: 2 })
    const lost = thickset(['sheet', '-', '--pdf', join(folder, 'none', 'x.pdf')], JSON.stringify(plan))
    expect(lost.status).toBe(2)
    expect(lost.stderr).toContain('could not be written')
  })
})

describe('spread', () => {
  const ask = ['spread', '-', '--fidelity', 'quick', '--runs', '40', '--seed', '3', '--json']

  it('gives the same numbers on one worker and on two', () => {
    const [one, two] = ['1', '2'].map((jobs) => thickset([...ask, '--jobs', jobs], JSON.stringify(plan)))
    expect(one).toMatchObject({ status: 0, stderr: '' })
    expect(two?.stdout).toBe(one?.stdout)
    const spread = JSON.parse(one?.stdout ?? '')
    expect(spread).toMatchObject({ format: 'thickset-spread', version: 1, runs: 40, seed: 3 })
    expect(spread.answers[0].p5_h).toBeLessThan(spread.answers[0].p95_h)
    expect(spread.answers[0].drivers[0]).toMatchObject({ input: 'heat passed by the air, all faces' })
    expect(spread.curves.core.p50).toHaveLength(spread.times_h.length)
  })

  it('shows its progress, and tells it in words', () => {
    const words = ['spread', '-', '--fidelity', 'quick', '--runs', '40', '--progress']
    const { status, stdout, stderr } = thickset(words, JSON.stringify(plan))
    expect(status).toBe(0)
    expect(stderr).toContain('spread, run')
    expect(stdout).toContain('40 runs, seed 1')
    expect(stdout).toContain('driven by')
  })

  it('names every wrong word at once', () => {
    expect(thickset(['spread', '-', '--runs', '3', '--seed', 'x'], JSON.stringify(plan)).lines).toHaveLength(2)
  })
})

// What other systems send for Ctrl+C can't be handed to a child of Windows.
describe.skipIf(process.platform === 'win32')('Ctrl+C', () => {
  /** Interrupts a call as soon as its progress says so. */
  function interrupted(words: readonly string[], at: RegExp) {
    const path = save('interrupted.thickset', plan)
    const child = spawn(process.execPath, [program, words[0] ?? '', path, ...words.slice(1), '--progress'])
    const said = { stdout: '', stderr: '' }
    child.stdout.on('data', (piece) => {
      said.stdout += piece
    })
    child.stderr.on('data', (piece) => {
      said.stderr += piece
      // A second one would end it as it usually does.
      if (!child.killed && at.test(said.stderr)) child.kill('SIGINT')
    })
    return new Promise<typeof said & { status: number | null }>((done) =>
      child.on('close', (status) => done({ ...said, status })),
    )
  }

  it('ends a spread with the runs that were done', async () => {
    const words = ['spread', '--fidelity', 'quick', '--runs', '4000', '--json']
    const { status, stdout, stderr } = await interrupted(words, /^\d+ % spread/m)
    expect(status).toBe(3)
    const { runs, answers } = JSON.parse(stdout)
    expect(runs).toBeGreaterThanOrEqual(100)
    expect(runs).toBeLessThan(4000)
    expect(answers[0].p5_h).toBeLessThan(answers[0].p95_h)
    expect(stderr).toMatch(new RegExp(`stopped after ${runs} of 4000 runs`))
  })
})

describe('fit', () => {
  const trial = {
    ...plan,
    title: 'Trial',
    fidelity: 'quick',
    piece: { shape: { kind: 'sheet', area_m2: 0.05 }, fill: [{ ...plan.piece.fill[0], thickness_mm: 40 }] },
    stages: [{ name: 'Chill', in: 'fridge-fan', until: { after_h: 12 } }],
    probes: [{ name: 'heart' }],
  }
  const big = { ...trial, title: 'Large', piece: plan.piece, stages: [{ ...trial.stages[0], until: { after_h: 60 } }] }
  /** A logger's file of a trial in a fridge that passes two thirds of the heat that is taken. */
  const measured = {
    ...trial,
    stages: [{ ...trial.stages[0], in: { like: 'fridge-fan', measured: { film_times: 0.66 } } }],
  }
  const logOf = (): string => {
    const csv = thickset(['forecast', '-', '--csv', '-'], JSON.stringify(measured)).stdout
    const [heading, ...lines] = csv.trim().split('\n')
    const column = heading!.split(',').findIndex((title) => /heart/.test(title) && !/early|late|low|high/.test(title))
    const rows = lines.map((line) => line.split(',')).filter(([hour]) => Number(hour) < 8)
    return ['hours;heart °F', ...rows.map((row) => `${row[0]};${(Number(row[column]) * 1.8 + 32).toFixed(1)}`)]
      .join('\n')
      .replaceAll('.', ',')
  }
  const log = join(folder, 'trial.csv')
  const path = save('trial.thickset', trial)
  const large = save('large.thickset', big)
  const kept = join(folder, 'kept.json')

  it('reads a log, says what it determines, keeps it, and scales a trial to the large piece', () => {
    writeFileSync(log, logOf())
    const call = thickset(['fit', path, '--readings', log, '--keep', kept, '--apply-to', large, '--json'])
    expect({ status: call.status, stderr: call.stderr }).toEqual({ status: 0, stderr: '' })
    const fit = JSON.parse(call.stdout)
    expect(fit).toMatchObject({ format: 'thickset-fit', version: 1, explained: true })
    const film = fit.derived.find(({ kind }: { kind: string }) => kind === 'film of a face')
    expect(film.determined).not.toBe('not')
    expect(film.low).toBeLessThan(0.66)
    expect(film.high).toBeGreaterThan(0.66)
    const [before, after] = [fit.applied.before[0], fit.applied.after[0]]
    expect(after.at_h).toBeGreaterThan(before.at_h)
    expect(after.late_h - after.early_h).toBeLessThan(before.late_h - before.early_h)
    // The same by the file that was kept, in a call of its own.
    const later = JSON.parse(thickset(['forecast', large, '--measured', kept, '--json']).stdout)
    expect(later.answers[0].at_h).toBe(after.at_h)
  })

  it('tells it in words', () => {
    const { stdout, status } = thickset(['fit', path, '--readings', log])
    expect(status).toBe(0)
    for (const heading of ['What the readings say', 'What they leave open', 'Readings', 'How it goes on'])
      expect(stdout).toContain(`\n${heading}`)
    expect(stdout).toContain('Behind by')
  })
})

describe('decide and thickest', () => {
  it('rank changes with the plans that they make', () => {
    const { status, stdout } = thickset(['decide', '-', '--fidelity', 'quick', '--json'], JSON.stringify(plan))
    expect(status).toBe(0)
    const decision = JSON.parse(stdout)
    expect(decision).toMatchObject({ format: 'thickset-decision', version: 1, question: { of: 'target', index: 0 } })
    const two = decision.ranked.find(({ changes }: { changes: string[] }) => changes[0] === 'two-pieces')
    expect(two.gain_h).toBeGreaterThan(3)
    expect(two.plan.piece.fill[0].thickness_mm).toBe(45)
    const told = thickset(['decide', '-', '--fidelity', 'quick'], JSON.stringify(plan)).stdout
    expect(told).toContain('What each change buys')
    expect(told).toContain('costs: ')
  })

  it('find how thick at most, with its band', () => {
    const { status, stdout } = thickset(['thickest', '-', '--fidelity', 'quick', '--json'], JSON.stringify(plan))
    expect(status).toBe(0)
    const limit = JSON.parse(stdout)
    expect(limit).toMatchObject({
      format: 'thickset-limit',
      version: 1,
      path: 'piece.fill[0].thickness_mm',
      end: 'greatest',
    })
    expect(limit.sure).toBeLessThan(limit.value)
    expect(limit.possible).toBeGreaterThan(limit.value)
  })
})
