import type { ReactNode } from 'react'

import { Choosing } from '../choosing/Choosing.tsx'
import { useForecast } from '../forecast-client.ts'
import { ProbeList } from '../piece/ProbeList.tsx'
import { usePlanFaults } from '../plan-faults.ts'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { useView } from '../view-store.ts'
import { Answers } from './Answers.tsx'
import { Course } from './Course.tsx'
import { EarlyCourse } from './EarlyCourse.tsx'
import { Piece } from './Piece.tsx'
import { AddQuestion, Questions } from './Questions.tsx'
import { RegionBar } from './RegionBar.tsx'
import { Stages } from './Stages.tsx'
import { useShown } from './use-shown.ts'
import { VerdictStrip } from './VerdictStrip.tsx'

/** One for good, so that answers are not drawn anew for it. */
const askMore = <AddQuestion />

/** A plan at work: piece and stages, course, answers. */
export function PlanView(): ReactNode {
  const region = useView((state) => state.region)
  const title = usePlan(({ history }) => history?.present.title || 'Plan')
  const shown = useShown()
  return (
    <>
      {shown === null ? null : <VerdictStrip forecast={shown.forecast} />}
      <main className="plan-view" data-region={region}>
        <h1 className="unseen">{title}</h1>
        <section className="region region-piece" aria-label="Piece and stages">
          <Piece />
          <Stages />
          <ProbeList />
        </section>
        <section className="region region-course" aria-label="Course">
          {shown === null ? <BeforeCourse /> : <Course {...shown} />}
        </section>
        <section className="region region-answers" aria-label="Answers">
          {shown === null ? <NoForecast title="Answers" beside={askMore} /> : <Answers {...shown} beside={askMore} />}
          <Questions />
          {shown === null ? null : <Choosing show={shown.show} />}
        </section>
      </main>
      <RegionBar />
    </>
  )
}

/** The course before there is a forecast: as far as it is computed. */
function BeforeCourse(): ReactNode {
  const likely = useForecast((state) => state.likely)
  const coming = useForecast(({ running }) => running !== null)
  const units = useSettings(({ settings }) => settings)
  if (likely === null) return <NoForecast title="Course" />
  return <EarlyCourse course={likely.course} plan={likely.plan} units={units} coming={coming} />
}

/** What stands in a pane before there is a forecast. */
function NoForecast({ title, beside }: { readonly title: string; readonly beside?: ReactNode }): ReactNode {
  const failure = useForecast((state) => state.failure)
  const early = useForecast(({ likely, running }) => likely !== null && running !== null)
  const faults = usePlanFaults().length
  const words =
    failure !== null
      ? `The computation stopped: ${failure.reason}`
      : faults > 0
        ? 'A forecast follows once what is marked in the plan is mended.'
        : early
          ? 'Answers follow with their bands, which are being computed.'
          : 'The first forecast is on its way.'
  return (
    <>
      <div className="heading-row">
        <h2>{title}</h2>
        {beside}
      </div>
      <p className="second">{words}</p>
    </>
  )
}
