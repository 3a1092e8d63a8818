import { describe, expect, test } from 'vitest'
import { PlanError, sayFault } from '../../../src/core/errors.ts'
import { readingsOfLog } from '../../../src/core/fitting/log-readings.ts'
import { readAirLog } from '../../../src/core/plan/air-log.ts'
import { logBegins_h, readLog } from '../../../src/core/plan/log.ts'
import { aPlan } from './a-plan.ts'

const plan = { ...aPlan(), startsAt: '2027-03-12T16:00', probes: [{ name: 'heart' }, { name: 'rim', y: 0.1 }] }

function refusalOf(work: () => unknown): string[] {
  try {
    work()
    return []
  } catch (error) {
    if (error instanceof PlanError) return error.faults.map(sayFault)
    throw error
  }
}

describe("a logger's file", () => {
  test('has a column a probe, by its heading', () => {
    const log = readLog('date;time;Heart °C;rim °C\n12.03.2027;18:00;60,5;40\n12.03.2027;18:30;58,0;35,5\n')
    expect(log.columns.map(({ title }) => title)).toEqual(['Heart', 'rim'])
    expect(readingsOfLog(plan, log)).toEqual([
      { probe: 'heart', at_h: 2, C: 60.5 },
      { probe: 'heart', at_h: 2.5, C: 58 },
      { probe: 'rim', at_h: 2, C: 40 },
      { probe: 'rim', at_h: 2.5, C: 35.5 },
    ])
  })

  test('counts from the start of the plan: by its date, by its clock, or as it counts', () => {
    const begins = (text: string) => logBegins_h(readLog(text), plan.startsAt)
    expect(begins('time,temp_C\n2027-03-13T01:00,20\n2027-03-13T02:00,10\n')).toBe(9)
    expect(begins('time;C\n01:00;20\n02:00;10\n')).toBe(9)
    expect(begins('hours;temp\n0;20\n1;10\n')).toBe(0)
  })

  test('is brought to the clock of the workshop where it names a zone', () => {
    const text = 'time,temp_C\n2027-03-12T17:00:00Z,60\n2027-03-12T17:30:00Z,50\n'
    expect(logBegins_h(readLog(text), plan.startsAt)).toBe(1)
    expect(logBegins_h(readLog(text, { zone_h: 1 }), plan.startsAt)).toBe(2)
    const east = text.replaceAll('Z,', '+05:30,')
    expect(logBegins_h(readLog(east, { zone_h: 1 }), plan.startsAt)).toBe(1 - 4.5)
  })

  test('may write days or months first, with slashes', () => {
    const days = 'time,temp_C\n12/03/2027 18:00,60\n13/03/2027 18:00,50\n'
    expect(logBegins_h(readLog(days), plan.startsAt)).toBe(2)
    const months = 'time,temp_C\n3/12/2027 6:00 PM,60\n3/12/2027 7:00 PM,50\n'
    expect(logBegins_h(readLog(months), plan.startsAt)).toBe(2)
  })

  test('may have holes: lines without a number are left out, and long gaps told', () => {
    const lines = Array.from({ length: 20 }, (_, i) => `${i * 5 + (i > 9 ? 120 : 0)};${i === 3 ? '---' : 60 - i}`)
    const log = readLog(`minutes;core °C\n${lines.join('\n')}\n`)
    expect(log.seconds).toHaveLength(19)
    expect(log.gaps).toEqual([{ from: 2700, to: 10_200 }])
  })

  test('has a clock that is fast, and readings from before the start that say nothing', () => {
    const log = readLog('time,core_C\n2027-03-12T15:50,70\n2027-03-12T16:10,69\n2027-03-12T17:10,60\n')
    expect(readingsOfLog(plan, log).map(({ at_h }) => Number(at_h.toFixed(4)))).toEqual([0.1667, 1.1667])
    expect(readingsOfLog(plan, log, { fast_min: 10 }).map(({ at_h }) => at_h)).toEqual([0, 1])
  })

  test('of one column is of the probe that is named, else of the core', () => {
    const log = readLog('hours,temp\n1,60\n2,50\n')
    expect(readingsOfLog(plan, log, { probe: 'rim' })[0]!.probe).toBe('rim')
    expect(readingsOfLog(plan, log)[0]!.probe).toBe('core')
    expect(() => readingsOfLog(plan, log, { probe: 'lid' })).toThrow(/no probe is called "lid"/)
  })

  test('of other columns, or of another day, is refused', () => {
    const two = readLog('hours,left °C,right °C\n1,60,50\n2,50,40\n')
    expect(() => readingsOfLog(plan, two)).toThrow(/"left", "right".*no probes/)
    const old = readLog('time,core_C\n2026-03-12T15:50,70\n2026-03-12T16:10,69\n')
    expect(() => readingsOfLog(plan, old)).toThrow(/before the start/)
  })

  test('has no number of hundreds of digits: such a line is left out', () => {
    const log = readLog(`hours;core °C\n0;60\n${'9'.repeat(400)};59\n1;${'9'.repeat(400)}\n2;57\n3;56\n`)
    expect(log.seconds).toEqual([0, 7200, 10_800])
    expect(log.columns[0]?.T_C).toEqual([60, 57, 56])
  })

  test('is refused where it mixes times with and without a date', () => {
    const refused = refusalOf(() => readLog('time;C\n12:00;60\n13.03.2027 13:00;59\n13.03.2027 14:00;58\n'))
    expect(refused).toEqual([
      'log, reading 2: its time has a date, unlike that of the first; give a date with every time, or with none',
      'log, reading 3: its time has a date, unlike that of the first; give a date with every time, or with none',
    ])
  })

  test('is refused for readings that no plan can keep: a broken probe, a year too late', () => {
    const broken = refusalOf(() => readingsOfLog(plan, readLog('hours;heart °C\n0;60\n1;-127\n2;58\n')))
    expect(broken).toEqual(['log, reading 2: is −127 °C; take the line out, or give a temperature from −100 to 500 °C'])
    const air = refusalOf(() => readAirLog('hours;air °C\n0;5\n1;3276.7\n2;4\n'))
    expect(air).toEqual(['log, reading 2: is 3276.7 °C; take the line out, or give a temperature from −60 to 350 °C'])
    const late = refusalOf(() =>
      readingsOfLog(plan, readLog('time,heart_C\n2031-03-12T18:00,60\n2031-03-12T18:30,58\n')),
    )
    expect(late[0]).toMatch(/^log: it ends more than a year after the start of the plan/)
  })
})
