/*
 * The course as a picture that stands by itself: the drawings that lie on each other become one, with the colours, lines
 * and letters that the page gives them written onto each element, as variables and classes are lost outside it.
 */

const NAMESPACE = 'http://www.w3.org/2000/svg'
/** What an element looks like: attributes of SVG that the page sets by its style sheets. */
const LOOK = [
  'fill',
  'fill-opacity',
  'fill-rule',
  'stroke',
  'stroke-width',
  'stroke-opacity',
  'stroke-dasharray',
  'stroke-linejoin',
  'stroke-linecap',
  'opacity',
  'paint-order',
  'font-family',
  'font-size',
  'font-weight',
  'text-anchor',
  'dominant-baseline',
  'clip-path',
  'visibility',
] as const
const MARGIN = 16

export interface Picture {
  readonly svg: string
  readonly width: number
  readonly height: number
}

/** The drawing within `root` on paper, with a title and a sentence for those who do not see it. */
export async function picturesOf(root: HTMLElement, title: string, sentence: string): Promise<Picture> {
  const frame = root.getBoundingClientRect()
  const [width, height] = [Math.ceil(frame.width) + 2 * MARGIN, Math.ceil(frame.height) + 2 * MARGIN]
  const whole = document.createElementNS(NAMESPACE, 'svg')
  whole.setAttribute('xmlns', NAMESPACE)
  whole.setAttribute('viewBox', `0 0 ${width} ${height}`)
  whole.setAttribute('width', String(width))
  whole.setAttribute('height', String(height))
  whole.setAttribute('role', 'img')
  for (const [tag, words] of [
    ['title', title],
    ['desc', sentence],
  ] as const) {
    const said = document.createElementNS(NAMESPACE, tag)
    said.textContent = words
    whole.append(said)
  }
  whole.append(await letters(), ground(width, height))
  for (const patterns of document.querySelectorAll('svg:has(> defs > pattern)')) whole.append(looking(patterns))
  const drawings = [...root.querySelectorAll('svg')].filter(
    (one) => one.closest('button') === null && one.parentElement?.closest('svg') === null,
  )
  for (const drawing of drawings) {
    const box = drawing.getBoundingClientRect()
    const copy = looking(drawing)
    copy.setAttribute('x', String(box.left - frame.left + MARGIN))
    copy.setAttribute('y', String(box.top - frame.top + MARGIN))
    copy.setAttribute('overflow', 'visible')
    whole.append(copy)
  }
  return { svg: new XMLSerializer().serializeToString(whole), width, height }
}

/** A copy of a drawing with its look written onto it. */
function looking(original: Element): Element {
  const copy = original.cloneNode(true) as Element
  const [from, to] = [
    [original, ...original.querySelectorAll('*')],
    [copy, ...copy.querySelectorAll('*')],
  ]
  from.forEach((element, index) => {
    const style = getComputedStyle(element)
    const written = to[index]
    for (const name of LOOK) {
      const value = style.getPropertyValue(name)
      if (value !== '' && value !== 'none' && value !== 'auto') written?.setAttribute(name, value)
      else if (value === 'none' && (name === 'fill' || name === 'stroke')) written?.setAttribute(name, value)
    }
    for (const name of ['class', 'style', 'tabindex', 'aria-hidden']) written?.removeAttribute(name)
  })
  return copy
}

function ground(width: number, height: number): SVGRectElement {
  const rect = document.createElementNS(NAMESPACE, 'rect')
  rect.setAttribute('width', String(width))
  rect.setAttribute('height', String(height))
  rect.setAttribute('fill', getComputedStyle(document.body).backgroundColor)
  return rect
}

/** The program's own letters, so that the picture looks the same anywhere. */
async function letters(): Promise<SVGStyleElement> {
  const style = document.createElementNS(NAMESPACE, 'style')
  const faces = [...document.styleSheets]
    .flatMap((sheet) => [...sheet.cssRules])
    .filter((rule) => rule instanceof CSSFontFaceRule)
  const latin = faces.find((face) => /latin-wght/.test(face.style.getPropertyValue('src')))
  const [, path] = /url\("?([^")]+)"?\)/.exec(latin?.style.getPropertyValue('src') ?? '') ?? []
  if (latin === undefined || path === undefined) return style
  const file = await fetch(new URL(path, latin.parentStyleSheet?.href ?? location.href))
  const data = btoa(Array.from(new Uint8Array(await file.arrayBuffer()), (byte) => String.fromCharCode(byte)).join(''))
  const family = latin.style.getPropertyValue('font-family')
  style.textContent = `@font-face { font-family: ${family}; font-weight: 200 800; src: url(data:font/woff2;base64,${data}) }`
  return style
}

/** The picture in dots, two to a pixel, as base64. */
export async function asPng({ svg, width, height }: Picture): Promise<string> {
  const image = new Image()
  const drawn = new Promise((resolve, reject) => {
    image.onload = resolve
    image.onerror = () => reject(new Error('the picture could not be drawn'))
  })
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`
  await drawn
  const canvas = document.createElement('canvas')
  canvas.width = 2 * width
  canvas.height = 2 * height
  canvas.getContext('2d')?.drawImage(image, 0, 0, 2 * width, 2 * height)
  return canvas.toDataURL('image/png').replace(/^.*,/, '')
}
