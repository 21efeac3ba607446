import { describe, expect, it } from 'vitest';
import { composeReport } from '../../src/session/compose-report.ts';
import { createSurvey } from '../../src/survey/survey.ts';
import { type Row, workshopStudy } from '../support/batches.ts';
import { frontOf } from '../support/front.ts';

describe('the answer of a report', () => {
  it('closes with how far the search is to be trusted, as the terminal does', () => {
    const study = workshopStudy();
    const rows: Row[] = [{ values: [0, 400, 0.001], objectives: [0.01, 2] }];
    const survey = createSurvey(study, () => ({
      add: () => {},
      front: () => ({ ids: new Float64Array(0), columns: [] }),
    }));
    const provenance = {} as Parameters<typeof composeReport>[0]['provenance'];
    const search = ['Evolution: settled.', 'The best compromise: no limit binds.'];
    const run = { study, front: frontOf(study, rows), survey, whyEmpty: '', provenance };
    expect(composeReport({ ...run, search }).answer.slice(-2)).toEqual(search);
    expect(composeReport(run).answer).toHaveLength(1);
  });
});
