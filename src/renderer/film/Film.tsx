import { type ReactNode, useMemo } from 'react'

import type { SectionFilm } from '../../core/forecast-types.ts'
import type { Place } from '../../core/geometry/body.ts'
import type { CutPlane } from '../../core/geometry/section.ts'
import { layerTitle, placeWords } from '../../core/words/place.ts'
import { longestWords } from '../course/course-sentence.ts'
import { readCurve } from '../course/read-curve.ts'
import { degreeLabel } from '../course/temperature-axis.ts'
import { dayAndClock } from '../format-time.ts'
import type { ForecastPaneProps } from '../panes/pane-props.ts'
import { type FilmQuantity, useView } from '../view-store.ts'
import { FieldPicture, type FieldSign } from './FieldPicture.tsx'
import { fieldAt, filmAt, filmsOf, frameAt, placeIn, rangeOf } from './film-frame.ts'
import { linesThatMatter } from './film-words.ts'
import { type NodeWeights, nodeField, nodeWeights } from './node-field.ts'
import { type Refinement, refineField, refineGrid } from './refine-field.ts'
import { ScaleBar } from './ScaleBar.tsx'
import { drawnGrid, type Extent, extentOf, type Point } from './section-shape.ts'
import { type StepScale, stepScale, temperatureScale } from './step-scale.ts'

interface FilmProps extends Pick<ForecastPaneProps, 'forecast' | 'plan' | 'show' | 'units'> {
  readonly quantity: FilmQuantity
  readonly width: number
  /** The scale is that of the whole course instead of the frame's own. */
  readonly held: boolean
  readonly onHold: (held: boolean) => void
}

const barWidth = 64
const readingWidth = 220
const stackedBelow = 520

/** The section at the scrubber's moment with its scale. */
export function Film(props: FilmProps): ReactNode {
  const { forecast, plan, quantity, width } = props
  const end_h = forecast.times_h.at(-1) ?? 0
  const at_h = useView((view) => Math.min(end_h, view.at_h))
  // Growth is that of the finished piece, whatever moment is looked at.
  const shown_h = quantity === 'growth' ? end_h : at_h
  const asked = useView((view) => view.plane)
  const films = useMemo(() => filmsOf(forecast.film, asked), [forecast, asked])
  const frame = useMemo(() => frameAt(films, shown_h), [films, shown_h])
  const flat = plan.piece.shape.kind === 'sheet'
  const shape = frame?.film.grid
  const cells = useMemo(() => shape && drawnGrid(shape, flat), [shape, flat])
  const weights = useMemo(() => cells && nodeWeights(cells), [cells])
  const refinement = useMemo(() => cells && refineGrid(cells), [cells])
  const room = width < stackedBelow ? width - barWidth : width - barWidth - readingWidth
  if (!frame || !weights || !refinement) return <p className="film-none">No section to show.</p>
  const { grid } = refinement
  const extent = extentOf(grid)
  const size = pictureSize(extent, Math.max(120, room))
  const plane = frame.film === filmAt(forecast.film, shown_h) ? 'across' : asked
  const common = { ...props, films, plane, grid, weights, refinement, film: frame.film, at_h, flat, size, extent }
  switch (quantity) {
    case 'temperature':
      return <TemperatureFilm {...common} T_C={frame.T_C} />
    case 'set':
    case 'ice':
      return <ShareFilm {...common} quantity={quantity} />
    case 'danger':
      return <DangerFilm {...common} />
    case 'growth':
      return <GrowthFilm {...common} />
  }
}

/** As wide as there is room for, and not so high that the curves leave the screen. */
function pictureSize(extent: Extent, room: number): { readonly width: number; readonly height: number } {
  const highest = Math.min(320, Math.max(170, room * 0.62))
  const scale = Math.min((room - 8) / extent.width, (highest - 8) / extent.height)
  return { width: Math.ceil(extent.width * scale) + 8, height: Math.ceil(extent.height * scale) + 8 }
}

interface ViewProps extends FilmProps {
  readonly film: SectionFilm
  /** All of this cut. */
  readonly films: readonly SectionFilm[]
  readonly plane: CutPlane
  readonly grid: SectionFilm['grid']
  readonly weights: NodeWeights
  readonly refinement: Refinement
  readonly at_h: number
  readonly flat: boolean
  readonly size: { readonly width: number; readonly height: number }
  readonly extent: Extent
}

function TemperatureFilm(props: ViewProps & { readonly T_C: Float32Array }): ReactNode {
  const { forecast, plan, show, units, weights, refinement, T_C, at_h, held, films } = props
  const nodes = useMemo(() => refineField(refinement, nodeField(weights, T_C)), [refinement, weights, T_C])
  const whole = useMemo(() => rangeOf(films.flatMap((film) => film.T_C)), [films])
  const [low, high] = useMemo(() => (held ? whole : rangeOf([nodes])), [held, whole, nodes])
  const scale = useMemo(() => temperatureScale(low, high, units.temperature), [low, high, units.temperature])
  const asked = useMemo(() => linesThatMatter(forecast, plan), [forecast, plan])
  const core = readCurve(forecast.times_h, forecast.curves.core ?? [], at_h)
  const labelOf = (value: number): string => degreeLabel(value, units.temperature)
  const sign = signAt(props, forecast.core.where, core === null ? undefined : `slowest ${show.temperature(core)}`)
  const [coldest, hottest] = rangeOf([T_C])
  const title = `Section at ${dayAndClock(plan.startsAt, at_h)}: ${show.temperature(coldest)} to ${show.temperature(hottest)}${sign ? `, ${sign.words}` : ''}`
  return (
    <Picture
      {...props}
      {...{ nodes, scale, labelOf, sign, title }}
      unit={`°${units.temperature}`}
      matter={within(asked, scale)}
    >
      <button type="button" className="hold-button" aria-pressed={held} onClick={() => props.onHold(!held)}>
        Hold the scale
      </button>
      {props.flat && <p className="film-note">A strip of the sheet; its edges are left out.</p>}
    </Picture>
  )
}

/** Steps of a tenth, the same at every moment, so that two moments can be compared. */
const shareScale = stepScale(0, 100)

function ShareFilm(props: ViewProps & { readonly quantity: 'set' | 'ice' }): ReactNode {
  const { forecast, plan, film, weights, refinement, at_h, quantity } = props
  const field = fieldAt(film, quantity === 'set' ? 'set_pct' : 'ice_pct', at_h)
  const nodes = useMemo(
    () => (field ? between(refineField(refinement, nodeField(weights, field)), 0, 100) : new Float64Array(0)),
    [refinement, weights, field],
  )
  if (!field) return <p className="film-none">Nothing to show.</p>
  const [least, most] = rangeOf([field])
  const words = `${quantity === 'set' ? 'Set' : 'Water that is ice'} at ${dayAndClock(plan.startsAt, at_h)}: ${percent(least)} to ${percent(most)} %`
  const decides = quantity === 'set' ? forecast.answers.find(({ target }) => target === 'set') : undefined
  return (
    <Picture
      {...props}
      {...{ nodes, scale: shareScale, sign: decides && signAt(props, decides.where, 'last to set') }}
      labelOf={percent}
      unit="%"
      hatched
      matter={[]}
      title={words}
    >
      <p className="film-note">{words}.</p>
      {quantity === 'set' && film.setUnknown.length > 0 && (
        <p className="film-note">
          Nothing is known of how these set, they are drawn as 0 %: {film.setUnknown.join(', ')}.
        </p>
      )}
    </Picture>
  )
}

const percent = (value: number): string => String(Math.round(value))
const between = (values: Float64Array, low: number, high: number): Float64Array =>
  values.map((value) => Math.min(high, Math.max(low, value)))

function GrowthFilm(props: ViewProps): ReactNode {
  const { forecast, film, weights, refinement } = props
  const grown = film.growth_log10
  const nodes = useMemo(
    () => (grown ? between(refineField(refinement, nodeField(weights, grown)), 0, MOST_GROWTH) : new Float64Array(0)),
    [refinement, weights, grown],
  )
  if (!grown) return <p className="film-none">No growth to show.</p>
  const most = Math.round(2 * rangeOf([nodes])[1]) / 2
  const worst = forecast.growth.reduce<(typeof forecast.growth)[number] | undefined>(
    (a, b) => ((b.log10 ?? -1) > (a?.log10 ?? -1) ? b : a),
    undefined,
  )
  const words =
    most > 0
      ? `What may grow up to the end of the plan, whichever organism grows most, in powers of ten: up to ${most}${worst ? ` (${worst.name})` : ''}. No decision rests on such a figure alone.`
      : 'Hardly anything grows at any place.'
  return (
    <Picture
      {...props}
      {...{ nodes, scale: growthScale, sign: worst?.where && signAt(props, worst.where, 'grows most') }}
      labelOf={(value) => String(value)}
      unit="10ⁿ"
      hatched
      matter={[]}
      title={words}
    >
      <p className="film-note">{words}</p>
    </Picture>
  )
}

/** Nothing is told beyond six powers of ten. */
const MOST_GROWTH = 6
const growthScale = stepScale(0, MOST_GROWTH)

function DangerFilm(props: ViewProps): ReactNode {
  const { forecast, plan, show, film, weights, refinement, films } = props
  const { danger } = forecast
  const nodes = useMemo(
    () =>
      refineField(
        refinement,
        nodeField(weights, film.danger_h).map((hours) => Math.max(0, hours)),
      ),
    [refinement, weights, film],
  )
  const [low, high] = useMemo(() => rangeOf([nodes]), [nodes])
  const scale = useMemo(() => stepScale(low, high), [low, high])
  const final = film === films.at(-1)
  const until = dayAndClock(plan.startsAt, film.times_h.at(-1) ?? 0)
  const zone = `${bare(show.temperature(danger.low_C))} and ${show.temperature(danger.high_C).replace('.0', '')}`
  const sign = final && high > 0 ? signAt(props, danger.where, `longest ${longestWords(danger)}`) : undefined
  const words =
    high > 0
      ? `Hours between ${zone} up to ${until}. Longest, ${longestWords(danger)}: ${layerTitle(forecast, danger.layer)}, ${placeWords(danger.where)}.`
      : `No place is between ${zone} up to ${until}.`
  return (
    <Picture
      {...props}
      {...{ nodes, scale, sign }}
      labelOf={(value) => show.number(Number(value.toFixed(2)))}
      unit="h"
      hatched
      matter={[]}
      title={words}
    >
      <p className="film-note">{words}</p>
    </Picture>
  )
}

const bare = (words: string): string => words.replace('.0', '').replace(/\s*°[CF]$/, '')

const within = (values: readonly number[], scale: StepScale): readonly number[] =>
  values.filter((value) => value > scale.edges[0]! && value < scale.edges.at(-1)!)

/** The sign at a place of the finished piece; none while the piece does not reach there yet. */
function signAt(view: ViewProps, place: Place, words: string | undefined): FieldSign | undefined {
  if (words === undefined) return undefined
  const at = pointOf(view, placeIn(place, view.plane))
  return at && { at, words }
}

/** Places are shares of the whole piece, of which this frame may show less, and the other way up. */
function pointOf({ film: { frame }, extent, flat }: ViewProps, place: Place): Point | undefined {
  const up = frame.turned ? 1 - place.y : place.y
  // A sheet is drawn as a strip of a width of its own.
  const x = flat ? extent.left + place.x * extent.width : frame.left + place.x * frame.width
  const y = frame.bottom + up * frame.height
  const slack = 1e-3 * frame.height
  const within =
    x >= extent.left - slack &&
    x <= extent.left + extent.width + slack &&
    y >= extent.bottom - slack &&
    y <= extent.bottom + extent.height + slack
  return within ? { x, y } : undefined
}

interface PictureProps extends ViewProps {
  readonly nodes: Float64Array
  readonly scale: StepScale
  readonly sign: FieldSign | undefined
  readonly labelOf: (value: number) => string
  readonly unit: string
  readonly matter: readonly number[]
  /** A state map, whose steps can be told apart without colour. */
  readonly hatched?: boolean
  readonly title: string
  readonly children: ReactNode
}

function Picture(props: PictureProps): ReactNode {
  const { grid, nodes, scale, matter, labelOf, sign, size, flat, title, unit, hatched = false } = props
  const lit = useView((view) => view.place)
  const kept = useStable(matter)
  return (
    <div className="film-picture">
      <FieldPicture
        {...{ grid, nodes, scale, labelOf, sign, title, hatched }}
        matter={kept}
        lit={lit ? pointOf(props, lit) : undefined}
        openSides={flat}
        width={size.width}
        height={size.height}
      />
      <ScaleBar {...{ scale, labelOf, matter, hatched }} sign={unit} height={Math.max(110, size.height)} />
      <div className="film-under">{props.children}</div>
    </div>
  )
}

/** The same array as long as its values are the same, so that nothing is drawn anew for nothing. */
function useStable(values: readonly number[]): readonly number[] {
  const key = values.join(' ')
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key is the values
  return useMemo(() => values, [key])
}
