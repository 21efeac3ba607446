/** Why there is no report, in words; `isOurs` where this program is to blame. */
export interface ReportFault {
  readonly words: string;
  readonly isOurs: boolean;
}

/** A line for stderr. */
export function describeReportFault({ words, isOurs }: ReportFault): string {
  const plea = isOurs ? ', please report it' : '';
  return `no report: ${words}${plea}; the tables are finished, and the same command makes the report again`;
}
