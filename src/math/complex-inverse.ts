/**
 * Inverse of a complex matrix in place, row-major, by Gauss and Jordan with the largest pivot of each column.
 * Source: any textbook, such as W. H. Press et al., Numerical Recipes, 3rd ed. (2007), 2.1.
 * @param rows working room, `size` long: the rows' order
 */
export function invertComplex(size: number, re: Float64Array, im: Float64Array, rows: Int32Array): void {
  for (let c = 0; c < size; c++) {
    let best = c;
    let most = -1;
    for (let r = c; r < size; r++) {
      const square = re[r * size + c]! ** 2 + im[r * size + c]! ** 2;
      if (square > most) {
        most = square;
        best = r;
      }
    }
    rows[c] = best;
    if (best !== c) swapRows(size, re, im, best, c);
    const pr = re[c * size + c]! / most;
    const pi = -im[c * size + c]! / most;
    re[c * size + c] = 1;
    im[c * size + c] = 0;
    for (let k = 0; k < size; k++) {
      const a = re[c * size + k]!;
      const b = im[c * size + k]!;
      re[c * size + k] = a * pr - b * pi;
      im[c * size + k] = a * pi + b * pr;
    }
    for (let r = 0; r < size; r++) {
      if (r === c) continue;
      const fr = re[r * size + c]!;
      const fi = im[r * size + c]!;
      re[r * size + c] = 0;
      im[r * size + c] = 0;
      for (let k = 0; k < size; k++) {
        const a = re[c * size + k]!;
        const b = im[c * size + k]!;
        re[r * size + k]! -= a * fr - b * fi;
        im[r * size + k]! -= a * fi + b * fr;
      }
    }
  }
  // rows that changed places are columns of the inverse
  for (let c = size - 1; c >= 0; c--) {
    const other = rows[c]!;
    if (other === c) continue;
    for (let r = 0; r < size; r++) {
      const a = r * size + c;
      const b = r * size + other;
      [re[a], re[b]] = [re[b]!, re[a]!];
      [im[a], im[b]] = [im[b]!, im[a]!];
    }
  }
}

function swapRows(size: number, re: Float64Array, im: Float64Array, a: number, b: number): void {
  for (let k = 0; k < size; k++) {
    const i = a * size + k;
    const j = b * size + k;
    [re[i], re[j]] = [re[j]!, re[i]!];
    [im[i], im[j]] = [im[j]!, im[i]!];
  }
}
