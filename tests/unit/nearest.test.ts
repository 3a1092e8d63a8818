import { expect, test } from 'vitest'
import { didYouMean, nearest } from '../../src/core/nearest.ts'

const known = ['pastry-cream', 'sponge-crumb', 'aluminium-foil', 'film', 'chest-freezer', 'thickness_mm', 'h_W_m2K']

test.each([
  ['pastry-crean', 'pastry-cream'],
  ['Pastry Cream', 'pastry-cream'],
  ['pasrty-cream', 'pastry-cream'],
  ['thickness', 'thickness_mm'],
  ['foil', 'aluminium-foil'],
  ['chest-frezer', 'chest-freezer'],
  ['h_W_m2k', 'h_W_m2K'],
])('%s → %s', (word, meant) => expect(nearest(word, known)).toBe(meant))

test('what resembles nothing gets the list', () => {
  expect(nearest('granite', known)).toBeUndefined()
  expect(nearest('x', ['y'])).toBeUndefined()
  expect(didYouMean('granite', ['film', 'foil'])).toBe('known are: film, foil')
  expect(didYouMean('fim', ['film', 'foil'])).toBe('did you mean "film"?')
  expect(didYouMean('x', [])).toBe('there is none to choose from')
})
