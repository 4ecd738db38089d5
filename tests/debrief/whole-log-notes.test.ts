/** What a debrief says of a whole log: too slow to be measured, or nothing in it that could be used. */
import { describe, expect, test } from 'vitest';
import { debriefTrack, type Debrief } from '../../src/debrief/debrief.ts';
import { EMPTY_STRIP_BOOK, type Strip } from '../../src/strips/strip.ts';
import { pickFixes } from '../../src/track/decode-columns.ts';
import type { Track } from '../../src/track/track.ts';
import { record } from '../events/simulated.ts';
import { flyDrawnApproach } from '../synthetic/scenarios.ts';
import { makeTrack, steady, type MadeFix } from '../track/made-track.ts';

function debriefOf(track: Track, strips: readonly Strip[] = []): Debrief {
  const decoded = { track, headers: new Map(), leftOut: [], notes: [] };
  const book = { ...EMPTY_STRIP_BOOK, strips };
  const context = { strips: book, aeroplanes: [], conditions: null };
  return debriefTrack(decoded, 'made.gpx', '0', context);
}

function every(intervalS: number, count = 60): MadeFix[] {
  return steady(count).map((fix) => ({
    ...fix,
    t: fix.t * intervalS,
    north: fix.north * intervalS,
  }));
}

describe('[CO1] a log too slow to be measured', () => {
  test('[CO1] is told so with its interval, one fix in 4 s is not', () => {
    const slow = debriefOf(makeTrack(every(12))).problems.filter(
      ({ code }) => code === 'fixes-far-apart',
    );
    expect(slow).toHaveLength(1);
    expect(slow[0]).toMatchObject({ severity: 'warning', where: 'line 1' });
    expect(slow[0].message).toContain('one fix every 12 s');
    const quick = debriefOf(makeTrack(every(4)));
    expect(quick.flights).toHaveLength(1);
    expect(quick.problems).toEqual([]);
  });
});

describe('[CLN30] a log written newest first', () => {
  test('[CLN30] is debriefed, with a note', () => {
    const { flights, problems } = debriefOf(makeTrack(every(1).toReversed()));
    expect(flights.map(({ source }) => source.usedFixes)).toEqual([60]);
    expect(problems.map(({ code, severity }) => [code, severity])).toEqual([
      ['newest-first', 'note'],
    ]);
  });
});

describe('[BG1] a log that begins in the last seconds of an approach', () => {
  test('[BG1] has its landing at a known strip', () => {
    let landings = 0;
    for (const seed of [71, 72, 73, 74, 75, 76]) {
      const scenario = flyDrawnApproach(seed, 'full-stop');
      const whole = record(scenario, { seed });
      const touchdownS = scenario.flown.truth.approaches[0].touchdown?.timeS ?? NaN;
      const places = Int32Array.from({ length: whole.length }, (_, i) => i);
      const late = pickFixes(
        whole,
        places.filter((i) => whole.timeS[i] > touchdownS - 3),
      );
      const { flights, problems } = debriefOf(late, [scenario.strip]);
      if (flights.length === 0) expect(problems.map(({ code }) => code)).toEqual(['no-flight']);
      for (const { events } of flights) {
        expect(events.approaches.map(({ outcome }) => outcome)).toEqual(['full-stop']);
        landings++;
      }
    }
    // One lands at 15.8 m/s and is soon slower than somebody may drive along a strip.
    expect(landings).toBe(5);
  });
});

describe('[NF1] a log of which nothing can be used', () => {
  test('[NF1] says what was left out and why', () => {
    const equal = makeTrack(every(1).map((fix) => ({ ...fix, t: 0 })));
    expect(debriefOf(equal).problems.map(({ message }) => message)).toEqual([
      'the track has 1 usable fix; expected 12 or more with their times; left out 59 times: same time as another fix, other position',
    ]);
    expect(debriefOf(makeTrack(steady(3))).problems.map(({ message }) => message)).toEqual([
      'the track has 3 usable fixes; expected 12 or more with their times',
    ]);
  });
});
