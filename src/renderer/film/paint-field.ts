import { cssColour } from './cividis.ts'
import type { Region } from './contours.ts'
import { type FilledSteps, onScreen, type Placement } from './field-drawing.ts'
import type { StepScale } from './step-scale.ts'

/** Filled steps on a canvas of `width` × `height` CSS pixels, sharp at the screen's own pixels. */
export function paintField(
  canvas: HTMLCanvasElement,
  drawing: FilledSteps,
  scale: StepScale,
  placement: Placement,
  size: { readonly width: number; readonly height: number },
): void {
  const ratio = window.devicePixelRatio || 1
  const [width, height] = [Math.round(size.width * ratio), Math.round(size.height * ratio)]
  // Setting the size clears the canvas and costs, so only when it changed.
  if (canvas.width !== width) canvas.width = width
  if (canvas.height !== height) canvas.height = height
  const context = canvas.getContext('2d')
  if (!context) return
  context.setTransform(ratio, 0, 0, ratio, 0, 0)
  context.clearRect(0, 0, size.width, size.height)
  for (const { step, region } of drawing.fills) {
    if (region.length === 0) continue
    context.fillStyle = cssColour(scale.colours[step]!)
    context.fill(pathOf(region, placement), 'evenodd')
  }
  if (drawing.empty.length === 0) return
  context.globalCompositeOperation = 'destination-out'
  context.fill(pathOf(drawing.empty, placement))
  context.globalCompositeOperation = 'source-over'
}

function pathOf(region: Region, placement: Placement): Path2D {
  const path = new Path2D()
  for (const ring of region) {
    ring.forEach((point, index) => {
      const { x, y } = onScreen(placement, point)
      if (index === 0) path.moveTo(x, y)
      else path.lineTo(x, y)
    })
    path.closePath()
  }
  return path
}
