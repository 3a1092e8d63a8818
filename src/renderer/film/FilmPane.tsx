import { memo, type ReactNode, useMemo, useState } from 'react'
import type { CutPlane } from '../../core/geometry/section.ts'
import { MomentReading } from '../course/MomentReading.tsx'
import { useWidth } from '../course/use-width.ts'
import { Icon } from '../icons.tsx'
import type { ForecastPaneProps } from '../panes/pane-props.ts'
import { Choice } from '../parts/Choice.tsx'
import { type FilmQuantity, useView } from '../view-store.ts'
import { Film } from './Film.tsx'
import { filmMoments, nextMoment, previousMoment } from './film-frame.ts'
import { type Playing, usePlaying } from './use-playing.ts'
import './film.css'

const quantities: readonly { readonly name: FilmQuantity; readonly word: string }[] = [
  { name: 'temperature', word: 'Temperature' },
  { name: 'set', word: 'Set' },
  { name: 'ice', word: 'Ice' },
  { name: 'danger', word: 'Danger hours' },
  { name: 'growth', word: 'Growth' },
]

type FilmPaneProps = Pick<ForecastPaneProps, 'forecast' | 'plan' | 'show' | 'units'>

/** The section through time: what is shown, the film's controls, the picture and the curves' values beside it. */
export const FilmPane = memo(function FilmPane(props: FilmPaneProps): ReactNode {
  const { forecast, plan, show } = props
  const [element, width] = useWidth<HTMLDivElement>()
  const [held, hold] = useState(false)
  const quantity = useView((view) => view.film)
  const choose = useView((view) => view.chooseFilm)
  const moments = useMemo(() => filmMoments(forecast.film), [forecast])
  const playing = usePlaying(moments)
  return (
    <section className="film" aria-label="Film of the section">
      <div className="film-bar">
        {/* biome-ignore lint/a11y/useSemanticElements: a fieldset would bring its own frame and legend */}
        <div className="film-choice" role="group" aria-label="Film shows">
          {quantities.map(({ name, word }) => (
            <button type="button" key={name} aria-pressed={quantity === name} onClick={() => choose(name)}>
              {word}
            </button>
          ))}
        </div>
        {forecast.film.some(({ others }) => others !== undefined) ? <PlaneChoice /> : null}
        <PlayBar moments={moments} playing={playing} />
      </div>
      <div ref={element} className="film-row">
        {width > 0 && <Film {...props} width={width} quantity={quantity} held={held} onHold={hold} />}
        <MomentReading forecast={forecast} startsAt={plan.startsAt} show={show} />
      </div>
    </section>
  )
})

const planes: readonly { readonly id: CutPlane; readonly title: string }[] = [
  { id: 'across', title: 'Across, in the middle' },
  { id: 'along', title: 'Along, in the middle' },
  { id: 'level', title: 'Level, half way up' },
]

/** Through which plane of a piece of three directions the film looks. */
function PlaneChoice(): ReactNode {
  const plane = useView((view) => view.plane)
  const choose = useView((view) => view.choosePlane)
  return (
    <Choice
      look="inline"
      label="Cut"
      value={plane}
      groups={[{ title: null, options: planes }]}
      onChoose={(id) => choose(planes.find((one) => one.id === id)?.id ?? 'across')}
    />
  )
}

function PlayBar({ moments, playing }: { readonly moments: readonly number[]; readonly playing: Playing }): ReactNode {
  const step = (to: (moments: readonly number[], at_h: number) => number) => () => {
    const { at_h, scrub } = useView.getState()
    scrub(to(moments, at_h))
  }
  return (
    <div className="play-bar">
      <button
        type="button"
        className="play-button"
        aria-label="Step back"
        title="Step back"
        onClick={step(previousMoment)}
      >
        <Icon name="before" />
      </button>
      <button
        type="button"
        className="play-button"
        aria-label={playing.playing ? 'Pause' : 'Play'}
        title={playing.playing ? 'Pause' : 'Play'}
        onClick={playing.toggle}
      >
        <Icon name={playing.playing ? 'pause' : 'play'} />
      </button>
      <button type="button" className="play-button" aria-label="Step on" title="Step on" onClick={step(nextMoment)}>
        <Icon name="after" />
      </button>
    </div>
  )
}
