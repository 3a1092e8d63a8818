/** A straight map from values to pixels and back. */
export interface LinearScale {
  readonly from: number
  readonly to: number
  readonly start: number
  readonly end: number
}

export const toPixel = (scale: LinearScale, value: number): number =>
  scale.start + ((value - scale.from) / (scale.to - scale.from)) * (scale.end - scale.start)

export const fromPixel = (scale: LinearScale, pixel: number): number =>
  scale.from + ((pixel - scale.start) / (scale.end - scale.start)) * (scale.to - scale.from)

/** Half a pixel's step, so that hairlines are sharp. */
export const crisp = (pixel: number): number => Math.round(pixel) + 0.5
