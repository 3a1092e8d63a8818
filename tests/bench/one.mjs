import process from 'node:process'
import { pathToFileURL } from 'node:url'

// Runs one built bench and hands its tables to run.mjs, with the most memory that this process ever had.
const { tables = [] } = await import(pathToFileURL(process.argv[2] ?? '').href)
process.send?.({ tables, peak_MB: process.resourceUsage().maxRSS / 1024 }, () => process.exit(0))
