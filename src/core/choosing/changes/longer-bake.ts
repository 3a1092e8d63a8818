import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { editStages, isHot } from './parts.ts'

const LONGER = 1.2

/** A fifth longer in the same oven. */
export const longerBake: Change = {
  id: 'longer-bake',
  title: message('change-longer-bake'),
  trouble: message('trouble-longer-bake'),
  edit: (plan) =>
    editStages(plan, (stage) => {
      const { after_h } = stage.until
      return isHot(stage) && after_h !== undefined
        ? { ...stage, until: { ...stage.until, after_h: LONGER * after_h } }
        : undefined
    }),
}
