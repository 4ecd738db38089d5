/** What a debrief says of a whole log: too slow to be measured, or nothing in it that could be used. */
import { describe, expect, test } from 'vitest';
import { debriefTrack, type Debrief } from '../../src/debrief/debrief.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import type { Track } from '../../src/track/track.ts';
import { makeTrack, steady, type MadeFix } from '../track/made-track.ts';

function debriefOf(track: Track): Debrief {
  const decoded = { track, headers: new Map(), leftOut: [], notes: [] };
  const context = { strips: EMPTY_STRIP_BOOK, aeroplanes: [], conditions: null };
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

describe('[NF1] a log of which nothing can be used', () => {
  test('[NF1] says what was left out and why', () => {
    const back = makeTrack(every(1).map((fix) => ({ ...fix, t: -fix.t })));
    expect(debriefOf(back).problems.map(({ message }) => message)).toEqual([
      'the track has 1 usable fix; expected 12 or more with their times; left out 59 times: time runs back',
    ]);
    const equal = makeTrack(every(1).map((fix) => ({ ...fix, t: 0 })));
    expect(debriefOf(equal).problems.map(({ message }) => message)).toEqual([
      'the track has 1 usable fix; expected 12 or more with their times; left out 59 times: same time as another fix, other position',
    ]);
    expect(debriefOf(makeTrack(steady(3))).problems.map(({ message }) => message)).toEqual([
      'the track has 3 usable fixes; expected 12 or more with their times',
    ]);
  });
});
