import type { ReactNode } from 'react'

import { addProbe, MOST_PROBES, removeProbe } from '../edits/probes.ts'
import { Icon } from '../icons.tsx'
import { IconButton } from '../parts/IconButton.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { shareRange } from '../parts/ranges.ts'
import { TextField } from '../parts/TextField.tsx'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { probeSign } from '../section/PlaceSigns.tsx'
import { share } from '../units.ts'

/** Places that are followed: named, and typed as shares of the piece across and upward. */
export function ProbeList(): ReactNode {
  const { probes = [] } = useOpenPlan()
  const edit = usePlan((state) => state.edit)
  return (
    <section className="probe-list" aria-labelledby="probes-heading">
      <div className="heading-row">
        <h3 id="probes-heading">Probes</h3>
        <button
          type="button"
          className="link"
          onClick={() => edit('new probe', (plan) => addProbe(plan))}
          disabled={probes.length >= MOST_PROBES}
        >
          <Icon name="plus" />
          Probe
        </button>
      </div>
      {probes.length === 0 ? (
        <p className="second">
          The core is found by itself. For a place where you will measure press the section there, or add a probe here.
        </p>
      ) : (
        <ol>
          {probes.map((_, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a probe is known by its place in the list
            <ProbeRow key={i} index={i} />
          ))}
        </ol>
      )}
    </section>
  )
}

function ProbeRow({ index }: { readonly index: number }): ReactNode {
  const edit = usePlan((state) => state.edit)
  const path = `probes[${index}]`
  const number = index + 1
  return (
    <li className="probe-row">
      <svg width="20" height="20" viewBox="-10 -10 20 20" aria-hidden="true" focusable="false">
        <path className="probe-sign" d={probeSign(index)} />
      </svg>
      <TextField path={`${path}.name`} label={`Name of probe ${number}`} change="probe name" look="bare" />
      <span className="probe-place">
        across
        <QuantityField
          look="inline"
          path={`${path}.x`}
          label={`Probe ${number} across, 0 left to 1 right`}
          quantity={share}
          range={shareRange}
          change="probe place"
          placeholder="0.5"
          optional
        />
      </span>
      <span className="probe-place">
        up
        <QuantityField
          look="inline"
          path={`${path}.y`}
          label={`Probe ${number} upward, 0 bottom to 1 top`}
          quantity={share}
          range={shareRange}
          change="probe place"
          placeholder="0.5"
          optional
        />
      </span>
      <IconButton
        icon="bin"
        label={`Take probe ${number} away`}
        onPress={() => edit('probe taken away', (plan) => removeProbe(plan, index))}
      />
    </li>
  )
}
