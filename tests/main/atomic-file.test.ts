import { chmod, mkdir, readdir, readFile, stat, symlink, utimes, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readTextFile, replaceFile } from '../../src/main/atomic-file.ts'
import { Refusal } from '../../src/main/refusal.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const folder = temporaryFolder()
const onUnix = process.platform !== 'win32'
const isRoot = process.getuid?.() === 0

describe('replacing a file', () => {
  it('makes the file and its folder', async () => {
    const path = join(folder.path, 'new', 'a.thickset')
    await replaceFile(path, 'text')
    expect(await readFile(path, 'utf8')).toBe('text')
  })

  it('shows a reader the old contents or the new, never a part', async () => {
    const path = join(folder.path, 'a.thickset')
    const version = (n: number): string => String(n % 10).repeat(200_000)
    await replaceFile(path, version(0))
    let writing = true
    const seen: string[] = []
    const reader = (async () => {
      while (writing) seen.push(await readFile(path, 'utf8'))
    })()
    for (let n = 1; n <= 200; n++) await replaceFile(path, version(n))
    writing = false
    await reader
    expect(seen.length).toBeGreaterThan(10)
    const torn = seen.filter((text) => text.length !== 200_000 || text !== text.charAt(0).repeat(200_000))
    expect(torn).toEqual([])
    expect(await readdir(folder.path)).toEqual(['a.thickset'])
  }, 60_000)

  it.runIf(onUnix)('keeps the mode of the file', async () => {
    const path = join(folder.path, 'a.thickset')
    await writeFile(path, 'old')
    await chmod(path, 0o640)
    await replaceFile(path, 'new')
    expect((await stat(path)).mode & 0o777).toBe(0o640)
  })

  it.runIf(onUnix)('writes through a symbolic link instead of replacing it', async () => {
    const real = join(folder.path, 'real.thickset')
    await writeFile(real, 'old')
    await symlink(real, join(folder.path, 'link.thickset'))
    await replaceFile(join(folder.path, 'link.thickset'), 'new')
    expect(await readFile(real, 'utf8')).toBe('new')
  })

  it('clears away what a killed writer left beside it long ago, and nothing else', async () => {
    const names = [
      '.a.thickset.0123456789ab.tmp',
      '.a.thickset.fresh0123456.tmp',
      '.b.thickset.0123456789ab.tmp',
      'a.tmp',
    ]
    for (const name of names) {
      await writeFile(join(folder.path, name), 'half')
      await utimes(join(folder.path, name), 1e9, 1e9)
    }
    await writeFile(join(folder.path, '.a.thickset.ba9876543210.tmp'), 'of one who is writing now')
    await replaceFile(join(folder.path, 'a.thickset'), 'new')
    const left = ['.a.thickset.ba9876543210.tmp', ...names.slice(1), 'a.thickset']
    expect((await readdir(folder.path)).sort()).toEqual(left.sort())
  })

  it('leaves the old file and no litter when it fails', async () => {
    const path = join(folder.path, 'taken')
    await mkdir(join(path, 'inside'), { recursive: true })
    await expect(replaceFile(path, 'text')).rejects.toThrow()
    expect(await readdir(folder.path)).toEqual(['taken'])
    expect(await readdir(path)).toEqual(['inside'])
  })

  it.runIf(onUnix && !isRoot)('leaves the old file when the folder may not be written', async () => {
    const closed = join(folder.path, 'closed')
    await mkdir(closed)
    await writeFile(join(closed, 'a'), 'old')
    await chmod(closed, 0o500)
    await expect(replaceFile(join(closed, 'a'), 'new')).rejects.toThrow()
    expect(await readFile(join(closed, 'a'), 'utf8')).toBe('old')
    await chmod(closed, 0o700)
  })
})

describe('reading a text file', () => {
  const read = (name: string): Promise<unknown> => readTextFile(join(folder.path, name), 1000)

  it('gives text without byte order mark, and the moment of the last change', async () => {
    await writeFile(join(folder.path, 'a'), '\ufeff{"é": 1}')
    const { text, changedAt_ms } = await readTextFile(join(folder.path, 'a'), 1000)
    expect(text).toBe('{"é": 1}')
    expect(Math.abs(changedAt_ms - Date.now())).toBeLessThan(60_000)
  })

  it.each([
    ['too large', 'a', 'x'.repeat(1001), /larger than/],
    ['no text', 'b', Buffer.from([0xff, 0xfe, 0x00, 0xd8]), /not text in UTF-8/],
  ])('refuses what is %s, by its name only', async (_what, name, contents, message) => {
    await writeFile(join(folder.path, name), contents)
    const refusal = await read(name).catch((error: unknown) => error)
    expect(refusal).toBeInstanceOf(Refusal)
    expect((refusal as Refusal).message).toMatch(message)
    expect((refusal as Refusal).message).not.toContain(folder.path)
  })

  it('refuses a folder and a file that is gone', async () => {
    await mkdir(join(folder.path, 'c'))
    await expect(read('c')).rejects.toThrow('"c" is not a file.')
    await expect(read('gone')).rejects.toThrow('"gone" is not there any more.')
  })
})
