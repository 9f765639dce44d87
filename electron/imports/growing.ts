/** A list of numbers in one piece of memory that doubles when it is full. */
export class GrowingNumbers {
  #numbers = new Float64Array(1024)
  length = 0

  push(value: number): void {
    if (this.length === this.#numbers.length) {
      const larger = new Float64Array(this.length * 2)
      larger.set(this.#numbers)
      this.#numbers = larger
    }
    this.#numbers[this.length++] = value
  }

  /** The numbers so far; a view, not a copy. */
  get values(): Float64Array {
    return this.#numbers.subarray(0, this.length)
  }
}
