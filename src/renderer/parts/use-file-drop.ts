import { useEffect, useState } from 'react'

/** Takes files dropped anywhere on the page; true while one is held over it. */
export function useFileDrop(take: (file: File) => void): boolean {
  const [held, setHeld] = useState(false)
  useEffect(() => {
    const over = (event: DragEvent): void => {
      if (!event.dataTransfer?.types.includes('Files')) return
      event.preventDefault()
      setHeld(true)
    }
    const leave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setHeld(false)
    }
    const drop = (event: DragEvent): void => {
      event.preventDefault()
      setHeld(false)
      const [file] = event.dataTransfer?.files ?? []
      if (file !== undefined) take(file)
    }
    addEventListener('dragover', over)
    addEventListener('dragleave', leave)
    addEventListener('drop', drop)
    return () => {
      removeEventListener('dragover', over)
      removeEventListener('dragleave', leave)
      removeEventListener('drop', drop)
    }
  }, [take])
  return held
}
