import { type ReactNode, useMemo } from 'react'

import { curvesAt, type MaterialCard, tableTemperatures } from '../../core/materials/card.ts'
import { temperatureNumber } from '../format.ts'
import type { Units } from '../units.ts'

interface MaterialTableProps {
  readonly card: MaterialCard
  readonly units: Units
}

/** The same numbers as a table. */
export function MaterialTable({ card: { material }, units }: MaterialTableProps): ReactNode {
  const curves = useMemo(() => curvesAt(material, tableTemperatures(material)), [material])
  const cooling = curves.solid_fat_cooling_share
  const columns: readonly (readonly [string, readonly number[], number, number])[] = [
    ['k, W/(m K)', curves.k_W_mK, 1, 3],
    ['c, kJ/(kg K)', curves.c_J_kgK, 1e-3, 2],
    ['kg/m³', curves.rho_kg_m3, 1, 0],
    ['heat, kJ/kg', curves.enthalpy_J_kg, 1e-3, 1],
    ['ice, %', curves.ice_share, 100, 0],
    ['solid fat, %', curves.solid_fat_share, 100, 0],
    ...(cooling === undefined ? [] : [['cooling, %', cooling, 100, 0] as const]),
  ]
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="card-table" tabIndex={0} aria-label="Properties as a table">
      <table>
        <thead>
          <tr>
            <th scope="col" className="number">
              °{units.temperature}
            </th>
            {columns.map(([name]) => (
              <th scope="col" key={name} className="number">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {curves.T_C.map((T_C, i) => (
            <tr key={T_C}>
              <th scope="row" className="number">
                {temperatureNumber(T_C, units)}
              </th>
              {columns.map(([name, values, factor, digits]) => (
                <td key={name} className="number">
                  {((values[i] ?? 0) * factor).toFixed(digits).replace('-', '−')}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
