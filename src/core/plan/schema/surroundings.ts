import { length_mm } from '../../geometry/shapes/definition.ts'
import { z } from '../../zod.ts'
import { measuredSurroundings } from './measured.ts'
import { finite, id, name, share, temperature } from './values.ts'

/* What a stage is in: air, faces, appliance. */

export const course = z
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
export const face = z
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
export const power = finite.gt(0).max(1e6)
const heatStore = finite.gt(0).max(1e5)
export const appliance = z
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
export const surroundings = z
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
