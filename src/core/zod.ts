import { z } from 'zod'

// No code made from strings, as the window's content policy forbids it. Decided here once, before any schema is made:
// core takes zod from this file only.
z.config({ jitless: true })

export { z }
