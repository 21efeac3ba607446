/**
 * Working arrays that live from disc to disc and only grow: a collection of them costs more than filling them. One set a
 * user (an evaluator), since what they hold is good until the next disc.
 */
export class DiscWorkspace {
  private readonly arrays = new Map<string, Float64Array>();

  /** At least so long. Whoever takes it writes every value before reading it. */
  array(name: string, size: number): Float64Array {
    let array = this.arrays.get(name);
    if (!array || array.length < size) {
      array = new Float64Array(size);
      this.arrays.set(name, array);
    }
    return array;
  }
}
