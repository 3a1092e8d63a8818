/* What is used of odex; its own sources, which it carries along, don't pass the rules of this project's compiler. */
export class Solver {
  constructor(unknowns: number)
  maxSteps: number
  absoluteTolerance: number | number[]
  relativeTolerance: number | number[]
  solve(
    derivative: (t: number, y: number[]) => number[],
    from: number,
    y: number[],
    to: number,
    /** Called at the start, and after every step that was taken. */
    step?: (count: number, from: number, to: number, y: number[]) => void,
  ): { y: number[]; nEval: number; nStep: number; nReject: number }
}
