import { describe, expect, test } from 'vitest'
import { PlanError, sayFault } from '../../../src/core/errors.ts'
import { findPlanFaults, findTooLong, readPlan } from '../../../src/core/plan/read.ts'
import { PLAN_LIMIT, type Plan } from '../../../src/core/plan/schema/plan.ts'
import { aPlan } from './a-plan.ts'

/** Faults of a text, as lines. */
function refusal(text: string): string[] {
  try {
    readPlan(text)
    return []
  } catch (error) {
    if (error instanceof PlanError) return error.faults.map(sayFault)
    throw error
  }
}

/** Faults of anything in the place of a plan, after being written and read. */
const faultsOf = (value: unknown): string[] => refusal(JSON.stringify(value))

type Loose = Record<string, unknown>
/** The plain plan with parts replaced by what may be wrong. */
const plan = (change: Loose): Loose => ({ ...aPlan(), ...change })
const piece = (change: Loose): Loose => plan({ piece: { ...aPlan().piece, ...change } })
const stage = (change: Loose): Loose => plan({ stages: [{ ...aPlan().stages[0], ...change }] })
const fill = (change: Loose): Loose => piece({ fill: [{ ...aPlan().piece.fill[0], ...change }] })

test('a plain plan is read as it stands', () => {
  expect(readPlan(JSON.stringify(aPlan()))).toEqual(aPlan())
  expect(findPlanFaults(aPlan())).toEqual([])
})

test('six different faults, six messages, each with field, problem and remedy', () => {
  const faults = faultsOf(
    plan({
      rules: ['fda-food-code-2021'],
      piece: {
        shape: { kind: 'round', diameter_mm: 400 },
        fill: [{ material: 'pastry-creme', thickness_mm: -80, start_C: 80 }],
        mould: [{ faces: ['left'], material: 'steel', thickness_mm: 1 }],
      },
      stages: [{ name: 'Chill', in: 'fridge-static', until: {} }],
      readings: [{ probe: 'hart', at_h: 2, C: 41 }],
      probes: [{ name: 'heart' }],
    }),
  )
  expect(faults).toEqual([
    'piece.fill[0].thickness_mm: is −80; give a number at least 0.001 and at most 10000',
    'piece.fill[0].material: no material is called "pastry-creme"; did you mean "pastry-cream"?',
    'rules[0]: no rule is called "fda-food-code-2021"; did you mean "fda-food-code-2022"?',
    'piece.mould[0].faces[0]: a round has no face "left"; known are: bottom, top, sides, all',
    'stages[0].until: no end; give after_h, core_C or clock',
    'readings[0].probe: no probe is called "hart"; did you mean "heart"?',
  ])
})

describe('texts that are no plan at all', () => {
  test('100 MB are refused before they are looked at', () => {
    expect(refusal('x'.repeat(100_000_000))).toEqual([
      'plan: 100 MB of text; a plan may have 5 MB: give the plan file itself',
    ])
    expect(findTooLong(PLAN_LIMIT)).toBeUndefined()
    expect(findTooLong(PLAN_LIMIT + 1)?.problem).toBe('5.1 MB of text')
  })

  test('deep nesting', () => {
    const [said, ...more] = refusal(`{"piece":${'['.repeat(100_000)}`)
    expect(said).toContain('nested more than 32 levels deep')
    expect(more).toEqual([])
  })

  test('faults by the hundred thousand are counted, not overflowing', () => {
    const readings = Array.from({ length: 90_000 }, () => ({ probe: 3, at_h: 'x', C: null }))
    expect(faultsOf(plan({ readings }))).toHaveLength(1)
    const some = faultsOf(plan({ readings: readings.slice(0, 500) }))
    expect(some).toHaveLength(201)
    expect(some.at(-1)).toContain('1300 more faults')
  })

  test.each([
    ['[]', 'is an empty list'],
    ['3', 'is 3'],
    ['null', 'is null'],
    ['"plan"', 'is "plan"'],
  ])('%s', (text, said) => {
    const faults = refusal(text)
    expect(faults).toHaveLength(1)
    expect(faults[0]).toContain(`plan: ${said}; give an object { … } with format, version, title`)
  })

  test('strange keys by the hundred thousand are counted, and not all searched for what was meant', {
    timeout: 30_000,
  }, () => {
    const text = `{${Array.from({ length: 200_000 }, (_, index) => `"k${index}":1`).join(',')}}`
    const told = refusal(text)
    expect(told).toHaveLength(201)
    expect(told.at(-1)).toMatch(/^plan: \d+ more faults; mend those above first$/)
  })

  test('another format and another version', () => {
    expect(faultsOf(plan({ format: 'thickset-forecast' }))).toEqual([
      'format: is "thickset-forecast"; give "thickset-plan"',
    ])
    expect(faultsOf(plan({ version: 0.5 }))).toEqual(['version: is 0.5; give 1'])
  })
})

describe('values', () => {
  test.each(['NaN', 'Infinity', '-Infinity', '80', '80 °C', ''])('a number written as the text %j', (text) => {
    expect(faultsOf(fill({ start_C: text }))).toEqual([
      `piece.fill[0].start_C: is ${JSON.stringify(text)}; give a number at least −60 and at most 350`,
    ])
  })

  test('a number too large for any', () => {
    const text = JSON.stringify(fill({ start_C: 17 })).replace('17', '1e999')
    expect(refusal(text)).toEqual([
      'piece.fill[0].start_C: is too large a number; give a number at least −60 and at most 350',
    ])
  })

  test.each([0, -0.001, 10_001])('a thickness of %s mm', (thickness_mm) => {
    expect(faultsOf(fill({ thickness_mm }))[0]).toContain('piece.fill[0].thickness_mm: is ')
  })

  test('a word out of a choice', () => {
    expect(faultsOf(plan({ fidelity: 'fin' }))).toEqual([
      'fidelity: is "fin"; did you mean "fine"? Give one of "quick", "standard", "fine"',
    ])
    expect(faultsOf(piece({ shape: { kind: 'ruond', diameter_mm: 300 } }))).toEqual([
      'piece.shape.kind: is "ruond", which is unknown; did you mean "round"?',
    ])
    expect(faultsOf(piece({ shape: { diameter_mm: 300 } }))).toEqual([
      'piece.shape.kind: is missing; give one of "sheet", "bar", "block", "round", "tiers", "ring", "trough", "log", "dome", "ball", "shell", "stirred"',
    ])
  })

  test('names that are no names, dates that are no dates', () => {
    expect(
      faultsOf(plan({ materials: { 'my cream': { fixed: { k_W_mK: 0.4, rho_kg_m3: 1000, c_J_kgK: 3500 } } } }))[0],
    ).toContain('materials.my cream: has a name that cannot be used; give a name of letters, digits')
    expect(faultsOf(plan({ startsAt: 'tomorrow' }))).toEqual([
      'startsAt: is "tomorrow"; give a local date and time such as "2027-03-12T16:00"',
    ])
    expect(faultsOf(plan({ startsAt: '2027-02-29T16:00' }))).toEqual([
      'startsAt: "2027-02-29T16:00" is on no calendar or clock; give a date and time that exist',
    ])
  })
})

describe('what is wrong keeps nothing else from being checked', () => {
  test('a tier that is no tier', () => {
    const told = faultsOf(piece({ shape: { kind: 'tiers', tiers: [{ diameter_mm: 200, height_mm: 40 }, 10] } }))
    expect(told).toEqual(['piece.shape.tiers[1]: is 10; give an object { … } with diameter_mm'])
  })

  test('something done that nobody does, with a material that is no name', () => {
    const told = faultsOf(stage({ start: [{ do: 'por', material: 0, thickness_mm: 25, start_C: 73 }] }))
    expect(told).toEqual(['stages[0].start[0].do: is "por", which is unknown; did you mean "pour"?'])
  })
})

describe('keys', () => {
  test('a misspelt one is told once, with the one that was meant, though that one is missing', () => {
    const { title, ...rest } = aPlan()
    expect(faultsOf({ ...rest, titel: title })).toEqual([
      'titel: is not a key that belongs here; did you mean "title"?',
    ])
    expect(faultsOf(fill({ thickness: 3 }))).toEqual([
      'piece.fill[0].thickness: is not a key that belongs here; did you mean "thickness_mm"?',
    ])
  })

  test('one that resembles nothing gets the list of those there are', () => {
    expect(faultsOf(stage({ colour: 'blue' }))).toEqual([
      'stages[0].colour: is not a key that belongs here; known are: name, in, start, power_W, until, repeat',
    ])
  })

  test('of a shape, those of its kind', () => {
    expect(faultsOf(piece({ shape: { kind: 'round', diameter_mm: 300, length_mm: 300 } }))).toEqual([
      'piece.shape.length_mm: is not a key that belongs here; known are: kind, diameter_mm',
    ])
  })

  test('twice the same', () => {
    const text = JSON.stringify(aPlan()).replace('"version":1', '"version":1,"version":1')
    expect(refusal(text)).toEqual(['version: stands twice; keep one of the two (the second is in line 1, column 39)'])
  })
})

describe('materials', () => {
  const own = (material: unknown): string[] => faultsOf(plan({ materials: { mine: material } }))

  test('nothing, or something unknown', () => {
    expect(own({})).toEqual([
      expect.stringContaining('materials.mine: says nothing; give one of: fixed, table, composition_pct'),
    ])
    expect(own({ composition: { water: 60 } })).toEqual([
      'materials.mine: has no key that belongs here (composition); did you mean "composition_pct"?',
    ])
  })

  test('the fault lies in the kind that was meant', () => {
    expect(own({ fixed: { k_W_mK: 0.4, rho_kg_m3: 1000 } })).toEqual([
      'materials.mine.fixed.c_J_kgK: is missing; give a number above 0 and at most 20000',
    ])
    expect(own({ composition_pct: { water: 30, protein: 20 } })[0]).toContain('the shares add up to 50')
  })

  test('one of its own is known by name', () => {
    const materials = { mine: { fixed: { k_W_mK: 0.4, rho_kg_m3: 1000, c_J_kgK: 3500 } } }
    expect(faultsOf({ ...fill({ material: 'mine' }), materials })).toEqual([])
    expect(faultsOf({ ...fill({ material: 'mien' }), materials })).toEqual([
      'piece.fill[0].material: no material is called "mien"; did you mean "mine"?',
    ])
  })
})

describe('layers', () => {
  const ball = (change: Loose): string[] =>
    faultsOf(
      plan({
        piece: {
          shape: { kind: 'ball', diameter_mm: 100 },
          fill: [{ material: 'ganache', start_C: 30 }],
          ...change,
        },
      }),
    )

  test('a thickness is asked where layers lie on each other, and not where one fills the rest', () => {
    const [layer] = aPlan().piece.fill
    const { thickness_mm: _, ...rest } = layer!
    expect(faultsOf(piece({ fill: [rest] }))).toEqual([
      'piece.fill[0].thickness_mm: is missing; give the thickness in mm: a round is as high as its layers together',
    ])
    expect(ball({})).toEqual([])
    expect(ball({ fill: [layer] })).toEqual([
      'piece.fill[0].thickness_mm: is not asked; leave it out: the fill of a ball takes what the lining leaves',
    ])
    expect(ball({ fill: [rest, rest] })).toEqual([
      'piece.fill: has 2 layers, a ball holds one; make the outer ones linings',
    ])
    expect(ball({ lining: [{ material: 'ganache', start_C: 20 }] })).toEqual([
      'piece.lining[0].thickness_mm: is missing; give the thickness of the lining in mm',
    ])
  })

  test('a lining leaves room: less than the radius of a ball, than half the width of a bar', () => {
    const lining = (thickness_mm: number) => ({ lining: [{ material: 'sponge-crumb', thickness_mm, start_C: 20 }] })
    expect(ball(lining(49.9))).toEqual([])
    expect(ball(lining(50))[0]).toContain('keep all linings together under 50 mm')
    const bar = (thickness_mm: number) =>
      faultsOf(piece({ shape: { kind: 'bar', width_mm: 120, length_mm: 800 }, ...lining(thickness_mm) }))
    expect(bar(59)).toEqual([])
    expect(bar(60)[0]).toContain('keep all linings together under 60 mm')
  })

  test('nothing is poured on a ball', () => {
    const pour = { do: 'pour', material: 'ganache', thickness_mm: 10, start_C: 40 }
    expect(
      ball({}).concat(
        faultsOf({
          ...plan({}),
          piece: { shape: { kind: 'ball', diameter_mm: 100 }, fill: [{ material: 'ganache', start_C: 30 }] },
          stages: [{ name: 'x', in: 'fridge-static', start: [pour], until: { after_h: 1 } }],
        }),
      ),
    ).toEqual([
      'stages[0].start[0]: pour, but nothing can be laid on a ball as it lies; give it as the fill or a lining',
    ])
  })
})

describe('what is done at the start of a stage', () => {
  const film = { do: 'cover', with: 'film', faces: ['top'] }
  const twice = (first: unknown[], second: unknown[], change: Loose = {}): string[] =>
    faultsOf({
      ...piece(change),
      stages: [first, second].map((start, index) => ({
        name: `${index}`,
        in: 'fridge-static',
        ...(start.length > 0 ? { start } : {}),
        until: { after_h: 1 },
      })),
    })

  test('covers are kept in mind from stage to stage', () => {
    expect(twice([film], [{ do: 'uncover' }, film])).toEqual([])
    expect(twice([film], [film])).toEqual([
      'stages[1].start[0]: cover, but top is covered already; uncover first, or name other faces',
    ])
    expect(twice([film], [{ do: 'uncover', faces: ['sides'] }])).toEqual([
      'stages[1].start[0]: uncover, but nothing covers sides; name the faces that are covered, or none for all of them',
    ])
    expect(twice([], [{ do: 'uncover' }])).toEqual([
      'stages[1].start[0]: uncover, but nothing is covered here; take this out',
    ])
    expect(twice([film], [{ do: 'pour', material: 'ganache', thickness_mm: 8, start_C: 35 }])).toEqual([
      'stages[1].start[0]: pour, but the top is covered; uncover it first',
    ])
  })

  test('a cover of unusual thickness must say which', () => {
    expect(twice([{ do: 'cover', with: 'steel' }], [])).toEqual([
      'stages[0].start[0].thickness_mm: is missing; give it: Steel, carbon has no usual thickness',
    ])
  })

  test('one is taken out of a mould once, and only if there is one', () => {
    const mould = [{ faces: ['sides', 'bottom'], material: 'stainless', thickness_mm: 1 }]
    const unmould = [{ do: 'unmould' }]
    expect(twice([], unmould, { mould })).toEqual([])
    expect(twice(unmould, unmould, { mould })[0]).toContain(
      'stages[1].start[0]: unmould, but the piece is in no mould here',
    )
    expect(twice(unmould, [])[0]).toContain('stages[0].start[0]: unmould, but the piece is in no mould here')
  })
})

describe('surroundings', () => {
  test('an unknown name', () => {
    expect(faultsOf(stage({ in: 'chest-frezer' }))).toEqual([
      'stages[0].in: no surroundings is called "chest-frezer"; did you mean "chest-freezer"?',
    ])
    expect(faultsOf(stage({ in: { like: 'oven', air_C: 160 } }))[0]).toContain(
      'stages[0].in.like: no surroundings is called "oven"',
    )
  })

  test('each face must exchange heat somehow', () => {
    expect(faultsOf(stage({ in: { air_C: 4 } }))[0]).toContain('stages[0].in: h_W_m2K missing for any face')
    expect(
      faultsOf(stage({ in: { h_W_m2K: 8, faces: { top: { air_C: 4 }, bottom: { surface_C: 0 } } } }))[0],
    ).toContain('stages[0].in: air_C missing for sides')
    expect(faultsOf(stage({ in: { h_W_m2K: 0 } }))).toEqual([])
    expect(faultsOf(stage({ in: { surface_C: 0 } }))).toEqual([])
  })

  test('a surface that is held at a temperature has no film beside it', () => {
    expect(faultsOf(stage({ in: { surface_C: 0, h_W_m2K: 5 } }))).toEqual([
      'stages[0].in.surface_C: stands beside h_W_m2K; give either the temperature of the surface or its exchange with the air',
    ])
  })

  test('faces that the shape has not', () => {
    const bottomless = { air_C: 4, h_W_m2K: 8, faces: { curved: { h_W_m2K: 4 } } }
    expect(faultsOf(stage({ in: bottomless }))).toEqual([
      'stages[0].in.faces.curved: a round has no such face; known are: bottom, top, sides, all',
    ])
  })

  test('points in time go forward; two at one time are a jump', () => {
    const air = (air_C: unknown) => faultsOf(stage({ in: { air_C, h_W_m2K: 8 } }))
    expect(
      air([
        [0, 180],
        [4, 180],
        [4, 20],
      ]),
    ).toEqual([])
    expect(
      air([
        [0, 180],
        [4, 180],
        [3, 20],
      ]),
    ).toEqual(['stages[0].in.air_C[2]: goes back in time; list the points by rising hours'])
    expect(
      air([
        [0, 180],
        [4, 180],
        [4, 20],
        [4, 0],
      ]),
    ).toEqual(['stages[0].in.air_C[3]: is the third point at one time; keep two: before and after the jump'])
    expect(air([[0, '180']])).toEqual([
      'stages[0].in.air_C[0][1]: is "180"; give a number at least −60 and at most 350',
    ])
    expect(air([[0, 180, 4]])).toEqual([
      'stages[0].in.air_C[0]: is a list of 3; give a pair [a number at least 0, a number at least −60 and at most 350]',
    ])
  })
})

describe('ends and dates', () => {
  const ends = (...untils: unknown[]): string[] =>
    faultsOf(plan({ stages: untils.map((until, index) => ({ name: `${index}`, in: 'fridge-static', until })) }))

  test('a guard alone is no end', () => {
    expect(ends({ max_h: 10 })).toEqual(['stages[0].until: only a guard; give after_h, core_C or clock'])
    expect(ends({ core_C: 5 }, { clock: '07:00' })).toEqual([])
  })

  test('a clock that no clock shows, a date that has passed', () => {
    expect(ends({ clock: '25:00' })[0]).toContain('stages[0].until.clock: "25:00" is on no calendar or clock')
    expect(ends({ clock: '7 o’clock' })[0]).toContain('give a time of day such as "07:00"')
    expect(ends({ after_h: 20 }, { clock: '2027-03-13T12:00' })).toEqual([
      'stages[1].until.clock: lies before the stage begins; give a later date and time',
    ])
    expect(ends({ after_h: 19 }, { clock: '2027-03-13T12:00' })).toEqual([])
  })

  test('what is asked lies after the start', () => {
    const by = (moment: string) => faultsOf(plan({ targets: [{ kind: 'cooled', core_C: 5, by: moment }] }))
    expect(by('2027-03-12T16:00')).toEqual(['targets[0].by: lies before the start; give a time after 2027-03-12T16:00'])
    expect(by('2027-03-12T16:01')).toEqual([])
    expect(by('2027-04-31T16:01')[0]).toContain('is on no calendar')
  })

  test('a window has its upper end above', () => {
    expect(faultsOf(plan({ targets: [{ kind: 'baked', core_C: 96, most_C: 94 }] }))).toEqual([
      'targets[0].most_C: is not above core_C; give the upper end of the core window',
    ])
  })
})

test('probes have names of their own', () => {
  const probes = [{ name: 'heart' }, { name: 'heart' }, { name: 'core' }]
  expect(faultsOf(plan({ probes, readings: [{ probe: 'core', at_h: 1, C: 20 }] }))).toEqual([
    'probes[1].name: "heart" stands twice; give each probe its own name',
    'probes[2].name: "core" is found, not placed; choose another name',
  ])
})

test('no message shows a library’s own words', () => {
  const wrong: unknown = plan({
    version: '1',
    piece: { shape: 3, fill: {} },
    stages: [],
    targets: [{ kind: 'x' }, null],
    probes: 'a',
  })
  const faults = faultsOf(wrong)
  expect(faults.length).toBeGreaterThan(5)
  for (const said of faults) expect(said).not.toMatch(/invalid|expected|received|zod|undefined/i)
})

test('a plan as an object is examined like a text', () => {
  const broken: unknown = { ...aPlan(), title: 3 }
  expect(findPlanFaults(broken as Plan).map(sayFault)).toEqual(['title: is 3; give a text of at most 200 characters'])
})
