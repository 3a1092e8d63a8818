import { expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import { readPlan } from '../../src/core/plan/read.ts'

/*
 * Two days of a half-round bar as one plan: a mould lined with almond sponge, hot rice pudding, a night and a day in
 * the freezer, a lid of chocolate, turned over and out of the mould, coated twice, held colder than it will be served,
 * cut into slices.
 */
const bar = {
  format: 'thickset-plan',
  version: 1,
  title: 'Rice pudding half-round',
  startsAt: '2027-02-05T15:00',
  fidelity: 'quick',
  materials: {
    'rice-pudding': { composition_pct: { water: 66, protein: 4, fat: 6, sugars: 14, starch: 9.5, ash: 0.5 } },
    'almond-sponge': {
      composition_pct: { water: 28, protein: 11, fat: 24, sugars: 26, starch: 8, fibre: 2, ash: 1 },
      air_pct: 45,
    },
  },
  piece: {
    shape: { kind: 'trough', radius_mm: 100, length_mm: 900 },
    lining: [{ material: 'almond-sponge', thickness_mm: 10, start_C: 20 }],
    fill: [{ material: 'rice-pudding', start_C: 82 }],
    mould: [{ faces: ['curved', 'ends'], material: 'stainless', thickness_mm: 1 }],
  },
  stages: [
    { name: 'On the bench', in: 'room-fan', until: { after_h: 1.5 } },
    {
      name: 'Freeze',
      in: 'upright-freezer',
      start: [{ do: 'cover', with: 'film' }],
      until: { core_C: -12, max_h: 44 },
    },
    {
      name: 'Lid',
      in: 'upright-freezer',
      start: [{ do: 'uncover' }, { do: 'pour', material: 'dark-chocolate', thickness_mm: 3, start_C: 33 }],
      until: { after_h: 1 },
    },
    {
      name: 'Turn out',
      in: 'upright-freezer',
      start: [{ do: 'turn' }, { do: 'unmould' }, { do: 'stand', on: 'board', board_mm: 12 }],
      until: { after_h: 0.5 },
    },
    {
      name: 'Coat',
      in: { like: 'room-still', air_C: 18 },
      start: [{ do: 'coat', material: 'dark-chocolate', yield_Pa: 12, start_C: 33, faces: ['curved'] }],
      until: { surface_C: 5, max_h: 0.3 },
      repeat: { times: 2 },
    },
    { name: 'Hold', in: 'cabinet-fridge', until: { clock: '2027-02-07T15:00' } },
    {
      name: 'Slice',
      in: { like: 'room-still', air_C: 20 },
      start: [{ do: 'cut', slice_mm: 30 }],
      until: { after_h: 0.5 },
    },
  ],
  targets: [{ kind: 'frozen', core_C: -12, by: '2027-02-07T15:00' }],
}

/** Names of numbers that are none, wherever they stand in what is told. */
function strange(value: unknown, path: string): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path]
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return []
  return Object.entries(value).flatMap(([key, one]) => strange(one, `${path}.${key}`))
}

test('a half-round bar of two days is one plan and one forecast', () => {
  const found = forecast(readPlan(JSON.stringify(bar)))
  const { curves, times_h, stages, model, answers, quantities, film } = found
  // Slices of a second grid are one cell thick: places at their cut faces are read there too.
  const { answers: _, ...told } = { ...found, curves: {}, bands: {}, film: [] }
  expect(strange(told, 'forecast')).toEqual([])
  expect(model.energyResidual).toBeLessThan(1e-8)
  expect(stages.map(({ name, endedBy }) => [name, endedBy])).toEqual([
    ['On the bench', 'after_h'],
    ['Freeze', 'core_C'],
    ['Lid', 'after_h'],
    ['Turn out', 'after_h'],
    ['Coat', expect.stringMatching(/surface_C|max_h/)],
    ['Coat (2)', expect.stringMatching(/surface_C|max_h/)],
    ['Hold', 'clock'],
    ['Slice', 'after_h'],
  ])
  // Two days by the clock, and half an hour of slices.
  expect(stages[6]!.to_h).toBeCloseTo(48, 9)
  expect(stages[7]!.to_h).toBeCloseTo(48.5, 9)
  expect(answers[0]!.answer).toBe('yes')
  // The warm lid brings the core within hundredths of a kelvin of -12 °C again; met is met before it is out.
  expect(answers[0]!.at_h!).toBeGreaterThan(stages[1]!.to_h - 0.001)
  expect(answers[0]!.at_h!).toBeLessThan(stages[4]!.from_h)
  // Nothing is colder than the freezer's air or warmer than the pudding was.
  for (const curve of [curves.core!, curves.mean!, curves.surface!])
    for (const [i, T_C] of curve.entries())
      expect(T_C, `after ${times_h[i]} h`).toSatisfy((at) => at > -30 && at < 82 + 1e-6)
  // Sponge and pudding fill half a cylinder, the lid lies between the linings, which go up with it; each coat goes round.
  const [radius, wall, lid, length] = [0.1, 0.01, 0.003, 0.9]
  const drained = quantities.layers[3]!.thickness_m!
  const halfTube = (inner: number, outer: number): number =>
    length * ((Math.PI / 2) * (outer ** 2 - inner ** 2) + 2 * (outer - inner) * lid)
  const volumes = [
    halfTube(radius - wall, radius),
    (length * Math.PI * (radius - wall) ** 2) / 2,
    2 * (radius - wall) * lid * length,
    halfTube(radius, radius + drained),
    halfTube(radius + drained, radius + 2 * drained),
  ]
  expect(quantities.layers).toHaveLength(volumes.length)
  for (const [i, volume] of volumes.entries()) expect(quantities.layers[i]!.volume_m3 / volume).toBeCloseTo(1, 9)
  expect(film.length).toBeGreaterThan(4)
})
