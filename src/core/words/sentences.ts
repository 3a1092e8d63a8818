import type { Message } from '../messages.ts'
import { bandedWords, bandKey, type TimeBand } from './banded.ts'
import { halfLogs, killedLogs } from './half-logs.ts'
import type { Show } from './show.ts'

type Values = Message['values']
const text = (values: Values, key: string): string => String(values[key])
const number = (values: Values, key: string): number => Number(values[key])

/** Why the last place to come down is not the worst one. */
const beganWords = ({ laid }: Values): string =>
  laid === 'later'
    ? 'It was laid on later, and its hours began then'
    : 'The worst place lies elsewhere because its hours began first'

/** A loss in per cent, or that there is hardly any. */
const lossWords = (values: Values, show: Show): string =>
  number(values, 'loss_pct') < 0.1 ? 'less than 0.1 %' : `${show.number(number(values, 'loss_pct'))} %`

/** How far a place that will not get there has come. */
const wayLeft = (values: Values, show: Show): string =>
  `it ends at ${show.temperature(number(values, 'last_C'))}, ${show.number(number(values, 'extent_pct'))} % of the way`

const bandIn = (values: Values, key: string): TimeBand => {
  const [early, late] = [values[bandKey(key, 'early')], values[bandKey(key, 'late')]]
  return {
    ...(early === undefined ? {} : { early_h: Number(early) }),
    ...(late === undefined ? {} : { late_h: Number(late) }),
  }
}

/** A computed moment, and a computed stretch of time, each with its band. */
const when = (values: Values, show: Show, key: string): string =>
  bandedWords(show.moment, number(values, key), bandIn(values, key), 'later')
const lasting = (values: Values, show: Show, key: string): string =>
  bandedWords(show.duration, number(values, key), bandIn(values, key), 'longer')

/** Sooner than this is at once, h. */
const AT_ONCE_H = 1 / 12
/** How long after it was put in. */
const sooner = (values: Values, show: Show): string =>
  number(values, 'after_h') < AT_ONCE_H ? 'at once' : `after ${lasting(values, show, 'after_h')}`

/** Every sentence that the core can say: code → words, with the numbers shown in the reader's units. */
export const sentences = {
  'plan-brought-up': (v) =>
    `the file is of version ${text(v, 'from')} of the plan format: it is read as version ${text(v, 'to')}, and saved as that`,
  'ends-ignored': (v, show) =>
    `ends ignored: the piece is ${show.number(number(v, 'ratio'))} times as long as it is ${text(v, 'of')}`,
  'outside-validity': (v, show) =>
    `${text(v, 'title')}: its properties are supported from ${show.temperature(number(v, 'low_C'))} to ${show.temperature(number(v, 'high_C'))}, here it runs from ${show.temperature(number(v, 'coldest_C'))} to ${show.temperature(number(v, 'hottest_C'))}`,
  'stopped-by-guard': (v, show) =>
    `"${text(v, 'stage')}" did not reach its end: stopped after ${show.duration(number(v, 'within_h'))}`,
  'check-with-probe': () =>
    'A forecast is no measurement: check with a calibrated probe at the slowest place before relying on it',
  'local-codes': () =>
    'Rules shown are those of the named authority; what binds is your local food code and your own hazard plan',
  'caution-spores': (v, show) =>
    `Heat leaves spores alive, and they wake while a thick mass cools: some place spends ${lasting(v, show, 'longest_h')} between ${show.temperature(number(v, 'low_C'))} and ${show.temperature(number(v, 'high_C'))}; the slow cooling is the hazard, not the oven`,
  'caution-toxin': () =>
    'A rule is not met: heating it again does not mend that, as toxins of S. aureus and B. cereus stand boiling and baking; what failed belongs in the bin',
  'caution-raw-egg': () =>
    'Egg in this piece is not known to be heated enough at every place: take pasteurised egg, and keep the piece from children, the old, the pregnant and the ill',
  'caution-dry': (v, show) =>
    `${text(v, 'titles')}: in dry, fatty or very sweet masses Salmonella lives through hours at ${show.temperature(number(v, 'low_C'))} to ${show.temperature(number(v, 'high_C'))}; melting or tempering kills nothing that matters, so buy treated ingredients`,
  'caution-hands': () =>
    'What hands, boards and tools bring in after the heat sits on faces and between layers, which warm first: look at those places too',
  'caution-mould': (v, show) =>
    `Mould of ${text(v, 'titles')}: not made for food as it is sold for building; line it with food-grade film or paper, keep masses hotter than ${show.temperature(number(v, 'warm_C'))}, fat and acid off it, let no sawn edge or crumb touch the food, or take food-grade stock`,
  'caution-scalds': (v, show) =>
    `Poured at ${show.temperature(number(v, 'hottest_C'))}: hot sugar and custard burn deeply; plan the pour before it is hot`,
  'caution-heavy': (v, show) =>
    `${show.mass(number(v, 'mass_kg'))}: not to be lifted alone, least of all hot or slippery; check shelf, board and floor, and the way there`,
  'caution-shelf': (v, show) =>
    `${show.number(number(v, 'shelf_kg_m2'))} kg/m² on shelf and board: wire shelves of upright fridges carry about ${show.number(number(v, 'low_kg_m2'))} to ${show.number(number(v, 'high_kg_m2'))} spread evenly, half of that on points (from memory); ask the maker`,
  'caution-cabinet': (v, show) =>
    `${show.mass(number(v, 'mass_kg'))} go warm into a cold cabinet: they warm whatever else stands in it; cool other foods elsewhere`,
  'caution-density-order': (v, show) =>
    `${text(v, 'upper')} (${show.number(number(v, 'upper_kg_m3'))} kg/m³) comes on ${text(v, 'lower')} (${show.number(number(v, 'lower_kg_m3'))} kg/m³) while that is soft: the heavier may sink through; let the lower one set first, or pour over a spoon. A warning: it is not computed whether they change places`,
  'caution-transport': (v, show) =>
    `${text(v, 'title')} stands at the end, but has no strength to spare for a way: ${show.number(number(v, 'factor'))} times its load and ${show.number(number(v, 'sag_pct'))} % of sag, where ${show.number(number(v, 'wanted'))} times and at most ${show.number(number(v, 'wanted_sag_pct'))} % are asked (choice); carry it in its mould or colder`,
  'caution-collapse': (v, show) =>
    `${text(v, 'title')} begins to cool before its crumb bears itself (${show.number(number(v, 'bears_pct'))} % of its starch): it may fall in. A warning by common practice, not a computed collapse`,
  'caution-domes': (v, show) =>
    `${text(v, 'title')}: its edge is crust for half an hour while ${show.number(number(v, 'batter_pct'))} % of it is batter still: it may dome and tear; lower the heat, cover it, or line the rim. A warning by common practice`,
  'caution-freezing': () =>
    'Freezing stops growth and kills little: as it thaws, hours go on where they stood, and the outside thaws first',
  'caution-met-is-not-proof': () =>
    'Meeting a rule of time and temperature lowers a risk; it proves nothing about the food itself',
  'caution-not-for': () =>
    'Not for food of infants, the ill or tube feeding, nor for food cooked or kept in vacuum or in cans: those need other limits',
  'caution-allergens': () => 'Temperatures say nothing about allergens',
  'carried-skin-set': (v, show) =>
    `held by its mould, it needs a set top only: its upper ${show.length(number(v, 'depth_m'))} have ${show.number(number(v, 'modulus_kPa'))} kPa, ${show.number(number(v, 'wanted_kPa'))} kPa are asked`,
  'carried-skin-soft': (v, show) =>
    `its upper ${show.length(number(v, 'depth_m'))} have ${show.number(number(v, 'modulus_kPa'))} kPa when something comes on it, ${show.number(number(v, 'wanted_kPa'))} kPa are asked: what is poured sinks in`,
  'carried-stands': (v, show) =>
    `strength is ${show.number(number(v, 'factor'))} times the load (${show.number(number(v, 'low_factor'))} by the low figures, ${show.number(number(v, 'wanted'))} asked), it sags by ${show.number(number(v, 'sag_pct'))} % of at most ${show.number(number(v, 'wanted_sag_pct'))} %; free it could stand ${show.length(number(v, 'standing_m'))} high (${show.length(number(v, 'low_standing_m'))} to ${show.length(number(v, 'high_standing_m'))})`,
  'carried-may-give': (v, show) =>
    `strength is ${show.number(number(v, 'factor'))} times the load by likely figures, only ${show.number(number(v, 'low_factor'))} times by the low ones (${show.number(number(v, 'wanted'))} asked); free it could stand ${show.length(number(v, 'low_standing_m'))} to ${show.length(number(v, 'high_standing_m'))} high: a warning, as strength differs so much from batch to batch; try a cup`,
  'carried-gives': (v, show) =>
    `strength is ${show.number(number(v, 'factor'))} times the load, ${show.number(number(v, 'wanted'))} times are asked, and it would sag by ${show.number(number(v, 'sag_pct'))} %; free it could stand ${show.length(number(v, 'standing_m'))} high (${show.length(number(v, 'low_standing_m'))} to ${show.length(number(v, 'high_standing_m'))})`,
  'carried-frozen': (v, show) =>
    `frozen: everywhere ${show.number(number(v, 'ice_pct'))} % of its water or more is ice, by the low figures, and it stands by that`,
  'carried-frozen-weak': () =>
    'how strong the ice makes it is not computed; as it thaws it stands by its gel alone, weaker than before it was frozen',
  'carried-in-mould': () => 'judged as if it stood free; in a mould the wall takes the side thrust',
  'carried-slumps': (v, show) =>
    `nothing sets it: let go, it slumps by ${show.number(number(v, 'least_pct'))} to ${show.number(number(v, 'most_pct'))} % of its height at a yield stress of ${show.number(number(v, 'firm_Pa'))} to ${show.number(number(v, 'soft_Pa'))} Pa`,
  'carried-slump-weak': () =>
    'a warning only: yield stresses of creams are orders of magnitude from memory, and whipping changes them',
  'coat-meets': (v, show) =>
    `where ${text(v, 'title')} at ${show.temperature(number(v, 'coat_C'))} touches a face at ${show.temperature(number(v, 'face_C'))} both come to ${show.temperature(number(v, 'contact_C'))}; ${show.length(number(v, 'thickness_m'))} of it are set after about ${show.number(number(v, 'setting_s'))} s`,
  'coat-no-colder': (v, show) =>
    `where ${text(v, 'title')} at ${show.temperature(number(v, 'coat_C'))} touches a face at ${show.temperature(number(v, 'face_C'))} both come to ${show.temperature(number(v, 'contact_C'))}: the face does not set it, the air must`,
  'coat-shock-set': (v, show) =>
    `set far below the ${show.temperature(number(v, 'low_C'))} to ${show.temperature(number(v, 'high_C'))} that temper needs: dull, and it blooms where it is kept warm; a warning, crystals are not computed`,
  'coat-cracks': (v, show) =>
    `likely to crack: it wants to shrink by ${show.number(number(v, 'mismatch_pct'))} % more than the frozen heart, brittle chocolate stands 0.5 to 1 %; a fifth to a third of liquid fat in it helps; a warning, from memory`,
  'coat-may-crack': (v, show) =>
    `shrinks by ${show.number(number(v, 'mismatch_pct'))} % more than what it sits on, brittle chocolate stands 0.5 to 1 %: a warning, from memory`,
  'coat-cold-air': (v, show) =>
    `air at ${show.temperature(number(v, 'air_C'))}: below ${show.temperature(number(v, 'least_C'))} crystals come that bloom later (from memory)`,
  'coat-sweats': (v, show) =>
    `a face at ${show.temperature(number(v, 'face_C'))} sweats where the air holds ${show.number(number(v, 'humidity_pct'))} % or more at ${show.temperature(number(v, 'air_C'))}: water under a coat lifts it and makes sugar bloom`,
  'coat-picks-up': (v, show) =>
    `while it is dipped or poured the cold freezes on more: about ${show.length(number(v, 'frozen_m'))} in ${show.number(number(v, 'dip_s'))} s`,
  'baked-laws-later': () =>
    'core and laws disagree: the core is through its window before starch and egg are set at every place',
  'baked-laws-earlier': () =>
    'core and laws disagree: starch and egg are set at every place, the core is not through its window',
  'coat-unknown': () =>
    'not known: how it was tempered, how long it is dipped, and whether it cracks or blooms; those are warnings from common practice',
  'baked-carried-over': (v, show) =>
    `after the heat it rises by another ${show.difference(number(v, 'rise_K'))}, to ${show.temperature(number(v, 'highest_C'))} ${when(v, show, 'at_h')}`,
  'baked-still-rising': (v, show) =>
    `as the plan ends it is at ${show.temperature(number(v, 'last_C'))} and still rises by ${show.difference(number(v, 'rate_K_h'))} an hour: add a stage to see how far`,
  'default-used': (v) => `${text(v, 'field')} not given: ${text(v, 'value')} used`,
  'law-range': (v, show) =>
    `properties hold from ${show.temperature(number(v, 'low_C'))} to ${show.temperature(number(v, 'high_C'))}; above, boiling is left out`,
  'law-range-baking': (v, show) =>
    `properties hold from ${show.temperature(number(v, 'low_C'))} to ${show.temperature(number(v, 'high_C'))}; crust hotter than that keeps those of the end`,
  'boils-out': (v, show) =>
    `its water boils at ${show.temperature(number(v, 'boils_C'))} behind a front that moves inward and leaves dry crust without ${show.number(number(v, 'water_pct'))} % of its weight; drying below boiling and water moving inside are left out; conductivity above 60 °C is known to 30 %`,
  'rises-and-sets': (v, show) =>
    `taken to rise to ${show.number(number(v, 'growth'))} times its volume at most while it is soft, and to set as starch does, later the more sugar there is; measure the height of a trial bake`,
  'dew-on-chocolate': (v, show) =>
    `in "${text(v, 'stage')}" dew settles on the chocolate: its surface is as cold as ${show.temperature(number(v, 'surface_C'))}, below the dew point of ${show.temperature(number(v, 'dew_C'))}, for ${lasting(v, show, 'within_h')} in all; it dries grey. Wrap it before it comes into damp air, and unwrap it when it is warm`,
  'mass-pours': (v, show) =>
    `${text(v, 'title')} pours as it comes: until it begins to set (for ${lasting(v, show, 'until_h')} at some place), currents in it pass heat up to ${show.number(number(v, 'gain'))} times as well as it conducts. How thin it is was taken from its class, so the band reaches from no currents at all to those of a mass three times thinner`,
  'rise-left-out': (v) => `${text(v, 'title')}: in this shape it is computed as poured, without its rise`,
  'growth-guessed': (v, show) =>
    `flour in it: taken as a batter that rises to ${show.number(number(v, 'growth'))} times its volume at most; give rises_to if you know better`,
  'table-range': (v, show) =>
    `the table reaches from ${show.temperature(number(v, 'low_C'))} to ${show.temperature(number(v, 'high_C'))}; beyond, its last straight line goes on`,
  'fixed-properties': () => 'the same properties at every temperature: freezing and melting are left out',
  'fat-crystals-left-out': () => 'kind of fat not given: the heat of its melting and setting is left out',
  'fat-curve-borrowed': (v) => `melting of the fat of ${text(v, 'kinds')}: curve borrowed from a fat like it`,
  'no-freezing-point': () => 'freezing left out: little free water, or sugar crystals lie in it',
  'air-weighs': (v, show) =>
    `${show.number(number(v, 'air_pct'))} % air: weigh a known volume, since 10 % in density is 10 % in time or more`,
  'weak-point': (v) => text(v, 'words'),
  'sugars-as-sucrose': () => 'kinds of sugar not given: taken as sucrose',
  'ash-as-mixed': () => 'kind of minerals not given: taken as those of dairy with some salt',
  'composition-scaled': (v, show) =>
    `the composition adds up to ${show.number(number(v, 'sum_pct'))} %: scaled to 100 %`,
  'area-default': (v, show) =>
    `area of the sheet not given: ${show.number(number(v, 'area_m2'))} m² used for the masses`,
  'own-material-first': (v) => `"${text(v, 'id')}" is taken from the plan, not the built-in material of the same name`,
  'guard-default': (v, show) =>
    `"${text(v, 'stage')}" has no max_h: it stops after ${show.duration(number(v, 'within_h'))} at the latest`,
  'cover-default': (v, show) =>
    `thickness of the cover not given: ${text(v, 'title').toLowerCase()} of ${show.number(number(v, 'thickness_m') * 1000)} mm used, lying close`,
  'board-default': (v, show) =>
    `board taken as ${text(v, 'title').toLowerCase()}, ${show.number(number(v, 'k_W_mK'))} W/(m K)`,
  'surroundings-typical': (v, show) =>
    `${text(v, 'title')}: heat passed by the air as computed for a surface at ${show.temperature(number(v, 'surface_C'))}; it may be off by 30 %`,
  'film-by-laws': (v, show) =>
    `"${text(v, 'stage')}": heat passed by the air follows from shape and temperatures, for air at ${show.number(number(v, 'speed_m_s'))} m/s; it may be off by 30 %`,
  'evaporation-by-laws': () =>
    'open surfaces lose water and heat as still pools do, known to 20 %; that a skin halves it within ten minutes, and from how deep a surface draws its water, is assumed',
  'appliance-typical-cold': (v, show) =>
    `${text(v, 'title')}: taken to have ${show.number(number(v, 'capacity_W'))} W of cooling at ${show.temperature(number(v, 'rated_C'))}, usual for such, give or take half; give capacity_W of yours`,
  'appliance-typical-heater': (v, show) =>
    `${text(v, 'title')}: taken to have a heater of ${show.number(number(v, 'heater_W'))} W and the walls of its kind, give or take half; give heater_W of yours`,
  'appliance-typical-ice': (v, show) =>
    `${text(v, 'title')}: taken to be ${show.mass(number(v, 'ice_kg'))} of ice in ${show.mass(number(v, 'water_kg'))} of water; give ice_kg and water_kg of yours`,
  'appliance-off': (v) =>
    `${text(v, 'title')}, switched off: how fast it cools is computed with walls usual for its kind, give or take half`,
  'appliance-warms-within': (v, show) =>
    `${text(v, 'title')} copes: at its warmest it is at ${show.temperature(number(v, 'extreme_C'))}, within ${show.temperature(number(v, 'limit_C'))}`,
  'appliance-warms-briefly': (v, show) =>
    `${text(v, 'title')} copes: the piece warms it ${sooner(v, show)} to ${show.temperature(number(v, 'extreme_C'))}, and it is above ${show.temperature(number(v, 'limit_C'))} only for ${lasting(v, show, 'beyond_h')}`,
  'appliance-sags-briefly': (v, show) =>
    `${text(v, 'title')} copes: it falls ${sooner(v, show)} to ${show.temperature(number(v, 'extreme_C'))}, and is below ${show.temperature(number(v, 'limit_C'))} only for ${lasting(v, show, 'beyond_h')}`,
  'appliance-warms': (v, show) =>
    `the piece warms the whole of it (${text(v, 'title')}): to ${show.temperature(number(v, 'extreme_C'))} ${sooner(v, show)}, above ${show.temperature(number(v, 'limit_C'))} for ${lasting(v, show, 'beyond_h')} in all, until ${lasting(v, show, 'back_h')} after it was put in; what else lies in it warms too`,
  'appliance-warms-to-the-end': (v, show) =>
    `the piece warms the whole of it (${text(v, 'title')}): to ${show.temperature(number(v, 'extreme_C'))} ${sooner(v, show)}; it stays above ${show.temperature(number(v, 'limit_C'))} to the end of the stage, for ${lasting(v, show, 'beyond_h')} in all; what else lies in it warms too`,
  'appliance-sags-within': (v, show) =>
    `${text(v, 'title')} copes: at its coolest it is at ${show.temperature(number(v, 'extreme_C'))}`,
  'appliance-sags': (v, show) =>
    `its heater is too small for this piece (${text(v, 'title')}): it falls to ${show.temperature(number(v, 'extreme_C'))} ${sooner(v, show)} and is below ${show.temperature(number(v, 'limit_C'))} for ${lasting(v, show, 'beyond_h')}`,
  'appliance-sags-to-the-end': (v, show) =>
    `its heater is too small for this piece (${text(v, 'title')}): it falls to ${show.temperature(number(v, 'extreme_C'))} and stays below ${show.temperature(number(v, 'limit_C'))} to the end of the stage`,
  'bath-warms': (v, show) =>
    `the bath warms to ${show.temperature(number(v, 'extreme_C'))} ${sooner(v, show)} (${text(v, 'title')}); it is above ${show.temperature(number(v, 'limit_C'))} for ${lasting(v, show, 'beyond_h')}`,
  'ice-left': (v, show) =>
    `${show.mass(number(v, 'melted_kg'))} of ice melts, ${show.mass(number(v, 'left_kg'))} is left`,
  'ice-gone': (v, show) =>
    `all ${show.mass(number(v, 'melted_kg'))} of ice has melted ${sooner(v, show)}: from then on the bath warms; add ice before`,
  'appliance-over-rating': (v, show) =>
    `${show.mass(number(v, 'mass_kg'))} at once: its kind is made to freeze ${show.mass(number(v, 'rating_kg'))} in a day`,
  'surroundings-note': (v) => `${text(v, 'title')}: ${text(v, 'note')}`,
  'air-default': (v, show) =>
    `${text(v, 'title')}: air at ${show.temperature(number(v, 'air_C'))}, as is usual; measure yours and give air_C`,
  'emissivity-default': (v, show) =>
    `"${text(v, 'stage')}": emissivity not given, ${show.number(number(v, 'emissivity'))} used`,
  'walls-as-air': (v) => `"${text(v, 'stage')}": temperature of the walls not given, that of the air used`,
  'radiation-within-film': (v) => `"${text(v, 'stage')}": h_W_m2K is taken as convection and radiation together`,
  'face-left-out': (v) => `face "${text(v, 'face')}" is not part of the model: what is given for it has no effect`,
  'mould-start-default': (v, show) =>
    `mould of ${text(v, 'title').toLowerCase()}: taken to be at ${show.temperature(number(v, 'start_C'))} when it is filled`,
  'mould-goes': (v, show) =>
    `"${text(v, 'stage')}": the mould of ${text(v, 'title').toLowerCase()} goes, and the heat in it with it: ${show.number(number(v, 'heat_kJ_m2K'))} kJ per kelvin and m²`,
  'powder-by-volume': (v) => `${text(v, 'title')} by volume: off by 15 % either way as it is scooped; weigh it`,
  'fat-continuous': () => 'fat taken as continuous, the rest strewn in it; say structure "OW" if the mass is watery',
  'crystals-stay': (v, show) =>
    `${show.number(number(v, 'share_pct'))} % of sugar stays as crystals: too little water for it`,
  'water-loss-given': (v, show) =>
    `${show.number(number(v, 'share_pct'))} % of water lost, as given: weigh before and after`,
  'pore-aw-default': (v, show) => `water activity in the pores not given: ${show.number(number(v, 'aw'))} used`,
  'no-air-given': () => 'no air given: taken as none',
  'alcohol-stays': (v, show) =>
    `${show.number(number(v, 'share_pct'))} % of alcohol stays in the mass: what is lost in cooking is left out`,
  'acids-no-solutes': () => 'acids are left out of the freezing point: about 0.1 K for each per cent in the water',
  'ingredient-from-memory': (v) => `composition from memory, read the label: ${text(v, 'titles')}`,
  'axis-left-out': (v, show) =>
    `heat through ${text(v, 'faces')} is left out: it is estimated to change the times of the core by ${lossWords(v, show)}`,
  'axis-kept': (v, show) =>
    `heat through ${text(v, 'faces')} is in the model: without it the times of the core would change by an estimated ${lossWords(v, show)}`,
  'dimensions-not-so': (v, show) =>
    `a model of ${show.number(number(v, 'asked'))} directions was asked for; this piece has ${show.number(number(v, 'has'))}`,
  'level-shallow': (v, show) =>
    `the lowest layer is shallow for a round mould: temperatures may be off by ${show.number(number(v, 'error_pct'))} % of the largest difference`,
  'coat-drained': (v, show) =>
    `coat of ${text(v, 'title').toLowerCase()}: ${show.number(number(v, 'thickness_m') * 1000)} mm, what its yield stress holds on an upright face; what sets on a cold heart while it is dipped comes on top`,
  'turned-over': (v) =>
    `"${text(v, 'stage')}": turned over; from here on top and bottom are what lies so then, and each face keeps its own temperature`,
  'cut-followed': (v, show) =>
    `"${text(v, 'stage')}": cut into ${show.number(number(v, 'pieces'))}; one from the middle is followed, its new faces as warm as the inside was there, and masses count for all`,
  'faces-cut': (v) =>
    `"${text(v, 'stage')}": a cut face begins as its places were within: as warm, as far set, with the hours that they have had; as moist as the mass, with no dew or frost on it`,
  'faces-bared': (v) =>
    `"${text(v, 'stage')}": what is bared begins as it was beneath: as warm, as far set, with the hours that it has had; it is as moist as the mass`,
  'layer-laid': (v) =>
    `"${text(v, 'stage')}": ${text(v, 'title')} comes as warm as given and as far set as it is when fresh; its hours begin there, and what it lies on keeps its own`,
  'door-without-appliance': (v, show) =>
    `"${text(v, 'stage')}": the door is open for ${show.duration(number(v, 'within_h'))}, but no appliance is told of here: its air stays as given`,
  'clock-forward': (v, show) =>
    `the clock goes forward by ${show.duration(number(v, 'within_h'))} during "${text(v, 'stage')}", after ${show.duration(number(v, 'at_h'))}: hours are counted as they pass, moments are told by the clock as it then shows`,
  'clock-back': (v, show) =>
    `the clock goes back by ${show.duration(number(v, 'within_h'))} during "${text(v, 'stage')}", after ${show.duration(number(v, 'at_h'))}: hours are counted as they pass, moments are told by the clock as it then shows, and one hour of it comes twice`,
  'air-within': (v, show) =>
    `air within the piece (${text(v, 'name')}): heat crosses it by conduction or currents and by radiation between faces of an emissivity of ${show.number(number(v, 'emissivity'))}; it holds none, and water is not carried across`,
  'air-open': (v) =>
    `air within the piece (${text(v, 'name')}): as long as nothing lies over its open side, nothing is taken to pass there; open air would cool or warm it sooner`,
  fallen: (v, show) =>
    `the last place to get there passes ${show.temperature(number(v, 'core_C'))} ${when(v, show, 'at_h')}`,
  'fallen-then-warmer': (v, show) =>
    `the last place to get there passes ${show.temperature(number(v, 'core_C'))} ${when(v, show, 'at_h')}, but something is warmer again ${when(v, show, 'again_h')}`,
  'fallen-from-the-start': (v, show) => `no place is ever warmer than ${show.temperature(number(v, 'core_C'))}`,
  'still-above': (v, show) =>
    `at the end of the plan the warmest place is still at ${show.temperature(number(v, 'last_C'))}, falling by ${show.difference(number(v, 'rate_K_h'))} an hour`,
  'air-too-warm': (v, show) =>
    `the air is at ${show.temperature(number(v, 'air_C'))}, so nothing can come down to ${show.temperature(number(v, 'core_C'))}; the warmest place ends at ${show.temperature(number(v, 'last_C'))}`,
  'settled-above': (v, show) =>
    `the warmest place has come to rest at ${show.temperature(number(v, 'last_C'))}, above the ${show.temperature(number(v, 'core_C'))} asked`,
  'warming-again': (v, show) =>
    `the piece is getting warmer at the end of the plan, with its warmest place at ${show.temperature(number(v, 'last_C'))}`,
  'baked-through': (v, show) =>
    `the last place to get there passes ${show.temperature(number(v, 'core_C'))} ${when(v, show, 'at_h')} and reaches ${show.temperature(number(v, 'highest_C'))}`,
  'baked-beyond': (v, show) =>
    `the last place to get there passes ${show.temperature(number(v, 'core_C'))} ${when(v, show, 'at_h')}, but goes on to ${show.temperature(number(v, 'highest_C'))}, beyond the ${show.temperature(number(v, 'most_C'))} of its window`,
  'not-baked': (v, show) =>
    `the last place reaches ${show.temperature(number(v, 'highest_C'))} at most, not ${show.temperature(number(v, 'core_C'))}, and then cools`,
  'still-below': (v, show) =>
    `at the end of the plan the last place is still at ${show.temperature(number(v, 'last_C'))}, rising by ${show.difference(number(v, 'rate_K_h'))} an hour`,
  'air-too-cool': (v, show) =>
    `the air is at ${show.temperature(number(v, 'air_C'))}, so nothing can reach ${show.temperature(number(v, 'core_C'))}; the last place ends at ${show.temperature(number(v, 'last_C'))}`,
  'settled-below': (v, show) =>
    `the last place has come to rest at ${show.temperature(number(v, 'last_C'))}, below the ${show.temperature(number(v, 'core_C'))} asked`,
  'rule-kept': (v, show) =>
    `every computed place keeps each step; the tightest, ${show.temperature(number(v, 'from_C'))} to ${show.temperature(number(v, 'to_C'))}, takes ${lasting(v, show, 'taken_h')} of ${show.duration(number(v, 'within_h'))}`,
  'rule-step-late': (v, show) =>
    `${show.temperature(number(v, 'from_C'))} to ${show.temperature(number(v, 'to_C'))} takes ${lasting(v, show, 'taken_h')}, ${show.duration(number(v, 'within_h'))} are allowed`,
  'rule-step-unfinished': (v, show) =>
    `${show.temperature(number(v, 'to_C'))} is not reached within the plan, ${lasting(v, show, 'taken_h')} after ${show.temperature(number(v, 'from_C'))}; ${show.duration(number(v, 'within_h'))} are allowed`,
  'rule-running': (v, show) =>
    `the plan ends ${lasting(v, show, 'taken_h')} after ${show.temperature(number(v, 'from_C'))} with ${show.temperature(number(v, 'to_C'))} not reached; ${show.duration(number(v, 'within_h'))} are allowed`,
  'rule-clock-waits': (v, show) =>
    `the warmest place has not fallen below ${show.temperature(number(v, 'start_C'))} by the end of the plan, so its hours have not begun`,
  'rule-not-for-this': (v, show) =>
    `no place cools down as this rule means it: from ${show.temperature(number(v, 'start_C'))}, or from the zone below it`,
  'rule-record-incomplete': (v, show) =>
    `the worst place begins below ${show.temperature(number(v, 'start_C'))}: what happened to it before the plan is not counted`,
  'rule-by-analogy': () =>
    'the worst place was cold and is warmed by its neighbours: no rule speaks of that, so the hours count from leaving the cold',
  'rule-reheated': (v, show) =>
    `the worst place goes above ${show.temperature(number(v, 'start_C'))} after its hours began: they are not begun anew, as some poisons outlast heat`,
  'rule-inside-kept': (v, show) =>
    `every computed place keeps it; the longest stay between ${show.temperature(number(v, 'from_C'))} and ${show.temperature(number(v, 'to_C'))} is ${lasting(v, show, 'taken_h')} of ${show.duration(number(v, 'within_h'))}`,
  'rule-never-inside': (v, show) =>
    `no computed place is between ${show.temperature(number(v, 'from_C'))} and ${show.temperature(number(v, 'to_C'))} while it counts`,
  'rule-inside-over': (v, show) =>
    `${lasting(v, show, 'taken_h')} between ${show.temperature(number(v, 'from_C'))} and ${show.temperature(number(v, 'to_C'))}; ${number(v, 'within_h') > 0 ? `${show.duration(number(v, 'within_h'))} are allowed` : 'no time there is allowed'}`,
  'rule-spells': (v, show) =>
    `more than one spell between ${show.temperature(number(v, 'to_C'))} and ${show.temperature(number(v, 'from_C'))}, ${lasting(v, show, 'taken_h')} in all; one of at most ${show.duration(number(v, 'within_h'))} is excused`,
  'rule-inside-running': (v, show) =>
    `the plan ends with the worst place still between ${show.temperature(number(v, 'from_C'))} and ${show.temperature(number(v, 'to_C'))}, so far for ${lasting(v, show, 'taken_h')} of ${show.duration(number(v, 'within_h'))}`,
  'rule-not-cold-yet': (v, show) =>
    `the worst place does not come down to ${show.temperature(number(v, 'cold_C'))} within the plan, from where on this rule counts`,
  'rule-says': (v) => `for the worst place the rule says: ${text(v, 'words')}`,
  'rule-partly-exempt': () =>
    'places whose water activity and pH need no control (FDA Food Code 1-201.10(B), the wetter neighbour taken where masses meet) are left out',
  'rule-all-exempt': () =>
    'by water activity and pH no place needs control (FDA Food Code 1-201.10(B), the wetter neighbour taken where masses meet); a measurement of both must bear that out',
  'rule-open': (v, show) =>
    `met by the likely course only: at the late end ${show.temperature(number(v, 'from_C'))} to ${show.temperature(number(v, 'to_C'))} takes ${Number.isNaN(number(v, 'late_h')) ? 'longer than the plan' : show.duration(number(v, 'late_h'))}, ${show.duration(number(v, 'within_h'))} are allowed`,
  'setting-done': (v, show) =>
    `every place is ${text(v, 'what')}: the first ${when(v, show, 'first_h')}, the last ${when(v, show, 'at_h')}`,
  'setting-done-then-lost': (v, show) =>
    `every place is ${text(v, 'what')} ${when(v, show, 'at_h')}, the first ${when(v, show, 'first_h')}, but no longer ${when(v, show, 'again_h')}`,
  'setting-not-yet': (v, show) =>
    `at the end of the plan the place that is furthest behind is not ${text(v, 'what')} (${show.number(number(v, 'extent_pct'))} % of the way, ${show.temperature(number(v, 'last_C'))}); left in air of ${show.temperature(number(v, 'air_C'))} it takes some ${lasting(v, show, 'more_h')} more`,
  'setting-never': (v, show) =>
    `the place that is furthest behind ends at ${show.temperature(number(v, 'last_C'))} and ${show.number(number(v, 'extent_pct'))} % of the way; in air of ${show.temperature(number(v, 'air_C'))} it will never be ${text(v, 'what')}`,
  'setting-unknown': (v) =>
    `nothing is known of how any layer sets, so it can't be told when it is ${text(v, 'what')}: give "sets" with its material`,
  'setting-never-dissolved': (v, show) =>
    `it never gets hot enough for long enough to dissolve what should set it, so it will not be ${text(v, 'what')} (${wayLeft(v, show)}): boil it before it is poured`,
  'setting-never-cooked': (v, show) =>
    `its starch is not boiled through, so it will not be ${text(v, 'what')}, or will turn thin again (${wayLeft(v, show)}): boil it a minute before it is poured`,
  'setting-temper-lost': (v, show) =>
    `it gets warmer than its temper bears, so it will not be ${text(v, 'what')} as tempered chocolate is (${wayLeft(v, show)})`,
  'setting-never-releases': (v, show) =>
    `chocolate out of temper sticks to its mould: it is never said to be ${text(v, 'what')} (${wayLeft(v, show)})`,
  'setting-acid': (v, show) =>
    `acid breaks what should set it, so it will not be ${text(v, 'what')} (${wayLeft(v, show)})`,
  'target-unknown': (v) => `not known: ${text(v, 'unknown')}`,
  'setting-weak': (v) => `${text(v, 'title')}: ${text(v, 'weak')}`,
  'setting-silent': (v) => `nothing is said of ${text(v, 'titles')}: no setting law is known there`,
  'coat-never-dry-and-cold': (v, show) =>
    `within the plan there is no moment at which it is cold enough and its surface dry; it ends at ${show.temperature(number(v, 'last_C'))}`,
  'coat-sweat-unknown': () =>
    'whether its surface sweats is not judged: give the humidity of the air in which it is coated',
  'coat-dew': (v, show) =>
    `air of ${show.temperature(number(v, 'air_C'))} and ${show.number(number(v, 'humidity_pct'))} % wets whatever is not warmer than ${show.temperature(number(v, 'dew_C'))} by a kelvin`,
  'stay-kept': (v, show) =>
    `set ${when(v, show, 'since_h')}, and no place gets too warm again until ${show.moment(number(v, 'until_h')).replace(/^at /, '')}`,
  'stay-lost': (v, show) =>
    `set ${when(v, show, 'since_h')}, but the first place gets too warm again ${when(v, show, 'at_h')}`,
  'edge-kept': (v, show) =>
    `the crust reaches ${show.length(number(v, 'depth_m'))} deep at most, ${show.length(number(v, 'most_m'))} are welcome`,
  'edge-never-dry': (v, show) =>
    `no place gets hot enough to dry: ${show.temperature(number(v, 'highest_C'))} at most, a crumb that is wet stays below ${show.temperature(number(v, 'dry_C'))}`,
  'edge-dry': (v, show) =>
    `the crust reaches ${show.length(number(v, 'depth_m'))} deep, ${show.length(number(v, 'most_m'))} are welcome: lower the heat, cover, or line the rim`,
  'edge-burnt': (v, show) => `the hottest place of the surface is burnt ${when(v, show, 'at_h')}`,
  'edge-colour': (v, show) =>
    `its surface ends ${text(v, 'name')} at its hottest place, ${show.number(number(v, 'share_pct'))} % of the way to black`,
  'edge-cooked': (v, show) =>
    `its edge is cooked ${show.number(number(v, 'ratio'))} times as much as its heart; more than four times tastes of it`,
  'edge-weak': () =>
    'colour is that of a lean crumb, sugar and milk brown sooner; how dry the crumb under the crust gets is not computed',
  'growth-most': (v, show) =>
    `${text(v, 'name')} may grow by ${halfLogs(number(v, 'log10'))} powers of ten there (${halfLogs(number(v, 'low_log10'))} to ${halfLogs(number(v, 'high_log10'))} by the length of its lag), by ${halfLogs(number(v, 'core_log10'))} in the core; ${number(v, 'yardstick_log10') > 0 ? `the yardstick is ${show.number(number(v, 'yardstick_log10'))}` : 'any growth counts'}, and no decision rests on this figure alone`,
  'growth-hardly': (v, show) =>
    `${text(v, 'name')} hardly grows at any computed place: by less than half a power of ten, ${number(v, 'yardstick_log10') > 0 ? `the yardstick is ${show.number(number(v, 'yardstick_log10'))}` : 'any growth counts'}`,
  'growth-not-computed': (v) => `${text(v, 'name')}: no place where its growth could be computed`,
  'growth-outside-range': (v, show) =>
    `${text(v, 'name')}: not computed, the piece lies too long outside ${show.temperature(number(v, 'low_C'))} to ${show.temperature(number(v, 'high_C'))}, where its growth was measured`,
  'growth-about': (v) => `${text(v, 'note')}; measured in: ${text(v, 'medium')}`,
  'growth-outside-mass': (v, show) =>
    `layers drier than a water activity of ${show.number(number(v, 'aw'))} or more acid than pH ${show.number(number(v, 'pH_low'))} are not computed: nothing was measured there`,
  'growth-as-wet': () => 'water activity or pH is not given there: taken as wet and without acid',
  'killing-enough': (v, show) =>
    `the place that is heated least gets as much as ${show.number(number(v, 'minutes'))} min at ${show.temperature(number(v, 'reference_C'))}: ${killedLogs(number(v, 'log10'))} powers of ten, ${show.number(number(v, 'asked_log10'))} are asked`,
  'killing-short': (v, show) =>
    `the place that is heated least gets only as much as ${show.number(number(v, 'minutes'))} min at ${show.temperature(number(v, 'reference_C'))}: ${killedLogs(number(v, 'log10'))} powers of ten, ${show.number(number(v, 'asked_log10'))} are asked; with more sugar than was measured ask for 75 °C at every place`,
  'killing-not-known': () =>
    'the mass is drier than those in which killing was measured: what its heating does is not known',
  'killing-unknown': () =>
    'not known: shells, lumps and cold corners between the computed places, and strains or masses other than those measured',
  'killing-no-credit': () =>
    'in so dry or sweet a mass Salmonella outlives hours of heat: its heating counts for nothing, buy treated ingredients',
  'rule-other-reading': (v) => `read as ${text(v, 'reading')}, the answer would be: ${text(v, 'answer')}`,
  'rule-coat-above': (v, show) =>
    `what was laid on later needs no control itself, but keeps warm what it lies on: it ends at ${show.temperature(number(v, 'last_C'))}, above ${show.temperature(number(v, 'to_C'))}`,
  'rule-coat-down': (v, show) =>
    `what was laid on later needs no control itself, but keeps warm what it lies on: it is the last to be at ${show.temperature(number(v, 'to_C'))}, ${when(v, show, 'at_h')}`,
  'rule-slowest-above': (v, show) =>
    `the last place to come down ends at ${show.temperature(number(v, 'last_C'))}, above ${show.temperature(number(v, 'to_C'))}; by its own hours: ${text(v, 'answer')}. ${beganWords(v)}`,
  'rule-slowest-down': (v, show) =>
    `the last place to come down is at ${show.temperature(number(v, 'to_C'))} ${when(v, show, 'at_h')}; by its own hours: ${text(v, 'answer')}. ${beganWords(v)}`,
  'change-blast-chiller': () => 'the first two hours in a blast chiller',
  'trouble-blast-chiller': () => 'a blast chiller that takes it; open faces dry sooner',
  'change-blast-freezer': () => 'a blast freezer in place of the freezer',
  'trouble-blast-freezer': () => 'a blast freezer that takes it',
  'change-chill-base': (v, show) => `base and lining chilled to ${show.temperature(number(v, 'chilled_C'))} first`,
  'trouble-chill-base': () => 'room in the fridge some hours before; the heat of the mould itself is left out',
  'change-colder-setting': () => 'the thermostat 2 K colder',
  'trouble-colder-setting': () => 'other goods get colder too; near 0 °C they may freeze',
  'change-fan': () => 'a fan on it wherever the air stands still',
  'trouble-fan': () => 'a clean fan; open faces dry sooner',
  'change-ice-bath': () => 'the first two hours in stirred ice water',
  'trouble-ice-bath': () => 'a tight mould, plenty of ice, someone who stirs',
  'change-longer-bake': () => 'a fifth longer in the oven',
  'trouble-longer-bake': () => 'time of the oven; a thicker crust',
  'change-longer-rest': () => 'the last stage half as long again',
  'trouble-longer-rest': () => 'time',
  'change-lower-oven': (v, show) => `the oven ${show.difference(number(v, 'lower_K'))} lower, for a quarter longer`,
  'trouble-lower-oven': () => 'time of the oven; a paler, softer edge',
  'change-metal-mould': () => 'a mould of 1 mm stainless steel',
  'trouble-metal-mould': () => 'another mould; it may need warming to turn out of',
  'change-pour-cooler': () => 'pour it cooler by up to 20 K, not below 40 °C',
  'trouble-pour-cooler': () => 'stir it over cold water first; watch that it does not set in the pot',
  'change-smaller-load': () => 'half of the other goods taken out of the appliance',
  'trouble-smaller-load': () => 'another place for them',
  'change-spacers': () => 'stand it on spacers, air under it',
  'trouble-spacers': () => 'a rack that carries it',
  'change-start-earlier': () => 'start four hours earlier',
  'trouble-start-earlier': () => 'other working hours; it stands longer at the end',
  'change-thinner': () => 'a fifth thinner: the thickest layer, or the mould that gives its thickness',
  'trouble-thinner': () => 'less of it, or a wider or longer piece',
  'change-two-pieces': () => 'two pieces, the thickest layer half as thick in each, in two places',
  'trouble-two-pieces': () => 'a second mould and a second place; a seam where they are put together',
  'change-two-pours': () => 'the thick layer on top in two pours, three hours apart',
  'trouble-two-pours': () => 'half of it is kept hot meanwhile; a second round of work',
  'change-uncover-first-hour': () => 'leave it uncovered for the first hour',
  'trouble-uncover-first-hour': () => 'it dries a little, and must be kept from what falls on it',
  'day-no-readings': () => 'Nothing measured yet: enter what a probe shows, best of all at the slowest place',
  'day-unknown': () =>
    'The readings fit no plausible piece, so it is not known how it goes on: look for the cause first',
  'day-ahead': (v, show) =>
    `Ahead by ${lasting(v, show, 'by_h')}: now expected ${when(v, show, 'at_h')}, promised ${when(v, show, 'promised_h')}`,
  'day-on-course': (v, show) =>
    `On course: now expected ${when(v, show, 'at_h')}, promised ${when(v, show, 'promised_h')}`,
  'day-behind': (v, show) =>
    `Behind by ${lasting(v, show, 'by_h')}: now expected ${when(v, show, 'at_h')}, promised ${when(v, show, 'promised_h')}`,
  'day-lost': () => 'Behind: it was promised, and is no longer reached within the plan',
  'day-gained': (v, show) => `Ahead: it was not promised, and is now expected ${when(v, show, 'at_h')}`,
  'day-not-reached': () => 'Neither promised nor expected within the plan',
  'day-do-nothing': () => 'Nothing needs to be done for it',
  'day-do-watch': (v, show) =>
    `It may come too late: measure again, and be ready to act before ${show.moment(number(v, 'act_h'))}`,
  'day-do-change': () => 'It comes too late as it goes: see what would help from now on',
  'day-do-early': (v, show) =>
    `It may be ready from ${show.moment(number(v, 'early_h'))} on: be there, and do not let it go too far`,
  'day-came': (v, show) =>
    `It came ${show.moment(number(v, 'at_h'))}: ${show.duration(Math.abs(number(v, 'by_h')))} ${number(v, 'by_h') < 0 ? 'earlier' : 'later'} than promised`,
  'fit-unexplained': () =>
    'These readings fit no plausible piece: something differs from the plan that no factor stands for (another stage, a probe elsewhere, an open door); nothing is taken from them',
  'fit-probe-moved': (v, show) =>
    `"${text(v, 'probe')}" jumps by ${show.difference(number(v, 'shift_K'))} ${show.moment(number(v, 'at_h'))}, as if it had been moved: only the longer part counts`,
  'fit-at-bound': (v) => `${text(v, 'title')}: at the end of what is plausible, so look for another cause`,
  'fit-outliers': (v, show) =>
    `${text(v, 'count')} of ${text(v, 'of')} readings stray too far to count, the first ${show.moment(number(v, 'at_h'))}`,
  'fit-serial': () => 'Neighbouring readings miss by the same: they say less than their number, and bands stay wider',
  'fit-undetermined': () => 'These readings determine no factor: too few, too early, or where nothing changes',
  'rule-unknown': (v) =>
    `measured, by the rule: ${text(v, 'measured')}. Not known: what lies between the computed places, what was before the plan, and what hands and tools bring`,
  'rule-core-differs': (v) => `judged at the core alone, the answer would be: ${text(v, 'answer')}`,
} satisfies Record<string, (values: Values, show: Show) => string>

export type SentenceCode = keyof typeof sentences

/** The sentence for a message, in the reader's units. */
export function say(message: Message, show: Show): string {
  return sentences[message.code](message.values, show)
}
