import { renderToStaticMarkup } from 'react-dom/server'
import { EvidenceBody } from '../../src/renderer/evidence/EvidenceBody.tsx'
import looks from '../../src/renderer/evidence/evidence.css?raw'
import palette from '../../src/renderer/styles/palette.css?raw'
import type { Collected } from './collect.ts'

const sheet = `
body { margin: 0 auto; max-width: 1180px; padding: 20px; background: var(--paper); color: var(--ink);
  font: 15px/1.4 'Atkinson Hyperlegible Next Variable', system-ui, sans-serif; font-variant-numeric: tabular-nums; }
h1 { font-size: 30px; } h3 { margin: 28px 0 4px; font-size: 19px; } .second { color: var(--ink2); }
`

/** The page by itself: everything within, nothing fetched. The same that the window shows, with every figure. */
export function evidenceHtml({ evidence, rows }: Collected): string {
  const body = renderToStaticMarkup(<EvidenceBody evidence={evidence} rows={rows} />)
  return `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>How far to trust Thickset ${evidence.program}</title>
<style>${palette}${sheet}${looks}</style></head>
<body class="evidence"><h1>How far to trust Thickset</h1>${body}</body>
</html>
`
}
