/**
 * How likely is each candidate touchdown, all evidence and priors together?
 *
 * In: the evidence of the positions and of the heights for the same candidates, and how the pilot
 * arrives. Out: weight, place and speed of every candidate, with their spread.
 */
import { normaliseLogWeights } from '../numeric/posterior.ts';
import type { StripFrame } from '../strips/strip-frame.ts';
import type { TouchdownPosterior } from './flight-event.ts';
import { floatLogWeights, shapeWeights, ShapeWeights, tiedWeights } from './hold-off.ts';
import type { Manner } from './manner.ts';
import { knowsEnds, type StripView } from './strip-view.ts';
import type { AlongEvidence } from './touchdown-along.ts';
import type { HeightEvidence } from './touchdown-height.ts';
import { TOUCHDOWN } from './tuning.ts';

/**
 * Multiplies the evidences with the ties and priors, and collapses them on to the candidates. What the
 * log and the pilot's manner say together counts a little more than once: models that allow for every
 * kind of receiver and ground are too careful on the whole.
 *
 * Units: seconds, metres, m/s. Shapes: columns of one value a candidate. Never fails; without
 * heights the positions decide, and what the round-outs let expect of the float.
 */
export function combineEvidence(
  candidateS: Float64Array,
  along: AlongEvidence,
  heights: HeightEvidence | null,
  view: StripView,
  manner: Manner,
): TouchdownPosterior {
  const n = candidateS.length;
  const perCandidate = along.floatCount * along.brakeCount;
  const weight = new Float64Array(n * perCandidate);
  const brakeLog = manner.brakes.map(Math.log);
  const tied = tiedWeights(manner);
  const floatLog = floatLogWeights(tied);
  const shapes = heights && new ShapeWeights(heights, tied);
  for (let c = 0; c < n; c++) {
    shapes?.lookAt(c);
    for (let f = 0; f < along.floatCount; f++) {
      const height = shapes ? shapes.weigh(f) : floatLog[f];
      for (let b = 0; b < along.brakeCount; b++) {
        const slot = (c * along.floatCount + f) * along.brakeCount + b;
        const evidence = along.logEvidence[slot] + height + brakeLog[b];
        weight[slot] = TOUCHDOWN.evidencePower * evidence + place(along.positionM[slot], view);
      }
    }
  }
  normaliseLogWeights(weight);
  const out = {
    timeS: candidateS,
    weight: new Float64Array(n),
    alongM: new Float64Array(n),
    alongSdM: new Float64Array(n),
    speedMps: new Float64Array(n),
    speedSdMps: new Float64Array(n),
    arrival: {
      brakes: brakeWeights(weight, perCandidate, along.brakeCount),
      shapes: heights ? shapeWeights(weight, along, heights, tied) : null,
    },
  };
  // A candidate stands for its step: the aircraft moved on in it, evenly.
  for (let c = 0; c < n; c++) {
    const from = c * perCandidate;
    const to = from + perCandidate;
    const [share, position, positionSd] = moments(
      weight,
      along.positionM,
      along.positionVar,
      from,
      to,
    );
    const [, speed, speedSd] = moments(weight, along.speedMps, along.speedVar, from, to);
    out.weight[c] = share;
    out.alongM[c] = position;
    out.alongSdM[c] = Math.hypot(positionSd, (speed * TOUCHDOWN.stepS) / Math.sqrt(12));
    out.speedMps[c] = speed;
    out.speedSdMps[c] = speedSd;
  }
  return out;
}

/** Weight of every candidate and brake delay, in rows. */
function brakeWeights(weight: Float64Array, perCandidate: number, brakes: number): Float64Array {
  const out = new Float64Array((weight.length / perCandidate) * brakes);
  weight.forEach((each, slot) => {
    out[Math.floor(slot / perCandidate) * brakes + (slot % brakes)] += each;
  });
  return out;
}

/** Log prior of the place; none where nobody knows where the strip begins. */
function place(alongM: number, view: StripView): number {
  return knowsEnds(view) ? placeLogPrior(alongM, view.frame) : 0;
}

/** Log prior of a touchdown at a place along a strip, metres: only that landing well before the strip begins is rare. */
export function placeLogPrior(alongM: number, frame: StripFrame): number {
  const inside = alongM - frame.nearEndAlongM - TOUCHDOWN.shortMiddleM;
  const { shortWidthM, shortShare, shortReachM } = TOUCHDOWN;
  const wellShort = shortShare * Math.exp(Math.min(0, inside) / shortReachM);
  return Math.log(wellShort + (1 - shortShare) / (1 + Math.exp(-inside / shortWidthM)));
}

/** Total weight, mean and standard deviation of a slice of a mixture. */
function moments(
  weight: Float64Array,
  mean: Float64Array,
  variance: Float64Array,
  from: number,
  to: number,
): [number, number, number] {
  let total = 0;
  let first = 0;
  for (let i = from; i < to; i++) {
    total += weight[i];
    first += weight[i] * mean[i];
  }
  if (total === 0) return [0, mean[from], Math.sqrt(variance[from])];
  const centre = first / total;
  let second = 0;
  for (let i = from; i < to; i++) {
    second += weight[i] * (variance[i] + (mean[i] - centre) ** 2);
  }
  return [total, centre, Math.sqrt(second / total)];
}
