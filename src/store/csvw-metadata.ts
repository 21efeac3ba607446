import type { Study } from '../model/study.ts';
import type { TableColumn } from '../model/table-columns.ts';
import type { Unit } from '../model/units.ts';
import { RESULT_FILES, type ResultFile } from './result-files.ts';

const DATATYPES = Object.freeze({
  integer: 'integer',
  // XML Schema's double, whose lexical space has INF and -INF.
  number: 'double',
  text: 'string',
  boolean: { base: 'boolean', format: 'true|false' },
} satisfies Record<TableColumn['kind'], unknown>);

/** Any table of ours: its file beside this one, what its rows are, its columns. */
export interface DescribedTable {
  readonly url: string;
  readonly title: string;
  readonly description: string;
  readonly columns: readonly DescribedColumn[];
  readonly primaryKey: string | readonly string[];
}

export type DescribedColumn = Pick<TableColumn, 'name' | 'label' | 'kind' | 'meaning' | 'nullable'> & {
  readonly unit: Pick<Unit, 'symbol'>;
};

/**
 * Metadata of a table in the place where readers look for it, `<table>-metadata.json`: Metadata
 * Vocabulary for Tabular Data, W3C Recommendation, 17 December 2015
 * (https://www.w3.org/TR/2015/REC-tabular-metadata-20151217/). It has no term for units; they stand in
 * schema.org's `unitText`, a prefix of the vocabulary's own context, as `rdfs` and `dc` are.
 */
export function tableMetadata({ url, title, description, columns, primaryKey }: DescribedTable): string {
  const metadata = {
    '@context': ['http://www.w3.org/ns/csvw', { '@language': 'en' }],
    url,
    'dc:title': title,
    'dc:description': description,
    dialect: {
      encoding: 'utf-8',
      header: true,
      delimiter: ',',
      quoteChar: '"',
      doubleQuote: true,
      lineTerminators: ['\n'],
    },
    null: '',
    tableSchema: {
      columns: columns.map(({ name, label, kind, unit, meaning, nullable }) => ({
        name,
        titles: name,
        datatype: DATATYPES[kind],
        required: !nullable,
        'rdfs:label': label,
        'dc:description': meaning,
        ...(unit.symbol === '' ? {} : { 'schema:unitText': unit.symbol }),
      })),
      primaryKey,
    },
  };
  return `${JSON.stringify(metadata, null, 2)}\n`;
}

const CELLS =
  'An empty cell is not applicable or not known. What a spreadsheet would run, in a text, has an apostrophe before it.';

/** Metadata of `designs.csv`. */
export function csvwMetadata(study: Pick<Study, 'title'>, columns: readonly TableColumn[]): string {
  return tableMetadata({
    url: RESULT_FILES.csv,
    title: study.title,
    description: `One row a design. ${CELLS}`,
    columns,
    primaryKey: 'design',
  });
}

/** Metadata of a table of a front. */
export function frontMetadata(
  { title, objectives }: Pick<Study, 'title' | 'objectives'>,
  columns: readonly TableColumn[],
  url: ResultFile,
): string {
  const sought = objectives.map(({ sense, text }) => `${sense} ${text}`).join(', ');
  return tableMetadata({
    url,
    title,
    description: `The feasible designs that no other feasible design beats (${sought}), best in the first objective first. ${CELLS}`,
    columns,
    primaryKey: 'design',
  });
}
