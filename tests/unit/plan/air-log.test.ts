import { expect, test } from 'vitest'
import { forecast } from '../../../src/core/forecast.ts'
import { readAirLog, withAirLog } from '../../../src/core/plan/air-log.ts'
import { aPlan } from './a-plan.ts'

const rounded = (text: string) => readAirLog(text).points.map(([h, T]) => [Number(h.toFixed(4)), Number(T.toFixed(2))])

test('semicolons and decimal commas', () => {
  expect(rounded('Zeit;Luft °C\n12.03.2027 22:00;4,5\n12.03.2027 23:30;6,0\n13.03.2027 01:00;-1,5\n')).toEqual([
    [0, 4.5],
    [1.5, 6],
    [3, -1.5],
  ])
})

test('commas and points, with the instant of ISO 8601', () => {
  expect(rounded('time,temp_C\n2027-03-12T22:00:00,4.5\n2027-03-12T22:30:00,6\n2027-03-12T23:00,5\n')).toEqual([
    [0, 4.5],
    [0.5, 6],
    [1, 5],
  ])
})

test('tabs, Fahrenheit, a date of its own, lines before the heading', () => {
  const text =
    'Logger 17\nserial 4\ndate\ttime\tair (F)\n2027-03-12\t11:30 pm\t32\n2027-03-13\t00:30 am\t41\n2027-03-13\t1:30 am\t14\n'
  expect(rounded(text)).toEqual([
    [0, 0],
    [1, 5],
    [2, -10],
  ])
  expect(readAirLog(text).fahrenheit).toBe(true)
})

test('the clock alone passes midnight; minutes and hours are counted', () => {
  expect(rounded('time;C\n23:00;1\n00:30;5\n01:30;2\n').map(([h]) => h)).toEqual([0, 1.5, 2.5])
  expect(rounded('minutes,temp\n0,10\n30,12\n90,9\n').map(([h]) => h)).toEqual([0, 0.5, 1.5])
  expect(rounded('hours;temp\n0;10\n0,5;12\n1,5;9\n').map(([h]) => h)).toEqual([0, 0.5, 1.5])
})

test('a long log is thinned to lines that stay within 0.05 K of every reading', () => {
  const wave = (i: number) => -18 + 2 * Math.sin(i / 40)
  const text = `hours,temp_C\n${Array.from({ length: 5000 }, (_, i) => `${(i / 60).toFixed(5)},${wave(i).toFixed(3)}`).join('\n')}`
  const { points, readings } = readAirLog(text)
  expect(readings).toBe(5000)
  expect(points.length).toBeLessThan(1500)
  for (let i = 0; i < 5000; i += 7) {
    const h = i / 60
    const next = points.findIndex(([at]) => at >= h - 1e-9)
    const [a, b] = [points[Math.max(0, next - 1)]!, points[next]!]
    const line = b[0] === a[0] ? b[1] : a[1] + ((b[1] - a[1]) * (h - a[0])) / (b[0] - a[0])
    expect(Math.abs(line - wave(i))).toBeLessThan(0.052)
  }
})

test('what is no log is told', () => {
  expect(() => readAirLog('hello\nthere\nyou\n')).toThrow(/columns/)
  expect(() => readAirLog('a;b\nx;y\nz;w\n')).toThrow(/time and a temperature/)
  expect(() => readAirLog('hours;temp\n0;1\n2;3\n1;4\n')).toThrow(/not later/)
})

test('it becomes the air of a stage, kept in the plan', () => {
  const plan = aPlan()
  const name = plan.stages[0]!.name
  const logged = withAirLog(plan, name, readAirLog('hours;temp\n0;10\n0,5;-12\n1;-20\n'))
  expect(logged.stages[0]!.in).toMatchObject({
    air_C: [
      [0, 10],
      [0.5, -12],
      [1, -20],
    ],
  })
  expect(withAirLog(plan, '1', readAirLog('hours;temp\n0;10\n1;12\n')).stages[0]!.in).toMatchObject({
    air_C: [
      [0, 10],
      [1, 12],
    ],
  })
  expect(() => withAirLog(plan, 'elsewhere', readAirLog('hours;temp\n0;10\n1;12\n'))).toThrow(/no stage "elsewhere"/)
  expect(forecast({ ...logged, fidelity: 'quick' }).curves.air![0]).toBeCloseTo(10, 6)
})
