import type { ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import { curvesCsv } from '../../core/words/csv.ts'
import { bridge } from '../bridge.ts'
import { Icon } from '../icons.tsx'
import { Menu } from '../parts/Menu.tsx'
import { giveFile } from '../sheet/give-file.ts'
import { asPng, picturesOf } from './course-picture.ts'

interface GiveOutProps {
  readonly forecast: Forecast
  readonly name: string
  readonly sentence: string
}

/** The course as a picture or as numbers, for other programs. */
export function GiveOut({ forecast, name, sentence }: GiveOutProps): ReactNode {
  const picture = (): ReturnType<typeof picturesOf> => {
    const root = document.querySelector<HTMLElement>('.course-drawing')
    if (root === null) throw new Error('no course is drawn')
    return picturesOf(root, name, sentence)
  }
  const give = (ending: 'svg' | 'csv' | 'png', data: () => Promise<string>): void =>
    giveFile(async () =>
      bridge.ask('exportFile', { name, ending, encoding: ending === 'png' ? 'base64' : 'utf8', data: await data() }),
    )
  return (
    <Menu
      label="Give the course out"
      className="table-button"
      named
      items={[
        { id: 'svg', label: 'Picture as SVG', onChoose: () => give('svg', async () => (await picture()).svg) },
        { id: 'png', label: 'Picture as PNG', onChoose: () => give('png', async () => asPng(await picture())) },
        { id: 'csv', label: 'Numbers as CSV', onChoose: () => give('csv', async () => curvesCsv(forecast)) },
      ]}
    >
      <Icon name="disk" /> Give out
    </Menu>
  )
}
