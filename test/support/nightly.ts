/** Whether the long forms of tests run: `npm run test:nightly` sets EDDYLIFT_NIGHTLY=1, `npm test` runs the short ones. */
export const nightly = process.env.EDDYLIFT_NIGHTLY === '1';
