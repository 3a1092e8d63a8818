/** Exit codes: done, something outside its tolerance, plan or words wrong, computation not finished. */
export const DONE = 0
export const OUTSIDE = 1
export const WRONG = 2
export const UNFINISHED = 3
