export type Three = readonly [number, number, number];
/** A symmetric matrix of three by three: its rows from the diagonal on. */
export type Symmetric = readonly [number, number, number, number, number, number];

/** Inverse of a symmetric, positive definite matrix, by cofactors. */
export function inverted([a, b, c, d, e, f]: Symmetric): Symmetric {
  const [first, second, third] = [d * f - e * e, c * e - b * f, b * e - c * d];
  const determinant = a * first + b * second + c * third;
  return [
    first / determinant,
    second / determinant,
    third / determinant,
    (a * f - c * c) / determinant,
    (b * c - a * e) / determinant,
    (a * d - b * b) / determinant,
  ];
}

/** The matrix times a column. */
export const timesColumn = ([a, b, c, d, e, f]: Symmetric, [x, y, z]: Three): Three => [
  a * x + b * y + c * z,
  b * x + d * y + e * z,
  c * x + e * y + f * z,
];

/** The column as a row, times the matrix, times the column. */
export function squareOf(matrix: Symmetric, column: Three): number {
  const [x, y, z] = timesColumn(matrix, column);
  return x * column[0] + y * column[1] + z * column[2];
}
