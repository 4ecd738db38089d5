/** What the wheels drew on a strip, cut from whole flights; rules in docs/spec/measuring.md. */
import { expect, test } from 'vitest';
import { groundTraces } from '../../src/events/learn-traces.ts';
import { detectEvents } from '../../src/events/detect-events.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import { computeMotion } from '../../src/track/motion.ts';
import { frameFromA } from '../strips/simulated-visits.ts';
import { FOUR_SEATER } from '../synthetic/aeroplane-model.ts';
import { flyApproach } from '../synthetic/approach-model.ts';
import { finishFlight } from '../synthetic/flight.ts';
import { drawApproach } from '../synthetic/population.ts';
import { PLAIN_ROLL, rollOut, standStill } from '../synthetic/roll-model.ts';
import { beginOnLong, flyAt } from '../synthetic/scenarios.ts';
import { taxi } from '../synthetic/taxi-model.ts';
import { onlyOne, record } from './simulated.ts';

/** Lands, rolls on at a steady speed for 250 m along the strip and stops: where the taxi began, and the last place of the landing's trace. */
function rollOn(seed: number, speedMps: number): { beganM: number; traceToM: number } {
  const { strip, runway, flight } = beginOnLong(seed, FOUR_SEATER, 900);
  const plan = drawApproach(createRandom(seed), FOUR_SEATER);
  flyAt(flight, runway, plan);
  const approach = flyApproach(flight, runway, plan);
  rollOut(flight, runway, approach, { ...PLAIN_ROLL, end: 'taxi', endMps: speedMps });
  const beganM = approach.rollEnd?.alongM ?? NaN;
  taxi(flight, runway, [{ alongM: beganM + 250, crossM: 0, speedMps }], runway.bearingRad);
  standStill(flight, runway, 25);
  const track = record({ strip, designator: '07', flown: finishFlight(flight) }, { seed });
  const motion = computeMotion(track);
  const events = detectEvents(motion, { ...EMPTY_STRIP_BOOK, strips: [strip] });
  const landing = onlyOne(
    groundTraces(motion, events, 'one').filter(({ trace }) => trace.kind === 'landing'),
  );
  const frame = frameFromA(strip);
  const { alongM } = frame.toAlongCross(landing.trace.latDeg, landing.trace.lonDeg);
  return { beganM, traceToM: Math.max(...alongM) };
}

// Faster than 10 kt RE1 calls no taxi, so the roll goes on to where the aircraft stood.
test.each([6.5, 9])(
  '[LS1] a roll-out that taxis on at a steady %f m/s is no roll from there on',
  (speedMps) => {
    for (const seed of [3, 4, 5]) {
      const { beganM, traceToM } = rollOn(seed, speedMps);
      expect(traceToM, `seed ${seed}`).toBeGreaterThan(beganM - 25);
      // Two fixes and the last slowing of the roll.
      expect(traceToM, `seed ${seed}`).toBeLessThan(beganM + 25);
    }
  },
);
