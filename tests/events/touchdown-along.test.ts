/** What the positions say of place and speed at a candidate touchdown; rule TD6 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { weighAlong } from '../../src/events/touchdown-along.ts';
import { ALONG } from '../../src/events/tuning.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { expectNear } from '../expect-near.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { eventsOf, onlyOne } from './simulated.ts';

/** Step of the numerical integrals below, seconds. */
const STEP_S = 0.002;

/** Displacement at times by an acceleration: integrated twice from rest at `fromS`, forwards or backwards. */
function displaced(
  accelerationAt: (t: number) => number,
  fromS: number,
  toS: number,
): { moved: number; speed: number } {
  const steps = Math.max(1, Math.round(Math.abs(toS - fromS) / STEP_S));
  const step = (toS - fromS) / steps;
  let moved = 0;
  let speed = 0;
  for (let k = 0; k < steps; k++) {
    const acceleration = accelerationAt(fromS + (k + 0.5) * step);
    moved += speed * step + (acceleration * step * step) / 2;
    speed += acceleration * step;
  }
  return { moved, speed };
}

/** Solves a symmetric system by elimination; returns the inverse. */
function inverse(matrix: readonly (readonly number[])[]): number[][] {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let i = 0; i < n; i++) {
    let pivot = i;
    for (let r = i + 1; r < n; r++) if (Math.abs(rows[r][i]) > Math.abs(rows[pivot][i])) pivot = r;
    [rows[i], rows[pivot]] = [rows[pivot], rows[i]];
    const by = rows[i][i];
    rows[i] = rows[i].map((each) => each / by);
    for (let r = 0; r < n; r++) {
      if (r === i) continue;
      const times = rows[r][i];
      rows[r] = rows[r].map((each, j) => each - times * rows[i][j]);
    }
  }
  return rows.map((row) => row.slice(n));
}

describe('[TD6] place and speed at a candidate touchdown', () => {
  const random = createRandom(7);
  const timeS = Float64Array.from({ length: 22 }, (_, i) => i);
  const touchdownS = 12.4;
  const noiseSdM = new Float64Array(22).fill(0.4);
  // A landing whose deceleration comes and goes, so that no straight model is right.
  const pull = (t: number): number =>
    (t < 9 ? 0 : t < 15 ? -0.8 : -1.7) + 0.5 * Math.sin(t * 0.9 + 1);
  const alongM = timeS.map(
    (t) => -250 + 25 * t + displaced(pull, 0, t).moved + 0.4 * random.normal(),
  );
  const [float, brake] = [4, 3];
  const found = weighAlong(timeS, alongM, noiseSdM, Float64Array.of(touchdownS));
  if (!found) throw new Error('the positions have evidence');
  const slot = float * found.brakeCount + brake;

  test('[TD6] are those of a normal distribution of terms and wander conditioned on the fixes', () => {
    const growing = (t: number, startS: number, rampS: number): number =>
      Math.min(1, Math.max(0, (t - startS) / rampS));
    const floating = (t: number): number =>
      t < touchdownS ? growing(t, touchdownS - ALONG.floatStartsS[float], ALONG.floatRampS) : 0;
    const terms: ((t: number) => number)[] = [
      (t) => (t < touchdownS ? 1 : 0) - floating(t),
      floating,
      (t) => (t < touchdownS ? 0 : 1),
      (t) => growing(t, touchdownS + ALONG.brakeDelaysS[brake], ALONG.brakeRampS),
    ];
    const knots = Array.from({ length: 23 }, (_, k) => k * ALONG.wanderKnotS);
    const hats = knots.map(
      (knotS) =>
        (t: number): number =>
          Math.max(0, 1 - Math.abs(t - knotS) / ALONG.wanderKnotS),
    );
    const at = (t: number): number[] => [
      1,
      t - touchdownS,
      ...terms.map((term) => displaced(term, touchdownS, t).moved),
      ...hats.map((hat) => displaced(hat, 0, t).moved),
    ];
    const ahead = ALONG.priorMean.concat(knots.map(() => 0));
    const covariance = ahead.map((_, i) =>
      ahead.map((__, j) => {
        if (i < 6 || j < 6) return i === j ? Math.min(1e4, ALONG.priorSd[i]) ** 2 : 0;
        const gapS = Math.abs(knots[i - 6] - knots[j - 6]);
        return ALONG.wanderSdMps2 ** 2 * Math.exp(-gapS / ALONG.wanderTimeS);
      }),
    );
    const errors = Array.from(timeS, (t, i) =>
      Array.from(timeS, (u, j) => {
        const drift = ALONG.driftSdM ** 2 * Math.exp(-Math.abs(t - u) / ALONG.driftTimeS);
        return drift + (i === j ? noiseSdM[i] ** 2 : 0);
      }),
    );
    const rows = Array.from(timeS, at);
    const weights = inverse(errors);
    const precision = inverse(covariance).map((row, a) =>
      row.map((each, b) => {
        let sum = each;
        rows.forEach((left, i) =>
          rows.forEach((right, j) => (sum += left[a] * weights[i][j] * right[b])),
        );
        return sum;
      }),
    );
    const spread = inverse(precision);
    const gap = rows.map(
      (row, i) => alongM[i] - row.reduce((s, each, a) => s + each * ahead[a], 0),
    );
    const pulled = ahead.map((_, a) => {
      let sum = 0;
      rows.forEach((row, i) => gap.forEach((each, j) => (sum += row[a] * weights[i][j] * each)));
      return sum;
    });
    const mean = ahead.map((each, a) => each + spread[a].reduce((s, w, b) => s + w * pulled[b], 0));
    const read = (direction: readonly number[]): { value: number; variance: number } => ({
      value: direction.reduce((s, each, a) => s + each * mean[a], 0),
      variance: direction.reduce(
        (s, each, a) => s + each * spread[a].reduce((t, w, b) => t + w * direction[b], 0),
        0,
      ),
    });
    const place = read(at(touchdownS));
    const none = ahead.map(() => 0);
    const speeds = read(
      none.map((_, a) => (a === 1 ? 1 : a < 6 ? 0 : displaced(hats[a - 6], 0, touchdownS).speed)),
    );
    expectNear(found.positionM[slot], place.value, 0.01);
    expectNear(found.positionVar[slot], place.variance, 0.01);
    expectNear(found.speedMps[slot], speeds.value, 0.01);
    expectNear(found.speedVar[slot], speeds.variance, 0.002);
  });

  test('[TD6] are where the aircraft was and how fast, within white noise and drift, in every model of any weight', () => {
    const { moved, speed } = displaced(pull, 0, touchdownS);
    const best = Math.max(...found.logEvidence);
    const likely = Array.from(found.logEvidence.keys()).filter(
      (each) => found.logEvidence[each] > best - 6,
    );
    expect(likely.length).toBeGreaterThan(10);
    for (const each of likely) {
      expectNear(found.positionM[each], -250 + 25 * touchdownS + moved, 0.8);
      expectNear(found.speedMps[each], 25 + speed, 1);
      expectNear(Math.sqrt(found.positionVar[each]), ALONG.driftSdM, 0.15);
    }
  });

  test('[TD6] in a simulated landing lie on the path flown, at every candidate that weighs', () => {
    for (const seed of [500, 501, 502]) {
      const scenario = flyDrawnApproach(seed, 'full-stop');
      const { posterior } = onlyOne(eventsOf(scenario, { seed }).approaches);
      const { touchdown } = scenario.flown.truth.approaches[0];
      if (!posterior || !touchdown) throw new Error('the landing has a touchdown');
      const nearest = posterior.timeS.findIndex((t) => t >= touchdown.timeS);
      expect(nearest).toBeGreaterThan(0);
      const share =
        (touchdown.timeS - posterior.timeS[nearest - 1]) /
        (posterior.timeS[nearest] - posterior.timeS[nearest - 1]);
      const between = (column: Float64Array): number =>
        column[nearest - 1] + share * (column[nearest] - column[nearest - 1]);
      // Drift of 2 m (one sd), white noise, and the way in one step; the model's own position would be unsure by ten.
      const stepS = posterior.timeS[1] - posterior.timeS[0];
      posterior.weight.forEach((weight, c) => {
        if (weight < 0.01) return;
        const stepM = (posterior.speedMps[c] * stepS) / Math.sqrt(12);
        expect(posterior.alongSdM[c]).toBeLessThan(Math.hypot(ALONG.driftSdM + 0.2, stepM));
        expect(posterior.alongSdM[c]).toBeGreaterThan(Math.hypot(ALONG.driftSdM - 0.2, stepM));
      });
      expectNear(between(posterior.alongM), touchdown.alongM, 6);
      expectNear(between(posterior.speedMps), touchdown.groundSpeedMps, 1.2);
    }
  });
});
