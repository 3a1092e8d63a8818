import type { Control } from '../../core/control.ts'

const OFTEN_MS = 100
const WIDTH = 72

/** A control that shows progress on one line of standard error, and takes it away again. */
export interface Progress extends Control {
  done(): void
}

/** @param wanted  shown even where standard error is no terminal, then one line a step of five per cent, and one for the end */
export function watchProgress(wanted: boolean): Progress {
  const now = (): number => performance.now()
  const terminal = process.stderr.isTTY === true
  if (!(terminal || wanted)) return { now, done: () => undefined }
  let told = 0
  let toldShare = -1
  return {
    now,
    report(share, doing) {
      const percent = Math.floor(share * 100)
      if (terminal) {
        if (now() - told < OFTEN_MS) return
        told = now()
        process.stderr.write(`\r${`${String(percent).padStart(3)} %  ${doing}`.slice(0, WIDTH).padEnd(WIDTH)}`)
      } else if (percent >= toldShare + 5 || (percent === 100 && toldShare < 100)) {
        toldShare = percent
        process.stderr.write(`${percent} % ${doing}\n`)
      }
    },
    done() {
      if (terminal && told > 0) process.stderr.write(`\r${' '.repeat(WIDTH)}\r`)
    },
  }
}
