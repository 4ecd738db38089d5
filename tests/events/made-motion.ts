/** Motion along a made strip at given speeds, to look at one rule without a flight around it. */
import { viewsOf, type StripView } from '../../src/events/strip-view.ts';
import { createRandom } from '../../src/numeric/random.ts';
import { TrackColumns } from '../../src/track/decode-columns.ts';
import { computeMotion, type Motion } from '../../src/track/motion.ts';
import { inventStrip, type StripWish } from '../synthetic/invent-strip.ts';
import { createMap } from '../synthetic/runway.ts';
import { SCENARIO_START_S } from '../synthetic/scenarios.ts';

/** What is made. Seconds from the start, metres along from the landing threshold, m/s. */
export interface MadeRun {
  readonly fromAlongM: number;
  readonly speedMps: (t: number) => number;
  readonly lengthS: number;
  readonly intervalS?: number;
  /** White noise of the positions on each axis; none by default. */
  readonly noiseSdM?: number;
  readonly seed?: number;
  /** Moments of which the log has no fix; none by default. */
  readonly isHole?: (t: number) => boolean;
  /** Before the threshold lies so much of the strip, which runs north for 800 m in all. */
  readonly displacedM?: number;
  readonly positionErrorM?: number;
}

/** The motion, seen in the direction that it ran in, and where it truly was at a time. */
export function makeRun(run: MadeRun): {
  motion: Motion;
  view: StripView;
  startS: number;
  trueAlongM: (t: number) => number;
} {
  const { intervalS = 1, noiseSdM = 0, displacedM = 0 } = run;
  const map = createMap();
  const wish: StripWish = {
    ...{ id: 'made', bearingDeg: 0, lengthM: 800, positionErrorM: run.positionErrorM ?? 5 },
    fromA: { displacedM },
  };
  const strip = inventStrip(map, wish);
  const stepS = 0.01;
  const alongM = [run.fromAlongM];
  for (let k = 0; k * stepS <= run.lengthS; k++) {
    alongM.push(alongM[k] + stepS * run.speedMps((k + 0.5) * stepS));
  }
  const trueAlongM = (t: number): number => alongM[Math.round(t / stepS)];
  const random = createRandom(run.seed ?? 1);
  const columns = new TrackColumns();
  const count = Math.floor(run.lengthS / intervalS);
  for (let k = 0; k <= count; k++) {
    const t = k * intervalS;
    if (run.isHole?.(t)) continue;
    const north = displacedM + trueAlongM(t) + noiseSdM * random.normal();
    const { latDeg, lonDeg } = map.toLatLon(noiseSdM * random.normal(), north);
    columns.append(SCENARIO_START_S + t, latDeg, lonDeg, 0, k + 1);
  }
  const track = columns.finish({
    ...{ format: 'gpx', heightDatum: 'unstated', pressureDatum: 'unstated' },
    ...{ timeStepS: 0.001, positionStepM: 0.01 },
  });
  const motion = computeMotion(track);
  const view = viewsOf(motion, strip, strip.id).find(({ direction }) => direction.from === 'A');
  if (!view) throw new Error('the made strip has no direction from A');
  return { motion, view, startS: SCENARIO_START_S, trueAlongM };
}
