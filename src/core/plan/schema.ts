import { length_mm } from '../geometry/shapes/definition.ts'
import { shapeFields } from '../geometry/shapes/index.ts'
import { keepingSchema } from '../materials/keeping.ts'
import { pourClass } from '../materials/pouring.ts'
import { setsBySchema } from '../outcomes/kinetics/index.ts'
import { z } from '../zod.ts'

/*
 * Version 1 of the plan file. Keys carry their unit; this schema is the only description of the format, the JSON
 * Schema and the types come out of it. Units become SI in resolve.ts, nowhere else. What concerns several fields at
 * once (names, faces, order of times) is checked in plan/checks.
 */

/** The version that is written, and the newest that is read; older ones are brought up by `migrations/`. */
export const PLAN_VERSION = 1

/** Longest text of a plan that is read, characters. */
export const PLAN_LIMIT = 5_000_000

const idPattern = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/
const localTimePattern = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?$/
const zonePattern = /^[A-Za-z][A-Za-z0-9_+-]*(\/[A-Za-z0-9_+-]+)*$/
const clockPattern = /^(\d{4}-\d{2}-\d{2}T)?\d{2}:\d{2}$/

/** What each pattern of the format asks for, in words, by the pattern's source. */
export const patternWords: Readonly<Record<string, string>> = {
  [idPattern.source]:
    'a name of letters, digits, dots, dashes and underscores, beginning with a letter or digit, 64 at most',
  [localTimePattern.source]: 'a local date and time such as "2027-03-12T16:00"',
  [zonePattern.source]: 'the name of a time zone such as "Europe/Vienna"',
  [clockPattern.source]: 'a time of day such as "07:00", or a date and time such as "2027-03-13T07:00"',
}

const finite = z.number()
/** Lowest and highest temperature of anything in a plan, °C. */
export const PLAN_RANGE_C = [-60, 350] as const
/** Lowest and highest reading, °C. */
export const READING_RANGE_C = [-100, 500] as const
/** Latest moment after the start, h. */
export const LATEST_H = 24 * 366
export const MOST_READINGS = 100_000
const temperature = finite.min(PLAN_RANGE_C[0]).max(PLAN_RANGE_C[1])
const share = finite.min(0).max(1)
const percent = finite.min(0).max(100)
const count = finite.min(1).max(200).multipleOf(1)
const name = z.string().min(1).max(120)
const id = z.string().regex(idPattern)
const localTime = z.string().regex(localTimePattern)
const faceNames = z
  .array(name)
  .min(1)
  .max(12)
  .meta({ description: 'Faces of the piece by name; a group such as "sides" or "all" stands for its faces.' })

const by = localTime.meta({ title: 'Asked by', description: 'Local date and time at which it must be so.' })
const core_C = temperature.meta({ description: 'Temperature of the last place to get there, °C.' })

const times = finite.min(0.05).max(20)
const within_pct = percent.meta({ description: 'Doubt that is left, ± per cent (5 to 95 %).' }).exactOptional()
const within_K = finite.min(0).max(50).meta({ description: 'Doubt that is left, ± K (5 to 95 %).' }).exactOptional()
const measuredOn = z.string().max(200).meta({ description: 'What it was measured on.' }).exactOptional()
const measuredMaterial = z.strictObject({
  k_times: times.meta({ description: 'Conductivity over that of the table.' }).exactOptional(),
  k_within_pct: within_pct,
  heat_times: times.meta({ description: 'Stored heat over that of the table.' }).exactOptional(),
  heat_within_pct: within_pct,
  on: measuredOn,
})
const measuredSurroundings = z.strictObject({
  film_times: times.meta({ description: 'Heat passed by the air over what is taken, all faces.' }).exactOptional(),
  film_within_pct: within_pct,
  faces: z
    .record(name, z.strictObject({ times, within_pct }))
    .meta({ description: 'The same of single faces, on top of that.' })
    .exactOptional(),
  air_plus_K: finite.min(-50).max(50).meta({ description: 'So much warmer than said, K.' }).exactOptional(),
  air_within_K: within_K,
  power_times: times.meta({ description: 'Power over what is taken.' }).exactOptional(),
  power_within_pct: within_pct,
  on: measuredOn,
})

/** What a material says beside its thermal law. */
const beside = {
  measured: measuredMaterial
    .meta({ title: 'Measured', description: 'What readings made of its properties.' })
    .exactOptional(),
  keeping: keepingSchema.meta({ title: 'Keeping', description: 'What decides what can grow in it.' }).exactOptional(),
  pours: pourClass
    .meta({
      title: 'Pours',
      description: 'How thin it is as poured: watery, thin as hot cream, or syrupy; currents then help it to cool.',
    })
    .exactOptional(),
  sets: z
    .array(setsBySchema)
    .min(1)
    .max(4)
    .meta({ description: 'How it sets: one law, or several that must all have done their part.' })
    .exactOptional(),
}

const fixedMaterial = z
  .strictObject({
    fixed: z.strictObject({
      k_W_mK: finite.gt(0).max(500).meta({ description: 'Thermal conductivity, W/(m K).' }),
      rho_kg_m3: finite.gt(0).max(20_000).meta({ description: 'Density, kg/m³.' }),
      c_J_kgK: finite.gt(0).max(20_000).meta({ description: 'Heat capacity, J/(kg K).' }),
    }),
    ...beside,
  })
  .meta({ title: 'Fixed properties' })
const column = (value: z.ZodNumber) => z.array(value).min(2).max(10_000)
const tableMaterial = z
  .strictObject({
    table: z.strictObject({
      rho_kg_m3: finite.gt(0).max(20_000).meta({ description: 'Density, kg/m³.' }),
      T_C: column(finite.min(-273.15).max(2_000)).meta({ description: 'Temperatures, never falling, °C.' }),
      enthalpy_J_kg: column(finite).meta({ description: 'Enthalpy at each temperature, rising, J/kg.' }),
      k_W_mK: column(finite.gt(0)).meta({ description: 'Conductivity at each temperature, W/(m K).' }),
    }),
    ...beside,
  })
  .meta({ title: 'Measured table', description: 'Straight lines between the points.' })
const risesTo = finite.min(1).max(5).meta({
  description: 'Of a batter: volume when set over volume as poured, at most; measure a trial bake.',
})
const compositionMaterial = z
  .strictObject({
    composition_pct: z
      .strictObject({
        water: percent,
        protein: percent.exactOptional(),
        fat: percent.exactOptional(),
        sugars: percent.exactOptional(),
        starch: percent.exactOptional(),
        fibre: percent.exactOptional(),
        ash: percent.exactOptional(),
      })
      .meta({ description: 'Share of the mass, %; the shares add up to 100.' }),
    air_pct: finite.min(0).max(95).meta({ description: 'Share of the volume that is air, %.' }).exactOptional(),
    rises_to: risesTo.exactOptional(),
    ...beside,
  })
  .meta({ title: 'Composition' })
const recipeLine = z.strictObject({
  ingredient: id.meta({ description: 'Name of an ingredient of the table.' }),
  mass_kg: finite.gt(0).max(10_000).meta({ description: 'Weight, kg.' }).exactOptional(),
  volume_L: finite.gt(0).max(10_000).meta({ description: 'Volume, L.' }).exactOptional(),
  count: finite.gt(0).max(100_000).meta({ description: 'How many of a unit.' }).exactOptional(),
  unit: name.meta({ description: 'Unit that is counted, such as "piece-L" for eggs.' }).exactOptional(),
  unit_g: finite.gt(0).max(100_000).meta({ description: 'Weight of one unit, g.' }).exactOptional(),
})
const recipeMaterial = z
  .strictObject({
    recipe: z.array(recipeLine).min(1).max(200),
    water_loss_pct: finite
      .min(0)
      .max(95)
      .meta({ description: 'Water lost in baking or boiling, % of all that was put together.' })
      .exactOptional(),
    overrun_pct: finite
      .min(0)
      .max(1_000)
      .meta({ description: 'Air beaten in, % of the volume without.' })
      .exactOptional(),
    air_pct: finite.min(0).max(95).meta({ description: 'Share of the volume that is air, %.' }).exactOptional(),
    density_kg_m3: finite
      .gt(0)
      .max(3_000)
      .meta({ description: 'Density of the finished mass, weighed, kg/m³; best where there is air.' })
      .exactOptional(),
    structure: z
      .enum(['OW', 'WO'])
      .meta({ description: 'What is continuous: the watery part (OW) or the fat (WO).' })
      .exactOptional(),
    pore_aw: finite.gt(0).max(1).meta({ description: 'Water activity in the pores.' }).exactOptional(),
    rises_to: risesTo.exactOptional(),
    ...beside,
  })
  .meta({ title: 'Recipe' })
const likeMaterial = z
  .strictObject({ like: id.meta({ description: 'Built-in material that it is otherwise like.' }), ...beside })
  .meta({ title: 'As a built-in one' })
const material = z.union([fixedMaterial, tableMaterial, compositionMaterial, recipeMaterial, likeMaterial])

const layer = z.strictObject({
  material: id.meta({ description: "Name of a built-in material, or of one of the plan's own." }),
  thickness_mm: length_mm
    .meta({ description: 'Thickness, mm; left out only where the layer takes all that the lining leaves.' })
    .exactOptional(),
  start_C: temperature.meta({ description: 'Temperature when it is poured or laid, °C.' }),
})

const shape = z
  .discriminatedUnion('kind', shapeFields)
  .meta({ title: 'Shape', description: 'Outer shape; its height is the sum of the layers.' })

const margin_mm = finite.min(0).max(10_000)
const insert = z
  .strictObject({
    material: id.meta({ description: "Name of a built-in material, or of one of the plan's own." }),
    start_C: temperature.meta({ description: 'Temperature when it is laid in, °C.' }),
    within: finite
      .min(0)
      .max(11)
      .multipleOf(1)
      .meta({ description: 'Which fill it lies in, from 0 for the lowest; the lowest if left out.' })
      .exactOptional(),
    margin_mm: z.union([margin_mm, z.record(name, margin_mm)]).meta({
      description:
        'What of the fill is left between it and the border of the fill, mm: on every side, or by face; none on a face left out.',
    }),
  })
  .meta({ title: 'Insert', description: 'A core of another material within a fill.' })

const mouldWall = z.strictObject({
  faces: faceNames,
  material: id.meta({ description: 'What the mould is made of.' }),
  thickness_mm: length_mm,
  start_C: temperature
    .meta({ description: 'Its temperature when it is filled, °C: a chilled mould; that of the room if left out.' })
    .exactOptional(),
  emissivity: share
    .meta({ description: 'How its outside radiates: 0.05 bright, 0.9 dark; as its material does if left out.' })
    .exactOptional(),
  food_grade: z
    .boolean()
    .meta({ description: 'Declared for food by its maker; left out where the material is usually not.' })
    .exactOptional(),
})
const piece = z
  .strictObject({
    shape,
    lining: z.array(layer).max(8).meta({ description: 'Layers along the mould, outside in.' }).exactOptional(),
    fill: z.array(layer).min(1).max(12).meta({ description: 'Layers on each other, bottom up.' }),
    inserts: z.array(insert).max(8).meta({ description: 'Cores within the fills.' }).exactOptional(),
    mould: z
      .array(mouldWall)
      .max(12)
      .meta({ description: 'Walls of the mould; of several on one face the nearest to the piece first.' })
      .exactOptional(),
  })
  .meta({ title: 'Piece' })

const course = z
  .union([
    temperature,
    z
      .array(z.tuple([finite.min(0), temperature]))
      .min(1)
      .max(2_000),
  ])
  .meta({ description: 'A temperature, °C; or points [hours of the stage, °C] with straight lines between.' })
const exchange = {
  air_C: course.exactOptional(),
  h_W_m2K: finite
    .min(0)
    .max(1e5)
    .meta({ description: 'Heat passed to or from the air per m² and kelvin; 0 insulates.' })
    .exactOptional(),
  emissivity: share
    .meta({ description: 'Emissivity of the outermost surface; heat is then also radiated to the walls.' })
    .exactOptional(),
  walls_C: course.exactOptional(),
  surface_C: course.exactOptional(),
  air_speed_m_s: finite
    .min(0)
    .max(30)
    .meta({
      description: 'Speed of the air along the face, m/s; heat passed then follows from shape and temperatures.',
    })
    .exactOptional(),
}
const face = z
  .strictObject({
    ...exchange,
    board_mm: length_mm.meta({ description: 'Board between the face and the air, mm.' }).exactOptional(),
    board: id.meta({ description: 'What the board is made of, such as "foam"; wood if left out.' }).exactOptional(),
    stacked: z
      .literal(true)
      .meta({ description: 'Another piece alike lies against this face: nothing passes.' })
      .exactOptional(),
  })
  .meta({ title: 'One face', description: 'What is left out is taken from the surroundings as a whole.' })
const power = finite.gt(0).max(1e6)
const heatStore = finite.gt(0).max(1e5)
const appliance = z
  .strictObject({
    name: name
      .meta({ description: 'Stages in an appliance of one name are in the same one, which goes on.' })
      .exactOptional(),
    kind: z
      .enum(['cold', 'oven', 'bath'])
      .meta({ description: 'That of the built-in surroundings if left out.' })
      .exactOptional(),
    set_C: temperature.meta({ description: 'What its thermostat is set to, °C; air_C if left out.' }).exactOptional(),
    start_C: temperature
      .meta({ description: 'Its temperature at the start of the stage, °C; that of its set point if left out.' })
      .exactOptional(),
    room_C: temperature.meta({ description: 'Room that it stands in, °C; 22 if left out.' }).exactOptional(),
    capacity_W: power.meta({ description: 'Heat that it takes away, W, at rated_C.' }).exactOptional(),
    rated_C: temperature
      .meta({ description: 'Air at which it takes that much, °C; set_C if left out.' })
      .exactOptional(),
    slope_pct_K: finite
      .min(0)
      .max(10)
      .meta({ description: 'Per cent more for each kelvin of warmer air; 4 if left out.' })
      .exactOptional(),
    heater_W: power.meta({ description: 'Heater, W.' }).exactOptional(),
    UA_W_K: finite.min(0).max(1e4).meta({ description: 'Heat through its walls, W/K.' }).exactOptional(),
    fan_W: finite.min(0).max(1e5).meta({ description: 'Fans and lamps, W.' }).exactOptional(),
    liner_kJ_K: heatStore.meta({ description: 'Heat that liner and shelves hold, kJ/K.' }).exactOptional(),
    liner_W_K: power.meta({ description: 'Heat between its air and its liner, W/K.' }).exactOptional(),
    cavity_kJ_K: heatStore.meta({ description: 'Heat that the inside of an oven holds, kJ/K.' }).exactOptional(),
    shell_kJ_K: heatStore.meta({ description: 'Heat that the outside of an oven holds, kJ/K.' }).exactOptional(),
    water_kg: power.meta({ description: 'Water of a bath, kg.' }).exactOptional(),
    ice_kg: power.meta({ description: 'Ice in a bath, kg.' }).exactOptional(),
    off: z.boolean().meta({ description: 'Switched off.' }).exactOptional(),
    thermostat_K: finite
      .gt(0)
      .max(30)
      .meta({ description: 'Its thermostat switches so far above and below, K; just enough power if left out.' })
      .exactOptional(),
    goods: z
      .strictObject({
        mass_kg: power,
        c_kJ_kgK: finite.gt(0).max(10).meta({ description: '2 below 0 °C and 3.5 above if left out.' }).exactOptional(),
        W_K: power.meta({ description: 'Heat between its air and them, W/K.' }).exactOptional(),
      })
      .meta({ title: 'Other goods', description: 'What else lies in it, at its set point at first.' })
      .exactOptional(),
    door: z
      .array(
        z.strictObject({
          at_h: finite
            .min(0)
            .max(24 * 60)
            .meta({ description: 'Hours of the stage.' }),
          minutes: finite.gt(0).max(24 * 60),
          W_K: power.meta({ description: 'Heat through the open door, W/K.' }).exactOptional(),
        }),
      )
      .max(100)
      .meta({ description: 'When its door is opened.' })
      .exactOptional(),
    limit_C: temperature
      .meta({ description: 'Beyond this it should not go for the sake of what else lies in it, °C.' })
      .exactOptional(),
    rating_kg_24h: power.meta({ description: 'What its maker says it freezes in a day, kg.' }).exactOptional(),
    pieces: finite
      .min(1)
      .max(500)
      .multipleOf(1)
      .meta({ description: 'How many pieces alike it has to cope with; one if left out.' })
      .exactOptional(),
  })
  .meta({ title: 'Appliance', description: 'What is left out is taken from the built-in surroundings.' })
const surroundings = z
  .strictObject({
    like: id
      .meta({ description: 'Built-in surroundings whose figures hold wherever nothing else is given here.' })
      .exactOptional(),
    ...exchange,
    humidity: z
      .union([
        z.strictObject({ relative_pct: finite.gt(0).max(100).meta({ description: 'Relative humidity, %.' }) }),
        z.strictObject({ kg_kg: finite.gt(0).max(5).meta({ description: 'Vapour per dry air, kg/kg.' }) }),
      ])
      .meta({
        title: 'Humidity',
        description: 'Water in the air: what is open dries in it, what is cold collects dew.',
      })
      .exactOptional(),
    appliance: z
      .union([appliance, z.literal(false)])
      .meta({ description: 'What the piece is in, with the power that it has; false: the air stays as given.' })
      .exactOptional(),
    faces: z.record(name, face).exactOptional(),
    measured: measuredSurroundings
      .meta({ title: 'Measured', description: 'What readings made of them.' })
      .exactOptional(),
  })
  .meta({ title: 'Surroundings' })

const action = z.discriminatedUnion('do', [
  z
    .strictObject({ do: z.literal('pour'), material: id, thickness_mm: length_mm, start_C: temperature })
    .meta({ title: 'Pour one more layer on top' }),
  z
    .strictObject({ do: z.literal('place'), material: id, thickness_mm: length_mm, start_C: temperature })
    .meta({ title: 'Place a ready layer on top', description: 'Baked, set or frozen before it is laid on.' }),
  z
    .strictObject({
      do: z.literal('cover'),
      with: id.meta({ description: 'What the cover is made of.' }),
      thickness_mm: length_mm.meta({ description: 'Thickness, mm; the usual one if left out.' }).exactOptional(),
      gap_mm: length_mm
        .meta({ description: 'Air between the face and a lid, mm; it touches if left out.' })
        .exactOptional(),
      start_C: temperature.meta({ description: 'Its temperature when laid on, °C; 20 if left out.' }).exactOptional(),
      faces: faceNames.exactOptional(),
    })
    .meta({ title: 'Cover', description: 'Without faces: the top, or every face where there is no top.' }),
  z
    .strictObject({
      do: z.literal('wrap'),
      with: id.meta({ description: 'What it is wrapped in; film if left out.' }).exactOptional(),
      thickness_mm: length_mm.meta({ description: 'Thickness, mm; the usual one if left out.' }).exactOptional(),
    })
    .meta({ title: 'Wrap', description: 'Every face that is not covered yet, the one below too.' }),
  z
    .strictObject({ do: z.literal('uncover'), faces: faceNames.exactOptional() })
    .meta({ title: 'Uncover', description: 'Without faces: whatever is covered.' }),
  z.strictObject({ do: z.literal('unmould') }).meta({ title: 'Take out of the mould' }),
  z
    .strictObject({
      do: z.literal('coat'),
      material: id,
      thickness_mm: length_mm.meta({ description: 'Thickness when set, mm.' }).exactOptional(),
      yield_Pa: finite
        .gt(0)
        .max(5_000)
        .meta({
          description: 'Yield stress of the melt, Pa: in place of the thickness, which is then what drains no further.',
        })
        .exactOptional(),
      start_C: temperature,
      faces: faceNames.exactOptional(),
    })
    .meta({ title: 'Coat', description: 'By dipping or pouring. Without faces: all but the bottom.' }),
  z
    .strictObject({ do: z.literal('turn') })
    .meta({ title: 'Turn over', description: 'From here on "top" and "bottom" are what lies so then.' }),
  z
    .strictObject({
      do: z.literal('stand'),
      on: z.enum(['board', 'tray', 'rack', 'spacers', 'shelf']),
      board_mm: length_mm
        .meta({ description: 'Thickness of the board or tray, mm; 18 and 1 if left out.' })
        .exactOptional(),
      board: id
        .meta({ description: 'What it is made of, such as "foam"; wood and stainless steel if left out.' })
        .exactOptional(),
      start_C: temperature.meta({ description: 'Its temperature, °C; 20 if left out.' }).exactOptional(),
    })
    .meta({ title: 'Put on a board, a tray, a wire rack, spacers, or straight on the shelf' }),
  z
    .strictObject({
      do: z.literal('open-door'),
      minutes: finite.gt(0).max(24 * 60),
      W_K: power.meta({ description: 'Heat through the open door, W/K.' }).exactOptional(),
    })
    .meta({ title: 'Open the door', description: 'Of the appliance, from the start of the stage for some minutes.' }),
  z
    .strictObject({
      do: z.literal('cut'),
      across: count.meta({ description: 'Pieces across.' }).exactOptional(),
      along: count.meta({ description: 'Pieces along the length.' }).exactOptional(),
      wedges: count.meta({ description: 'Wedges of a round or a ring.' }).exactOptional(),
      slice_mm: length_mm.meta({ description: 'Thickness of slices along the length, mm.' }).exactOptional(),
    })
    .meta({ title: 'Cut', description: 'Into pieces alike; one from the middle is followed.' }),
])
/** Everything that can be done at a stage's start. */
export const actionKinds = action.options.map((option) => option.shape.do.value)

const hours = finite.gt(0).max(24 * 60)
const until = z
  .strictObject({
    after_h: hours.meta({ description: 'Ends after so many hours.' }).exactOptional(),
    core_C: temperature
      .meta({ description: 'Ends when the last place to get there has this temperature, °C.' })
      .exactOptional(),
    surface_C: temperature
      .meta({ description: 'Ends when the mean of the open faces has this temperature, °C.' })
      .exactOptional(),
    mean_C: temperature
      .meta({ description: 'Ends when the mean of the mass has this temperature, °C.' })
      .exactOptional(),
    probe: z
      .strictObject({ name, C: temperature })
      .meta({ description: 'Ends when a probe of the plan shows this temperature, °C.' })
      .exactOptional(),
    target: name
      .meta({
        description:
          'Ends when what the target of this kind asks for is so: its core temperature, or set, firm enough, dry.',
      })
      .exactOptional(),
    clock: z
      .string()
      .regex(clockPattern)
      .meta({ description: 'Ends at this time: the next such time of day, or a local date and time.' })
      .exactOptional(),
    max_h: hours.meta({ description: 'Ends after so many hours at the latest.' }).exactOptional(),
  })
  .meta({ title: 'End of the stage', description: 'Whichever comes first.' })
const stage = z
  .strictObject({
    name,
    in: z.union([id, surroundings]).meta({ description: 'Built-in surroundings by name, or described here.' }),
    start: z.array(action).max(20).meta({ description: 'What is done at the start, in order.' }).exactOptional(),
    power_W: finite
      .gt(0)
      .max(1e6)
      .meta({ description: 'Heat that a burner or a heater gives to a stirred mass, W.' })
      .exactOptional(),
    until,
    repeat: z
      .strictObject({
        from: name.meta({ description: 'Earlier stage to go back to; this one if left out.' }).exactOptional(),
        times: finite.min(2).max(50).multipleOf(1).meta({ description: 'How many times in all.' }),
      })
      .meta({ title: 'Repeat', description: 'What lies between is done several times, one after the other.' })
      .exactOptional(),
  })
  .meta({ title: 'Stage' })

const ofMaterial = id
  .meta({ description: 'Judge only layers of this material; every layer whose setting is known, if left out.' })
  .exactOptional()
const target = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('cooled'), core_C, by: by.exactOptional() }).meta({ title: 'Cooled to' }),
    z.strictObject({ kind: z.literal('frozen'), core_C, by: by.exactOptional() }).meta({ title: 'Frozen to' }),
    z
      .strictObject({
        kind: z.literal('baked'),
        core_C,
        most_C: temperature.meta({ description: 'Upper end of the core window, °C.' }).exactOptional(),
        by: by.exactOptional(),
      })
      .meta({ title: 'Baked' }),
    z
      .strictObject({ kind: z.literal('set'), material: ofMaterial, by: by.exactOptional() })
      .meta({ title: 'Set', description: 'Every place holds together, by the setting laws of its material.' }),
    z
      .strictObject({ kind: z.literal('unmould'), material: ofMaterial, by: by.exactOptional() })
      .meta({ title: 'Ready to unmould', description: 'Firm enough at every place to stand by itself.' }),
    z
      .strictObject({
        kind: z.literal('coat'),
        core_C: core_C.exactOptional(),
        humidity_pct: finite
          .gt(0)
          .max(100)
          .meta({ description: 'Humidity of the air in which it is coated, %; without it sweating is not judged.' })
          .exactOptional(),
        by: by.exactOptional(),
      })
      .meta({ title: 'Ready to coat', description: 'Firm, as cold as asked, and its surface dry.' }),
    z
      .strictObject({ kind: z.literal('cut'), material: ofMaterial, by: by.exactOptional() })
      .meta({ title: 'Ready to cut', description: 'Clean to cut at every place: set, and not frozen hard.' }),
    z
      .strictObject({ kind: z.literal('stay'), material: ofMaterial, by: by.exactOptional() })
      .meta({ title: 'Stays set', description: 'Once set, no place gets too warm again until then.' }),
    z
      .strictObject({
        kind: z.literal('edge'),
        most_mm: length_mm.meta({ description: 'Crust that is still welcome, mm; 10 if left out.' }).exactOptional(),
        by: by.exactOptional(),
      })
      .meta({ title: 'Edge not over-baked', description: 'Neither burnt nor dried deeper than asked.' }),
  ])
  .meta({ title: 'Target' })

const probe = z
  .strictObject({ name, x: share.exactOptional(), y: share.exactOptional(), z: share.exactOptional() })
  .meta({
    title: 'Probe',
    description: 'A place as shares of the bounding box: x across, y upward, z along; 0.5 where left out.',
  })
const moment_h = finite.min(0).max(LATEST_H)
const reading = z
  .strictObject({ probe: name, at_h: moment_h, C: finite.min(READING_RANGE_C[0]).max(READING_RANGE_C[1]) })
  .meta({ title: 'Reading', description: 'A temperature measured on the day, hours since the start.' })
const promise = z
  .strictObject({
    target: finite.min(0).max(29).multipleOf(1).meta({ description: 'Which of the targets, from 0.' }),
    at_h: moment_h.meta({ description: 'Likely moment, hours since the start.' }).exactOptional(),
    early_h: moment_h.exactOptional(),
    late_h: moment_h.exactOptional(),
  })
  .meta({ title: 'Promise', description: 'What was forecast of a target before anything was measured.' })
const arrival = z
  .strictObject({
    target: finite.min(0).max(29).multipleOf(1).meta({ description: 'Which of the targets, from 0.' }),
    at_h: moment_h.meta({ description: 'When it was so, hours since the start.' }),
  })
  .meta({ title: 'What came', description: 'When a target was found met.' })

export const planSchema = z
  .strictObject({
    $schema: z.string().max(400).meta({ description: 'Where this description lies, for editors.' }).exactOptional(),
    format: z.literal('thickset-plan'),
    version: z.literal(PLAN_VERSION),
    title: z.string().max(200),
    startsAt: localTime.meta({ description: 'Local date and time of the start, without zone.' }),
    zone: z
      .string()
      .regex(zonePattern)
      .meta({ description: 'Time zone of the workshop, such as "Europe/Vienna": tells when its clock is moved.' })
      .exactOptional(),
    clock_changes: z
      .array(
        z.strictObject({
          at: localTime.meta({ description: 'What the clock shows just before it is moved.' }),
          by_min: finite
            .min(-180)
            .max(180)
            .multipleOf(1)
            .meta({ description: 'Minutes by which it goes forward; negative: back.' }),
        }),
      )
      .max(20)
      .meta({ description: 'When the clock is moved; hours are counted as they pass.' })
      .exactOptional(),
    rules: z.array(id).max(20).meta({ description: 'Published cooling rules to judge by.' }).exactOptional(),
    fidelity: z.enum(['quick', 'standard', 'fine']).meta({ description: '"standard" if left out.' }).exactOptional(),
    dimensions: finite
      .min(1)
      .max(3)
      .multipleOf(1)
      .meta({ description: 'Directions of heat in the model; chosen by what would be lost if left out.' })
      .exactOptional(),
    materials: z.record(id, material).meta({ description: "The plan's own materials by name." }).exactOptional(),
    piece,
    stages: z.array(stage).min(1).max(60),
    targets: z.array(target).max(30).exactOptional(),
    probes: z.array(probe).max(12).exactOptional(),
    readings: z.array(reading).max(MOST_READINGS).exactOptional(),
    promised: z.array(promise).max(30).meta({ description: 'Kept when the first reading comes.' }).exactOptional(),
    came: z.array(arrival).max(30).meta({ description: 'Kept beside what was promised.' }).exactOptional(),
  })
  .meta({ title: 'Thickset plan', description: 'One piece, its stages, and what is asked of it. Version 1.' })

export type Plan = z.infer<typeof planSchema>
export type PlanLayer = z.infer<typeof layer>
export type PlanInsert = z.infer<typeof insert>
export type PlanShape = z.infer<typeof shape>
export type PlanStage = z.infer<typeof stage>
export type PlanAction = z.infer<typeof action>
/** An action that lays one more layer on the top. */
export type PlanLaying = Extract<PlanAction, { do: 'pour' | 'place' }>
export type PlanFace = z.infer<typeof face>
export type PlanCourse = z.infer<typeof course>
export type PlanSurroundings = z.infer<typeof surroundings>
export type PlanAppliance = z.infer<typeof appliance>
export type PlanTarget = z.infer<typeof target>
export type PlanMaterial = z.infer<typeof material>
export type PlanRecipe = z.infer<typeof recipeMaterial>

/** Surroundings and a material with what was measured of them, as a file keeps them for later plans. */
export const keptSurroundings = z.strictObject({ name, in: surroundings })
export const keptMaterial = z.strictObject({ id, material })
