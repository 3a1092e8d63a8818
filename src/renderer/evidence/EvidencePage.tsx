import { type ReactNode, useEffect, useId, useRef, useState } from 'react'

import type { Evidence } from '../../core/verification/evidence.ts'
import { Icon } from '../icons.tsx'
import { EvidenceBody } from './EvidenceBody.tsx'
import { useEvidence } from './evidence-store.ts'
import './evidence.css'

/** How far to trust this, within the program. */
export function EvidencePage(): ReactNode {
  const open = useEvidence((state) => state.open)
  return open ? <EvidenceDialog /> : null
}

/** What the build has of it; read only when somebody looks. */
async function readEvidence(): Promise<Evidence> {
  const { default: kept } = await import('../../../shared/evidence/evidence.json')
  return kept as unknown as Evidence
}

function EvidenceDialog(): ReactNode {
  const id = useId()
  const close = useEvidence((state) => state.close)
  const dialog = useRef<HTMLDialogElement>(null)
  const [evidence, setEvidence] = useState<Evidence | 'missing'>()
  useEffect(() => {
    dialog.current?.showModal()
    let here = true
    readEvidence().then(
      (read) => here && setEvidence(read),
      () => here && setEvidence('missing'),
    )
    return () => {
      here = false
    }
  }, [])
  return (
    <dialog ref={dialog} className="help evidence" aria-labelledby={`${id}-title`} onClose={close}>
      <div className="help-head">
        <h2 id={`${id}-title`}>How far to trust this</h2>
        <button type="button" className="icon-button" aria-label="Close" onClick={() => dialog.current?.close()}>
          <Icon name="close" />
        </button>
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
      <section className="help-body" tabIndex={0} aria-label="The evidence, to be scrolled">
        {evidence === undefined ? <p>Reading …</p> : null}
        {evidence === 'missing' ? (
          <p>This build holds no evidence. “npm run evidence” computes it anew and writes it as a page.</p>
        ) : null}
        {typeof evidence === 'object' ? <EvidenceBody evidence={evidence} /> : null}
      </section>
    </dialog>
  )
}
