// Loaded before a peer's server: a timer of exactly one of the delays in CURETTE_BENCH_NO_WAIT (ms, with commas) fires at
// once. That takes away what the server waits on purpose, so that what it computes is measured.
const delays = new Set(process.env.CURETTE_BENCH_NO_WAIT?.split(',').map(Number));
// Its own helper processes keep their timers.
delete process.env.CURETTE_BENCH_NO_WAIT;
delete process.env.NODE_OPTIONS;
const { setTimeout: real } = globalThis;
const { promisify } = require('node:util');
globalThis.setTimeout = Object.assign((work, delay, ...rest) => real(work, delays.has(delay) ? 0 : delay, ...rest), {
  [promisify.custom]: real[promisify.custom],
});
