/**
 * How does what the rolls say differ from the strip as drawn?
 *
 * In: the strip and what was learned. Out: one sentence for each difference that its band does not
 * explain.
 */
import { isUndetermined, type Estimate } from '../result.ts';
import type { LearnedStrip } from './learn-strip.ts';
import { LEARN } from './learn-tuning.ts';
import { createStripFrame } from './strip-frame.ts';
import type { Strip } from './strip.ts';

/** Notes about a strip as drawn, in metres and degrees; empty where it agrees. */
export function learnedNotes(drawn: Strip, learned: LearnedStrip): string[] {
  const any = drawn.directions[0];
  const frame = createStripFrame(drawn, { ...any, from: 'A', displacedM: 0 });
  const notes: string[] = [];
  const { rightM, turnedDeg, usedFromM, usedToM, slopeRatio } = learned;
  if (surely(rightM, LEARN.noteBesideM)) {
    const side = rightM.value > 0 ? 'right' : 'left';
    notes.push(
      `the rolls lie ${metres(Math.abs(rightM.value))} ${side} of the line drawn, seen from end A`,
    );
  }
  if (surely(turnedDeg, LEARN.noteTurnedDeg)) {
    const way = turnedDeg.value > 0 ? 'clockwise' : 'anticlockwise';
    notes.push(
      `the rolls are turned ${Math.abs(turnedDeg.value).toFixed(1)} degrees ${way} from the line drawn`,
    );
  }
  const beyond = [
    { end: 'A', byM: { value: -usedFromM.value, low: -usedFromM.high, high: -usedFromM.low } },
    { end: 'B', byM: shifted(usedToM, -frame.lengthM) },
  ];
  for (const { end, byM } of beyond) {
    if (byM.low > LEARN.noteBesideM) {
      notes.push(`wheels were ${metres(byM.value)} beyond end ${end} as drawn`);
    }
  }
  if (!isUndetermined(slopeRatio) && !Number.isNaN(frame.slopeRatio)) {
    const entered =
      (frame.elevationMslM(usedToM.value) - frame.elevationMslM(usedFromM.value)) /
      (usedToM.value - usedFromM.value);
    if (surely(shifted(slopeRatio, -entered), LEARN.noteSlope)) {
      notes.push(
        `from end A the rolls climb ${percent(slopeRatio.value)} where the strip's elevations say ${percent(entered)}`,
      );
    }
  }
  return notes;
}

/** True where the whole band lies on one side of nought and the value is worth telling. */
function surely({ value, low, high }: Estimate, least: number): boolean {
  return (low > 0 || high < 0) && Math.abs(value) >= least;
}

function shifted({ value, low, high }: Estimate, by: number): Estimate {
  return { value: value + by, low: low + by, high: high + by };
}

const metres = (value: number): string => `${value.toFixed(0)} m`;
const percent = (ratio: number): string => `${(100 * ratio).toFixed(1)} %`;
