import type { Body } from '../body.ts'

/** The body with only some of its axes in the model: along the others it is one cell, and their faces are left out. */
export function keepAxes(body: Body, kept: (axis: number) => boolean): Body {
  return {
    ...body,
    axes: body.axes.map((axis, index) => (kept(index) || axis.idle === true ? axis : { ...axis, idle: true })),
  }
}
