/** A case or output that the core cannot express; the reason goes into the report, never into a verdict. */
export class NotApplicable extends Error {
  constructor(reason: string) {
    super(reason)
    this.name = 'NotApplicable'
  }
}
