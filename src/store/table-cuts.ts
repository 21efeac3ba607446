/**
 * Rows that are made into a stretch of CSV and pages of Parquet at a time: some 9 MB of rows, small to hold. Tables are cut
 * here, so that their bytes do not depend on how the rows were batched. Four whole parts of a large study; and the plain
 * arrays that the Parquet writer makes of a column stay just below 128 KiB, from where on V8 maps and unmaps memory for
 * each: with 32,000 rows, pages take a quarter longer to make.
 */
export const CHUNK_ROWS = 16_000;

/** Chunks of a Parquet row group: 128,000 rows, of which readers on several threads take one each. */
export const CHUNKS_A_GROUP = 8;
