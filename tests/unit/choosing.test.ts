import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { changes } from '../../src/core/choosing/changes/registry.ts'
import { findPlanFaults, readPlan } from '../../src/core/plan/read.ts'

const root = join(import.meta.dirname, '..', '..')
const folder = join(root, 'src', 'core', 'choosing', 'changes')
const examples = join(root, 'shared', 'examples')

describe('changes', () => {
  it('are a file each, named like the change', () => {
    const files = readdirSync(folder).map((file) => file.replace('.ts', ''))
    expect(files.filter((file) => file !== 'registry' && file !== 'parts').sort()).toEqual(
      changes.map(({ id }) => id).sort(),
    )
  })

  it('leave the plan that they are given as it was, and change something or nothing', () => {
    for (const file of readdirSync(examples)) {
      const plan = readPlan(readFileSync(join(examples, file), 'utf8'))
      const before = JSON.stringify(plan)
      for (const { id, edit } of changes) {
        const edited = edit(plan)
        expect(JSON.stringify(plan), id).toBe(before)
        if (edited !== undefined) expect(JSON.stringify(edited), `${id} of ${file}`).not.toBe(before)
      }
    }
  })

  it('make plans of most of the examples', () => {
    const used = new Set<string>()
    for (const file of readdirSync(examples)) {
      const plan = readPlan(readFileSync(join(examples, file), 'utf8'))
      for (const { id, edit } of changes) {
        const edited = edit(plan)
        if (edited !== undefined && findPlanFaults(edited).length === 0) used.add(id)
      }
    }
    console.log(`changes that fit an example: ${[...used].join(', ')}`)
    expect(used.size).toBeGreaterThan(10)
  })

  it('take for the main layer the one that the mould gives its thickness', () => {
    const plan = readPlan(readFileSync(join(examples, 'vanilla-half-round.thickset'), 'utf8'))
    const edited = (id: string) => changes.find((change) => change.id === id)!.edit(plan)!.piece
    expect(edited('chill-base').fill.map(({ start_C }) => start_C)).toEqual([72, 4])
    expect(edited('pour-cooler').fill.map(({ start_C }) => start_C)).toEqual([52, 20])
    expect(edited('thinner').shape).toMatchObject({ radius_mm: 88 })
  })
})
