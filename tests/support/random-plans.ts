import fc from 'fast-check'

/*
 * Plans at random: any shape, layers, surroundings, things done and ends. Most can be carried out; the others must be
 * refused with a reason. Nothing gets so hot that water boils: what a batter does then is tested elsewhere.
 */

const temperature = (low: number, high: number) => fc.integer({ min: low, max: high })
const mm = (low: number, high: number) => fc.integer({ min: low, max: high })

const materials = [
  'egg-custard',
  'sponge-crumb',
  'dark-chocolate',
  'whipped-cream',
  'fruit-puree',
  'butter',
  'plain',
  'batter',
] as const
const material = fc.constantFrom(...materials)

/** The plans' own materials: one without any change of phase, one that conducts well. */
export const ownMaterials = {
  plain: { fixed: { k_W_mK: 0.4, rho_kg_m3: 900, c_J_kgK: 3000 } },
  batter: { composition_pct: { water: 40, protein: 8, fat: 15, sugars: 25, starch: 12 }, air_pct: 30 },
}

const shape = fc.oneof(
  fc.constant({ kind: 'sheet' as const, area_m2: 0.3 }),
  fc.record({ kind: fc.constant('bar' as const), width_mm: mm(80, 300), length_mm: mm(150, 900) }),
  fc.record({ kind: fc.constant('block' as const), width_mm: mm(80, 300), length_mm: mm(80, 400) }),
  fc.record({ kind: fc.constant('round' as const), diameter_mm: mm(80, 400) }),
  fc.record({ kind: fc.constant('ring' as const), outer_mm: mm(160, 400), inner_mm: mm(20, 120) }),
  fc.record({
    kind: fc.constant('trough' as const),
    radius_mm: mm(60, 200),
    length_mm: mm(150, 900),
    flat: fc.constantFrom('up' as const, 'up' as const, 'down' as const),
  }),
  fc.record({ kind: fc.constant('log' as const), diameter_mm: mm(60, 300), length_mm: mm(150, 900) }),
  fc.record({
    kind: fc.constant('dome' as const),
    radius_mm: mm(60, 200),
    flat: fc.constantFrom('up' as const, 'down' as const),
  }),
  fc.record({ kind: fc.constant('ball' as const), diameter_mm: mm(60, 250) }),
  fc.record({ kind: fc.constant('shell' as const), diameter_mm: mm(80, 250), hollow_mm: mm(10, 70) }),
  fc
    .array(fc.record({ diameter_mm: mm(80, 300), height_mm: mm(5, 60) }), { minLength: 1, maxLength: 3 })
    .map((tiers) => ({
      kind: 'tiers' as const,
      tiers: tiers.map(({ diameter_mm, height_mm }, index) =>
        index === tiers.length - 1 ? { diameter_mm } : { diameter_mm, height_mm },
      ),
    })),
  fc.record({ kind: fc.constant('stirred' as const), volume_L: fc.integer({ min: 1, max: 60 }) }),
)

const layer = (thick: fc.Arbitrary<number>) =>
  fc.record({ material, thickness_mm: thick, start_C: temperature(-15, 90) })

/** The same, now and then of air. */
const anyLayer = (thick: fc.Arbitrary<number>) =>
  fc
    .tuple(layer(thick), fc.integer({ min: 0, max: 7 }))
    .map(([one, dice]) => (dice === 0 ? { ...one, material: 'air' as const } : one))

/** Described in the plan: what built-in appliances do of themselves is tested elsewhere. */
const surroundings = fc.oneof(
  fc.record({ air_C: temperature(-30, 98), h_W_m2K: fc.integer({ min: 0, max: 60 }) }),
  fc.record({ surface_C: temperature(-30, 98) }),
  fc.record({
    air_C: temperature(-30, 98),
    h_W_m2K: fc.integer({ min: 1, max: 20 }),
    walls_C: temperature(-30, 98),
    emissivity: fc.constantFrom(0.1, 0.9),
  }),
  fc.record({
    air_C: fc.tuple(temperature(-30, 98), temperature(-30, 98)).map(([from, to]): [number, number][] => [
      [0, from],
      [1, to],
    ]),
    h_W_m2K: fc.integer({ min: 1, max: 30 }),
  }),
)

const action = fc.oneof(
  { weight: 3, arbitrary: layer(mm(1, 60)).map((one) => ({ do: 'pour' as const, ...one })) },
  { weight: 1, arbitrary: layer(mm(1, 60)).map((one) => ({ do: 'place' as const, ...one })) },
  { weight: 1, arbitrary: fc.constant({ do: 'wrap' as const }) },
  { weight: 1, arbitrary: fc.constant({ do: 'open-door' as const, minutes: 5 }) },
  { weight: 3, arbitrary: layer(mm(1, 6)).map((one) => ({ do: 'coat' as const, ...one })) },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant('coat' as const),
      material: fc.constant('dark-chocolate'),
      yield_Pa: fc.integer({ min: 4, max: 40 }),
      start_C: temperature(30, 45),
    }),
  },
  { weight: 3, arbitrary: fc.constant({ do: 'turn' as const }) },
  { weight: 2, arbitrary: fc.constant({ do: 'unmould' as const }) },
  { weight: 1, arbitrary: fc.constant({ do: 'cover' as const, with: 'film' }) },
  { weight: 1, arbitrary: fc.constant({ do: 'uncover' as const }) },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant('stand' as const), on: fc.constantFrom('board', 'spacers', 'shelf') }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant('cut' as const),
      across: fc.integer({ min: 1, max: 4 }),
      along: fc.integer({ min: 1, max: 4 }),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('cut' as const), along: fc.integer({ min: 2, max: 5 }) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('cut' as const), wedges: fc.integer({ min: 2, max: 12 }) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('cut' as const), slice_mm: mm(15, 100) }) },
)

const until = fc.oneof(
  { weight: 3, arbitrary: fc.record({ after_h: fc.integer({ min: 1, max: 300 }).map((tenths) => tenths / 10) }) },
  { weight: 1, arbitrary: fc.record({ core_C: temperature(-20, 90), max_h: fc.integer({ min: 1, max: 30 }) }) },
  { weight: 1, arbitrary: fc.record({ surface_C: temperature(-20, 90), max_h: fc.integer({ min: 1, max: 30 }) }) },
  { weight: 1, arbitrary: fc.record({ mean_C: temperature(-20, 90), after_h: fc.integer({ min: 1, max: 30 }) }) },
  {
    weight: 1,
    arbitrary: fc.record({
      probe: fc.record({ name: fc.constant('heart'), C: temperature(-20, 90) }),
      max_h: fc.integer({ min: 1, max: 30 }),
    }),
  },
  { weight: 1, arbitrary: fc.constantFrom({ clock: '07:00' }, { clock: '19:30', core_C: 4 }) },
)

const stage = fc.record(
  {
    name: fc.constantFrom('a', 'b', 'c', 'd'),
    in: surroundings,
    start: fc.array(action, { maxLength: 2 }),
    until,
    repeat: fc.record({ times: fc.integer({ min: 2, max: 3 }) }),
  },
  { requiredKeys: ['name', 'in', 'until'] },
)

const share = fc.integer({ min: 0, max: 10 }).map((tenth) => tenth / 10)

/** Shapes whose one fill takes what the lining leaves. */
const single = ['log', 'ball', 'shell', 'stirred']
/** Shapes that can't be lined. */
const unlined = ['stirred', 'tiers']

export const randomPlan = fc
  .record({
    shape,
    lining: fc.array(anyLayer(mm(2, 15)), { maxLength: 2 }),
    fill: fc.array(anyLayer(mm(3, 80)), { minLength: 1, maxLength: 3 }),
    stages: fc.array(stage, { minLength: 1, maxLength: 4 }),
    core: fc.oneof(
      { weight: 3, arbitrary: fc.constant(null) },
      {
        weight: 1,
        arbitrary: fc.record({
          material: fc.constantFrom(...materials, 'air' as const),
          start_C: temperature(-15, 90),
          margin_mm: mm(2, 30),
        }),
      },
    ),
    mould: fc.boolean(),
    open: fc.boolean(),
    place: fc.record({ x: share, y: share, z: share }),
  })
  .map(({ shape: form, lining, fill, stages, core, mould, open, place }) => {
    const alone = single.includes(form.kind)
    const half = form.kind === 'trough' || form.kind === 'dome'
    const bare = ({ thickness_mm: _, ...rest }: (typeof fill)[number]) => rest
    const layers = alone ? [bare(fill[0]!)] : half && open ? [bare(fill[0]!), ...fill.slice(1)] : fill
    return {
      format: 'thickset-plan' as const,
      version: 1 as const,
      title: 'random',
      startsAt: '2027-03-12T16:00',
      materials: ownMaterials,
      piece: {
        shape: form,
        ...(unlined.includes(form.kind) ? {} : { lining }),
        fill: layers,
        ...(core === null || form.kind === 'stirred' ? {} : { inserts: [core] }),
        ...(mould && form.kind !== 'stirred'
          ? { mould: [{ faces: ['all'], material: 'silicone', thickness_mm: 5 }] }
          : {}),
      },
      stages,
      probes: [{ name: 'heart', ...place }],
    }
  })
