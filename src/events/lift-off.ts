/**
 * When and where did the wheels leave the ground?
 *
 * In: heights over the strip through the run and the first seconds of flight, and candidate times.
 * Out: a weight for every candidate. The speed is left out on purpose: after lift-off the
 * acceleration falls over many seconds, and a model that says otherwise pushes the answer late.
 *
 * Source: Bayesian change-point analysis; the errors of the heights in
 * height-filter.ts; numbers in tuning.ts.
 */
import { SmallSolver } from '../numeric/linear-evidence.ts';
import { logAdd } from '../numeric/posterior.ts';
import { GRAVITY_MPS2 } from '../units/convert.ts';
import { HeightFilter, type HeightErrors } from './height-filter.ts';
import { stackRows, type HeightRows, type HeightStack } from './height-stack.ts';
import { HEIGHT, TAKE_OFF } from './tuning.ts';

/** One column of the model: its prior and its value at a row. */
interface Term {
  readonly mean: number;
  readonly sd: number;
  readonly at: (row: number) => number;
}

/**
 * Log weight of every candidate lift-off time.
 *
 * @param satellite rows of satellite heights, or null; @param pressure rows of pressure heights, or
 * null. With neither, every candidate weighs the same.
 */
export function weighLiftOff(
  satellite: HeightRows | null,
  pressure: HeightRows | null,
  candidateS: Float64Array,
): Float64Array {
  const lags = pressure ? HEIGHT.pressureLagsS : [0];
  const rates = satellite ? HEIGHT.driftRates : [HEIGHT.pressureDriftRate];
  const weigh = (
    at: Float64Array,
    of: readonly number[],
    under: readonly number[],
  ): Float64Array => {
    const total = new Float64Array(at.length).fill(-Infinity);
    for (const lagS of of) {
      const stack = stackRows(satellite, pressure, lagS, 'earliest first');
      at.forEach((liftOffS, c) => {
        for (const rate of under) total[c] = logAdd(total[c], evidence(stack, liftOffS, rate));
      });
    }
    return total;
  };
  // A rough look with the middle lag and drift; the close one only where it weighs anything.
  const rough = weigh(candidateS, [middle(lags)], [middle(rates)]);
  const least = Math.max(...rough) + Math.log(TAKE_OFF.negligibleShare);
  const close = weigh(
    candidateS.filter((_, c) => rough[c] > least),
    lags,
    rates,
  );
  let next = 0;
  return rough.map((value) => (value > least ? close[next++] : -Infinity));
}

function middle(values: readonly number[]): number {
  return values[values.length >> 1];
}

/** Evidence of one candidate under one lag and one drift, all ramps together. */
function evidence(stack: HeightStack, liftOffS: number, rate: number): number {
  const { n, kind } = stack;
  const u = stack.timeS.map((t) => t - liftOffS);
  const shared = sharedTerms(stack, u);
  const columns = [
    ...shared.map(({ at }) => at),
    (i: number) => stack.heightM[i],
    ...TAKE_OFF.rampsS.map((rampS) => (i: number) => climbTerm(u[i], rampS)),
  ];
  const count = columns.length;
  const values = new Float64Array(n * count);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < count; k++) values[i * count + k] = columns[k](i);
  }
  const filter = new HeightFilter(u, kind, stack.noiseVar, errors(rate));
  filter.whiten(values, count);
  const dot = (a: number, b: number): number => {
    let sum = 0;
    for (let at = 0; at < values.length; at += count) sum += values[at + a] * values[at + b];
    return sum;
  };
  const terms = shared.length + 1;
  const side = terms + 1;
  const solver = new SmallSolver(
    terms,
    [...shared.map(({ mean }) => mean), TAKE_OFF.climbMps],
    [...shared.map(({ sd }) => sd), TAKE_OFF.climbSdMps],
    filter.halfLogDet,
  );
  const gram = new Float64Array(side * side);
  let total = -Infinity;
  for (let ramp = 0; ramp < TAKE_OFF.rampsS.length; ramp++) {
    const order = [...shared.keys(), shared.length + 1 + ramp, shared.length];
    for (let a = 0; a < side; a++) {
      for (let b = 0; b <= a; b++) gram[a * side + b] = dot(order[a], order[b]);
    }
    solver.solve(gram);
    total = logAdd(total, solver.logEvidence);
  }
  return total;
}

/** Levels of both kinds, the antenna's rise, and the static error of a pressure height. */
function sharedTerms(
  { kind, speedMps, hasSatellite, hasPressure }: HeightStack,
  u: Float64Array,
): Term[] {
  const terms: Term[] = [{ mean: TAKE_OFF.riseM, sd: TAKE_OFF.riseSdM, at: (i) => riseTerm(u[i]) }];
  if (hasSatellite) terms.push({ mean: 0, sd: Infinity, at: (i) => 1 - kind[i] });
  if (!hasPressure) return terms;
  const [level, dynamic, wind] = HEIGHT.pressurePriorSd;
  return [
    ...terms,
    { mean: 0, sd: level, at: (i) => kind[i] },
    { mean: 0, sd: dynamic, at: (i) => (-kind[i] * speedMps[i] ** 2) / (2 * GRAVITY_MPS2) },
    { mean: 0, sd: wind, at: (i) => (-kind[i] * speedMps[i]) / GRAVITY_MPS2 },
  ];
}

function errors(rate: number): HeightErrors {
  return {
    driftVar: [rate, HEIGHT.pressureDriftRate].map((each) => (each * HEIGHT.driftTimeS) / 2),
    driftTimeS: HEIGHT.driftTimeS,
    wanderSdMps: TAKE_OFF.wanderSdMps,
    wanderTimeS: TAKE_OFF.wanderTimeS,
    wanderShare: () => 1,
  };
}

/** Antenna rising before lift-off by a unit; all of it from lift-off on. */
function riseTerm(u: number): number {
  return u >= 0 ? 1 : Math.exp(u / TAKE_OFF.riseS);
}

/** Height by a unit climb that builds up over `rampS`. */
function climbTerm(u: number, rampS: number): number {
  if (u <= 0) return 0;
  return u < rampS ? (u * u) / (2 * rampS) : u - rampS / 2;
}
