/**
 * Every property that names no seed of its own begins from this one, so that two runs of the suite are the
 * same. Set STOVEHAND_TEST_SEED to look elsewhere.
 */
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.STOVEHAND_TEST_SEED ?? 20261125) });
