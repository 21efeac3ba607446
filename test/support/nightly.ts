/** Whether the long forms of tests run: `npm run test:nightly` sets EDDYLIFT_NIGHTLY=1, `npm test` runs the short ones. */
export const nightly = process.env.EDDYLIFT_NIGHTLY === '1';

/** Whether system tests run whole: `.ci/run` sets EDDYLIFT_WHOLE=1; what runs every night runs whole, too. */
export const whole = nightly || process.env.EDDYLIFT_WHOLE === '1';
