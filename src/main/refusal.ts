/** A request that is turned down, with words meant for the person; every other error reaches the page as "failed" only. */
export class Refusal extends Error {
  constructor(message: string) {
    super(message)
    this.name = 'Refusal'
  }
}
