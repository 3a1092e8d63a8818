import type { CardCurves, MaterialCard } from '../../core/materials/card.ts'
import { type Comparison, MISS_TO_EXPLAIN } from '../../core/materials/measured.ts'
import { sourceWords } from '../../core/sources.ts'
import { allergenSentences } from '../../core/words/allergens.ts'
import { say } from '../../core/words/sentences.ts'
import { metric } from '../../core/words/show.ts'
import { textSection, textTable } from './text-table.ts'
import { weightWords } from './weight.ts'

const signed = (value: number, digits: number): string => {
  const text = value.toFixed(digits)
  return (Number(text) === 0 ? text.replace('-', '') : text).replace('-', '−')
}

/** A card in words for a terminal. */
export function tellMaterial({ material, curves, boils_C, measured }: MaterialCard): string {
  const { id, title, density, freezes_C, composition_pct, recipe, notes, sources } = material
  const phases = [
    ...(freezes_C === undefined ? [] : [`begins to freeze at ${metric.temperature(freezes_C)}`]),
    ...(boils_C === undefined ? [] : [`its water boils at ${metric.temperature(boils_C)}`]),
  ]
  const keys = [...new Set([...sources, ...measured.map(({ source }) => source)])]
  return [
    title === id ? `${title}\n` : `${title} (${id})\n`,
    textSection('What it is', [
      `density ${density.toFixed(density < 100 ? 1 : 0)} kg/m³ at 20 °C, ${[...phases, `properties from ${metric.temperature(material.validity_C[0])} to ${metric.temperature(material.validity_C[1])}`].join(', ')}`,
      ...(composition_pct === undefined ? [] : [compositionWords(composition_pct)]),
    ]),
    textSection('Over temperature', curveLines(curves)),
    ...(recipe === undefined
      ? []
      : [
          textSection('Ingredients', [
            ...recipe.lines.map(({ title: name, mass_kg }) => `${name} ${weightWords(mass_kg)}`),
            `${metric.mass(recipe.massIn_kg)} put together, ${metric.mass(recipe.massOut_kg)} of mass, ${metric.number(recipe.volume * 1000)} L`,
          ]),
          textSection('Allergens', allergenSentences(recipe)),
        ]),
    textSection('Measured beside computed', measuredLines(measured)),
    textSection('Assumed and weak', [...new Set(notes.map((note) => say(note, metric)))]),
    textSection(
      'Sources',
      keys.map((key) => `${key}: ${sourceWords(key)}`),
    ),
  ].join('')
}

function compositionWords(composition_pct: Readonly<Record<string, number>>): string {
  const parts = Object.entries(composition_pct).filter(([, share]) => share >= 0.05)
  return parts.map(([name, share]) => `${name} ${share.toFixed(1)} %`).join(', ')
}

function curveLines(curves: CardCurves): string[] {
  const cooling = curves.solid_fat_cooling_share
  const head = ['°C', 'k W/(m K)', 'c kJ/(kg K)', 'kg/m³', 'enthalpy kJ/kg', 'ice %', 'solid fat %']
  const rows = curves.T_C.map((T_C, i) => [
    signed(T_C, 1),
    (curves.k_W_mK[i] ?? 0).toFixed(3),
    ((curves.c_J_kgK[i] ?? 0) / 1000).toFixed(2),
    (curves.rho_kg_m3[i] ?? 0).toFixed(0),
    signed((curves.enthalpy_J_kg[i] ?? 0) / 1000, 1),
    (100 * (curves.ice_share[i] ?? 0)).toFixed(0),
    (100 * (curves.solid_fat_share[i] ?? 0)).toFixed(0),
    ...(cooling === undefined ? [] : [(100 * (cooling[i] ?? 0)).toFixed(0)]),
  ])
  return [
    ...textTable([[...head, ...(cooling === undefined ? [] : ['on the way down %'])], ...rows], 'numbers'),
    'c with the heat of freezing and melting; ice of the water, solid of the fat, rested and on the way down from the melt',
  ]
}

function measuredLines(measured: readonly Comparison[]): string[] {
  return measured.flatMap(({ property, unit, at_C, measured: value, computed, error, source, certainty, miss }) => {
    const at = at_C === undefined ? '' : ` at ${metric.temperature(at_C)}`
    const off = `${error < 0 ? '−' : '+'}${Math.abs(100 * error).toFixed(1)} %`
    const line = `${property}${at}: ${signed(value, 3).replace(/0+$/, '').replace(/\.$/, '')} measured, ${metric.number(computed)} computed ${unit.replace('degC', '°C')} (${off}; ${source}, ${certainty})`
    if (Math.abs(error) <= MISS_TO_EXPLAIN) return [line]
    return [line, `  more than ${100 * MISS_TO_EXPLAIN} % off: ${miss ?? 'no reason known'}`]
  })
}
