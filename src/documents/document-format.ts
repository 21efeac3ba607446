/**
 * Number of the shapes of all documents. Keys may be added to a format; one that goes or changes its meaning makes a new
 * one. It stands apart from the shapes so that a command prints a document without loading what checks one.
 */
export const DOCUMENT_FORMAT = 1;
