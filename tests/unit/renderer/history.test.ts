import { describe, expect, test } from 'vitest'

import { change, redo, redoName, seal, startHistory, undo, undoName } from '../../../src/renderer/history.ts'

describe('undo and redo', () => {
  test('steps have names and come back in order', () => {
    let history = change(change(startHistory('a'), 'thickness', 'b'), 'title', 'c')
    expect(undoName(history)).toBe('title')
    history = undo(history)
    expect([history.present, undoName(history), redoName(history)]).toEqual(['b', 'thickness', 'title'])
    history = undo(history)
    expect([history.present, undoName(history), redoName(history)]).toEqual(['a', null, 'thickness'])
    expect(undo(history)).toBe(history)
    history = redo(redo(history))
    expect([history.present, redoName(history)]).toEqual(['c', null])
    expect(redo(history)).toBe(history)
  })

  test('a drag or the typing in one field is one step, until the gesture ends', () => {
    let history = startHistory(0)
    for (const value of [1, 2, 3]) history = change(history, 'thickness', value, 'drag')
    expect(history.past).toHaveLength(1)
    history = change(seal(history), 'thickness', 4, 'drag')
    expect(history.past).toHaveLength(2)
    expect(undo(undo(history)).present).toBe(0)
  })

  test('a new change after undo forgets what was undone', () => {
    const history = change(undo(change(startHistory(0), 'one', 1)), 'two', 2)
    expect(redoName(history)).toBe(null)
    expect(undo(history).present).toBe(0)
  })

  test('typing after undo never joins the step that was undone', () => {
    let history = change(startHistory(0), 'thickness', 1, 'field')
    history = change(undo(history), 'thickness', 2, 'field')
    expect(undo(history).present).toBe(0)
  })

  test('no change makes no step', () => {
    const history = startHistory('a')
    expect(change(history, 'nothing', 'a')).toBe(history)
  })
})
