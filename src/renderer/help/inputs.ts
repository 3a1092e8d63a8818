/*
 * What every input of the window means, in a sentence, and what is usual. The figures are common practice, no source:
 * they tell a typing mistake from a plan, and judge nothing. A key is a path of the plan with its numbers left out, or
 * the name of a choice; a test goes through the window and holds that every input finds its entry.
 */

export interface InputHelp {
  readonly keys: readonly string[]
  readonly name: string
  readonly says: string
  readonly usual: string
}

export interface HelpGroup {
  readonly title: string
  readonly inputs: readonly InputHelp[]
}

const entry = (name: string, keys: string, says: string, usual: string): InputHelp => ({
  keys: keys.split(' | '),
  name,
  says,
  usual,
})

export const helpGroups: readonly HelpGroup[] = [
  {
    title: 'Plan',
    inputs: [
      entry('Name', 'title', 'What the job is called; its file and its sheet carry it.', 'A few words.'),
      entry(
        'Starts',
        'startsAt',
        'The workshop’s own clock when the first stage begins; every other time follows from it.',
        'When the mass is poured or goes into the oven.',
      ),
      entry(
        'Time zone',
        'choice Time zone of the workshop',
        'Tells when the workshop’s clock is moved forward or back; hours are counted as they pass.',
        'Only where a plan runs through such a night.',
      ),
    ],
  },
  {
    title: 'Piece',
    inputs: [
      entry(
        'Shape',
        'choice Shape',
        'The form of the whole piece; it decides through which faces heat comes and goes.',
        'Block, bar, round, half-round, dome; sheet where only the thickness counts.',
      ),
      entry(
        'Width, length, diameter, radius',
        'piece.shape.width_mm | piece.shape.length_mm | piece.shape.diameter_mm | piece.shape.radius_mm | piece.shape.outer_mm | piece.shape.inner_mm | piece.shape.hollow_mm | piece.shape.wall_mm | piece.shape.inside_mm | piece.shape.core_mm',
        'Inside the mould and the lining included: the finished piece without its mould.',
        '50 to 1200 mm; a ring’s hole is a third of its width.',
      ),
      entry(
        'Area',
        'piece.shape.area_m2',
        'How much of the sheet there is, for its weight and for what the oven or freezer must carry away.',
        '0.1 to 2 m².',
      ),
      entry('Volume', 'piece.shape.volume_L', 'How much is in the stirred vessel.', '1 to 100 L.'),
      entry(
        'Flat side',
        'choice Flat side',
        'Whether the flat face looks up or down when the plan begins.',
        'Up while it sits in its mould, down on a board.',
      ),
      entry(
        'Material of a layer',
        'choice Material of layer | choice Material',
        'What the layer is made of: from the table, or a recipe of this plan, which is nearest to your own kitchen.',
        'A recipe wherever you have one.',
      ),
      entry(
        'Thickness of a layer',
        'piece.fill[].thickness_mm | piece.lining[].thickness_mm | stages[].start[].thickness_mm',
        'How thick the layer is; times grow with its square, so measure it where it is thickest. For a cover or a coat, how thick that is.',
        'Fillings 20 to 300 mm, linings 5 to 20 mm, coats 1 to 5 mm.',
      ),
      entry(
        'Temperature at start',
        'piece.fill[].start_C | piece.lining[].start_C | piece.inserts[].start_C | piece.mould[].start_C | stages[].start[].start_C',
        'How warm the mass is when the plan begins or when it is poured, measured in its middle.',
        'Hot creams 60 to 85 °C, batters 18 to 26 °C, bases 4 to 22 °C, coats 30 to 45 °C.',
      ),
      entry(
        'Mould wall',
        'piece.mould[].thickness_mm',
        'How thick the wall of the mould is.',
        'Steel 0.8 to 1.5 mm, silicone 3 to 8 mm, wood 15 to 20 mm.',
      ),
      entry(
        'Margin of an insert',
        'piece.inserts[].margin_mm',
        'How much of the filling is left around an insert.',
        '10 to 40 mm.',
      ),
      entry(
        'Faces',
        'faces',
        'On which faces of the piece something lies: the mould, a cover, a coat.',
        'Moulds on all but the top, covers on the top.',
      ),
      entry(
        'Probe’s name',
        'probes[].name',
        'What you call a place that you will measure; readings name it.',
        'heart, edge, top.',
      ),
      entry(
        'Probe’s place',
        'probes[].x | probes[].y',
        'Shares of the piece: across from 0 at the left to 1 at the right, up from 0 at the bottom to 1 at the top.',
        '0.5 and 0.5 is the middle; in the drawing it is dragged.',
      ),
    ],
  },
  {
    title: 'Stages',
    inputs: [
      entry(
        'Name',
        'stages[].name',
        'What is done in this stretch of time; the sheet prints it.',
        'Bench, Fridge, Freeze.',
      ),
      entry(
        'Surroundings',
        'choice Surroundings',
        'Where the piece stands: air, its movement and what an appliance can carry away come with it.',
        'The one most like yours; own figures where you have measured.',
      ),
      entry(
        'Air',
        'stages[].in.air_C',
        'The temperature of the air around the piece; left empty, it is the usual one of these surroundings.',
        'Fridges 2 to 6 °C, freezers −30 to −16 °C, benches 18 to 26 °C, ovens 120 to 220 °C.',
      ),
      entry(
        'Film coefficient',
        'stages[].in.h_W_m2K',
        'How readily heat passes between air and surface.',
        'Still air 4 to 10, a fan 12 to 30, a blast 30 to 60 W/m²K.',
      ),
      entry(
        'Speed of the air',
        'stages[].in.air_speed_m_s',
        'How fast the air passes over the piece; what blows on it cools it faster.',
        'Still 0.1, a fan 1 to 2, a blast 3 to 6 m/s.',
      ),
      entry(
        'Power',
        'stages[].in.appliance.heater_W | stages[].in.appliance.cooling_W | stages[].in.appliance.capacity_W',
        'What the heater or the cooling can do at most; the plate on the back tells it.',
        'Cabinet fridges 200 to 500 W, freezers 100 to 600 W, ovens 2 to 20 kW.',
      ),
      entry(
        'Humidity of the air',
        'stages[].in.humidity.relative_pct',
        'How moist the air is: dry air dries and cools an open surface, moist air leaves dew on a cold one.',
        'Fridges 60 to 90 %, kitchens 40 to 60 %, ovens a few per cent.',
      ),
      entry(
        'Emissivity of the piece',
        'stages[].in.emissivity',
        'How readily the piece takes and gives radiation.',
        'Food and dark moulds 0.9; bright metal 0.05 to 0.2.',
      ),
      entry(
        'Walls around it',
        'stages[].in.walls_C',
        'The temperature of what the piece sees around it; left empty, that of the air.',
        'An oven’s walls lie 10 to 30 K above its air, a freezer’s cold plates below.',
      ),
      entry(
        'Water and ice of a bath',
        'stages[].in.appliance.water_kg | stages[].in.appliance.ice_kg',
        'How much there is to take up heat; the ice melts first.',
        'Two to three times the mass of the piece.',
      ),
      entry(
        'The appliance itself',
        'stages[].in.appliance.start_C | stages[].in.appliance.room_C | stages[].in.appliance.UA_W_K | stages[].in.appliance.thermostat_K',
        'What it begins at, the room that it stands in, what leaks through its walls, and how far its thermostat lets it stray.',
        'Rooms 18 to 30 °C; fridges and freezers 1 to 4 W/K; thermostats 2 to 6 K.',
      ),
      entry(
        'What else lies in it',
        'stages[].in.appliance.limit_C | stages[].in.appliance.goods.mass_kg',
        'Other goods that warm with the air, and the temperature that they must not pass.',
        'A half-full domestic freezer holds 20 to 60 kg; its limit is −15 °C.',
      ),
      entry(
        'Rated to freeze in a day',
        'stages[].in.appliance.rating_kg_24h',
        'What its maker says that it freezes in 24 hours; the plate or the book of the appliance tells it.',
        'Domestic freezers 4 to 20 kg a day.',
      ),
      entry(
        'One face by itself',
        'choice Face | choice Board made of | stages[].in.faces.*.board_mm | stages[].in.faces.*.h_W_m2K | stages[].in.faces.*.stacked',
        'A face that differs from the rest: a board on it, a film of its own, or a piece alike lying against it.',
        'Boards 10 to 25 mm; a face on a shelf 3 to 6 W/m²K.',
      ),
      entry(
        'Ends',
        'choice Ends',
        'What ends the stage: some hours, a temperature somewhere, an answered question, or the clock.',
        'Hours while you plan; a temperature where you will wait for it.',
      ),
      entry(
        'After some hours',
        'stages[].until.after_h',
        'How long the stage lasts; 90 min, 2 h 30 or 2 d can be typed.',
        'Bakes 0.3 to 3 h, fridges 4 to 24 h, freezers 8 to 96 h.',
      ),
      entry(
        'When it is at',
        'stages[].until.core_C | stages[].until.surface_C | stages[].until.mean_C | stages[].until.probe.C',
        'The stage ends once this place has come to that temperature.',
        'Baked 85 to 98 °C, chilled 3 to 7 °C, frozen −18 to −10 °C.',
      ),
      entry(
        'Probe that is waited for',
        'choice Probe',
        'The probe whose temperature ends the stage.',
        'The one you will read.',
      ),
      entry(
        'Question that is waited for',
        'choice Target',
        'The stage ends once this question is answered with yes.',
        'Set, before unmoulding.',
      ),
      entry(
        'Time',
        'stages[].until.clock',
        'The stage ends when the workshop’s clock shows this.',
        'When somebody is there.',
      ),
      entry(
        'At the latest',
        'stages[].until.max_h',
        'Ends the stage even where the awaited temperature never comes.',
        'Twice what you expect; 168 h if left out.',
      ),
      entry(
        'Covered with',
        'choice With',
        'What lies on the faces from the start of the stage: it keeps moisture in, and heat too.',
        'Film, a lid.',
      ),
      entry(
        'Stands on',
        'choice On',
        'What the piece stands on; through a board hardly any heat goes.',
        'Spacers let air below.',
      ),
      entry('Thickness of the board', 'stages[].start[].board_mm', 'How thick the board below is.', '15 to 25 mm.'),
      entry(
        'Yield stress of a coat',
        'stages[].start[].yield_Pa',
        'How stiff a coat is when it runs: it decides how thick it stays, where no thickness is given.',
        'Glazes 5 to 40 Pa.',
      ),
      entry(
        'Cut into',
        'stages[].start[].across | stages[].start[].along | stages[].start[].wedges | stages[].start[].slice_mm',
        'Into how many pieces, or how thick the slices are; pieces warm and cool faster than the whole.',
        '2 to 24 pieces, slices of 15 to 40 mm.',
      ),
    ],
  },
  {
    title: 'Questions',
    inputs: [
      entry(
        'Question',
        'choice Question',
        'What you want to know of the piece.',
        'One for each time that you must promise.',
      ),
      entry(
        'Core at',
        'targets[].core_C',
        'The temperature that the slowest place must have come to.',
        'Chilled 3 to 7 °C, frozen −18 to −10 °C, baked 88 to 96 °C.',
      ),
      entry('At most', 'targets[].most_C', 'Above this it counts as overbaked.', '2 to 6 °C above the lower one.'),
      entry(
        'For which question',
        'choice For which question',
        'Which answer the changes are tried for.',
        'The one that presses most.',
      ),
      entry(
        'Number',
        'choice Number',
        'Which number of the plan is moved until the answer turns.',
        'The thickness of the filling.',
      ),
      entry(
        'Furthest',
        'choice Furthest',
        'Whether the largest or the smallest value is looked for.',
        'The largest thickness, the latest start.',
      ),
      entry(
        'That still meets',
        'choice That still meets',
        'The question or rule that must still be met.',
        'The one that you must promise.',
      ),
      entry(
        'Asked by',
        'targets[].by',
        'When it must be so; the answer tells the hours to spare.',
        'When the van leaves.',
      ),
      entry(
        'Rules',
        'rules',
        'Published cooling and holding rules by which the course is judged, step by step, at its worst place.',
        'The one that your inspector goes by; local codes come first.',
      ),
    ],
  },
  {
    title: 'Recipe',
    inputs: [
      entry('Name', 'recipe name', 'What the mass is called in this plan.', 'lemon-cream.'),
      entry(
        'Ingredient',
        'materials.*.recipe[].ingredient | recipe ingredient',
        'A part of the ingredient’s name; the list offers what fits.',
        'butter, whole egg, cream 35 %.',
      ),
      entry(
        'Amount',
        'materials.*.recipe[].mass_kg | materials.*.recipe[].volume_L | materials.*.recipe[].count | recipe amount',
        'How much of it goes in; only the shares count for heat, the sum for what is left over.',
        '1 g to 50 kg; g, kg, oz, lb, L can be typed.',
      ),
      entry(
        'Measured',
        'choice Measured | recipe measured',
        'Whether the amount is a weight, a volume or a number of pieces.',
        'Weight is surest.',
      ),
      entry(
        'Weight of one',
        'materials.*.recipe[].unit_g | recipe weight',
        'What one piece weighs without shell or peel.',
        'Egg 50 g, yolk 18 g, white 32 g, gelatin leaf 1.7 to 5 g.',
      ),
      entry(
        'Water lost',
        'materials.*.water_loss_pct',
        'Share of the weight that goes off as steam in oven or pot.',
        'Creams 2 to 10 %, sponges 8 to 14 %.',
      ),
      entry('Air', 'choice Air', 'How you know the air that is beaten in.', 'Weigh a litre of it.'),
      entry(
        'Density, overrun, air',
        'materials.*.density_kg_m3 | materials.*.overrun_pct | materials.*.air_pct',
        'How much air the mass holds: foams hold heat back.',
        'Mousse 500 to 700 kg/m³, whipped cream 80 to 120 % overrun, sponge 250 to 400 kg/m³.',
      ),
      entry(
        'What holds together',
        'choice What holds together',
        'Which part surrounds the other; heat goes by way of it.',
        'As the composition says.',
      ),
      entry(
        'Batter rises to',
        'materials.*.rises_to',
        'How many times its volume the batter comes to in the oven.',
        '1.5 to 3.',
      ),
      entry('Water activity', 'materials.*.pore_aw', 'How readily a crumb gives off its moisture.', '0.90 to 0.98.'),
      entry('Reading off', 'material temperature', 'The temperature at which the figures are told.', '−40 to 120 °C.'),
    ],
  },
  {
    title: 'On the day and on paper',
    inputs: [
      entry(
        'Probe',
        'day probe',
        'Which place the reading belongs to; only places of the plan can be compared.',
        'heart.',
      ),
      entry('Read at', 'day time', 'When the probe showed it, by the workshop’s clock.', 'Now.'),
      entry('Temperature', 'day temperature', 'What the probe shows once it has come to rest.', '−30 to 110 °C.'),
      entry(
        'Called',
        'measured name',
        'The name under which what the readings told of these surroundings is kept for later plans.',
        'My freezer.',
      ),
      entry(
        'Door',
        'stages[].in.appliance.door[].at_h | stages[].in.appliance.door[].minutes',
        'After how many hours of the stage its door is opened, and for how many minutes; warm air comes in.',
        'A minute or two, each time something is put in.',
      ),
      entry('Paper', 'choice Paper', 'The size of the sheet that is printed.', 'A4, in North America Letter.'),
      entry('Cut', 'choice Cut', 'Through which plane of the piece the film looks.', 'Across the middle.'),
    ],
  },
]

/** A path of the plan with its numbers and own names left out: `piece.fill[0].start_C` is `piece.fill[].start_C`. */
export const pathKey = (path: string): string =>
  path
    .replace(/\[\d+\]/g, '[]')
    .replace(/\.faces\.\w+/, '.faces.*')
    .replace(/^materials\..+?(?=\.recipe\[\]|\.\w+$)/, 'materials.*')

/** A choice by its label: "Material of layer 3" is `choice Material of layer`. */
export const choiceKey = (label: string): string => `choice ${label.replace(/\s*\d+$/, '')}`

const byKey = new Map(helpGroups.flatMap(({ inputs }) => inputs.flatMap((one) => one.keys.map((key) => [key, one]))))

export const findHelp = (key: string): InputHelp | undefined => byKey.get(key)
