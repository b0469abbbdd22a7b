import fc from 'fast-check';

/** Tests by chance take the same chances each time, so that what is red is red for everybody; FUZZ_SEED=7 npm test looks elsewhere. */
fc.configureGlobal({ seed: Number(process.env.FUZZ_SEED ?? 20_261_125) });
