/** What the pilot says of the wheels' contact; rules HC12 to HC14 in docs/spec/page.md, TT5 to TT7 in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import { debriefTrack, type Debrief, type Flight } from '../../src/debrief/debrief.ts';
import type { LandingMarks } from '../../src/debrief/hand-corrections.ts';
import { directionTouchdowns } from '../../src/debrief/flown-days.ts';
import { ownFactors } from '../../src/debrief/own-factors.ts';
import type { Approach } from '../../src/events/flight-event.ts';
import { approachMoment } from '../../src/report/event-table.ts';
import { USUAL_UNITS } from '../../src/report/figure-text.ts';
import { contactWords } from '../../src/report/hand-notes.ts';
import { noteLines } from '../../src/report/note-lines.ts';
import { touchdownChancePicture } from '../../src/report/pictures/touchdown-chance-picture.ts';
import { approachMeaning } from '../../src/report/story/sentence.ts';
import { isUndetermined, type Measured } from '../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../src/strips/strip.ts';
import { isToldOnly } from '../../src/events/told-touch.ts';
import { flyDrawnPass } from '../synthetic/pass-population.ts';
import { record } from '../events/simulated.ts';
import { expectNear } from '../expect-near.ts';
import { debriefDemo, demoContext } from './demo-flights.ts';

const CIRCUITS = '2024-04-20-first-circuits-ternholm.gpx';
const LOW_PASS = '2024-05-12-first-visit-sedge.gpx';
const TWO_BROKEN_OFF = '2025-09-07-microlight-go-arounds-sedge.igc';
const BEFORE_STRIP = '2024-07-14-gusty-go-around-sedge.gpx';
const FAR_BEFORE = '2025-05-18-wet-hollowmere.igc';
const context = demoContext();

async function debriefWith(file: string, landings: readonly LandingMarks[]): Promise<Debrief> {
  return debriefDemo(file, { ...context, landings });
}

async function flightWith(file: string, landings: readonly LandingMarks[] = []): Promise<Flight> {
  return (await debriefWith(file, landings)).flights[0];
}

function valueOf(measured: Measured): number {
  if (isUndetermined(measured)) throw new Error(measured.undetermined);
  return measured.value;
}

const say = (approach: Approach, contact: boolean, more: Partial<LandingMarks> = {}) => ({
  ...{ aroundS: valueOf(approachMoment(approach)), effort: null, touchdown: null, rollEnd: null },
  contact,
  ...more,
});

describe('that the wheels did not touch', async () => {
  const before = await flightWith(CIRCUITS);
  const [was] = before.events.approaches;
  const flight = await flightWith(CIRCUITS, [say(was, false)]);
  const [now, ...others] = flight.events.approaches;

  test('[HC12] makes a touch-and-go a go-around, with its lowest height and no touchdown', () => {
    expect(was.outcome).toBe('touch-and-go');
    expect(now.outcome).toBe('go-around');
    expect(now.contactProbability).toBe(0);
    expect(now.goAround?.contactProbability).toBe(0);
    // The wheels were on the ground, which nothing ties here any more: the band reaches down to it.
    const lowest = now.goAround?.lowestAboveM;
    if (!lowest || isUndetermined(lowest)) throw new Error('the log has heights');
    expect(lowest.low).toBeLessThan(1);
    expect(isUndetermined(now.touchdown)).toBe(true);
    expect(now.saidContact?.measuredProbability).toBe(was.contactProbability);
  });

  test('[HC12] leaves no take-off from there, and the other approaches as they were', () => {
    expect(flight.events.takeOffs).toHaveLength(before.events.takeOffs.length - 1);
    expect(others.map(({ outcome }) => outcome)).toEqual(
      before.events.approaches.slice(1).map(({ outcome }) => outcome),
    );
    expect(flight.circuits.circuits).toHaveLength(before.circuits.circuits.length);
  });

  test('[HC12] counts among the landings broken off', () => {
    const count = (which: Flight): number => ownFactors([which])[0].goArounds;
    expect(count(flight)).toBe(count(before) + 1);
  });

  test('[HC13] is told with what the log says', () => {
    const told = noteLines(flight).join(' ').replaceAll(/\s+/g, ' ');
    expect(told).toMatch(/that the wheels did not touch is said by hand; by the log a touch was/);
    expect(noteLines(before).join(' ')).not.toContain('said by hand');
  });

  test('[HC13] is found again by its own time, though no touchdown is left', () => {
    expect(flight.byHand[0].marks?.contact).toBe(false);
    expect(flight.byHand[1].marks).toBeNull();
  });

  test('[HC14] does not count of a stop on the strip', async () => {
    const stop = before.events.approaches.at(-1);
    if (!stop) throw new Error('the flight ends with a landing');
    const said = await flightWith(CIRCUITS, [say(stop, false)]);
    const found = said.events.approaches.at(-1);
    expect(found?.saidContact?.refused).toBe('the aircraft slowed down to a taxi on the strip');
    expect({ ...found, saidContact: null }).toEqual(stop);
  });
});

describe('that the wheels touched', async () => {
  const before = await flightWith(LOW_PASS);
  const [was] = before.events.approaches;
  const word = say(was, true);
  const flight = await flightWith(LOW_PASS, [word]);
  const [now] = flight.events.approaches;

  test('[HC12] makes a low pass a touch-and-go; how long they stayed down nobody knows', () => {
    expect(was.outcome).toBe('low-pass');
    expect(now.outcome).toBe('touch-and-go');
    expect(now.contactProbability).toBe(1);
    expect(now.goAround).toBeNull();
    if (isUndetermined(now.touchdown)) throw new Error('the touchdown is somewhere');
    const lowest = valueOf(was.goAround?.lowestTimeS ?? was.groundRollM);
    expectNear(valueOf(now.touchdown.timeS), lowest, 6);
    expect(isUndetermined(now.groundRollM)).toBe(true);
    expect(flight.events.takeOffs).toHaveLength(before.events.takeOffs.length + 1);
    const again = flight.events.takeOffs.at(-1)?.liftOff;
    if (!again || isUndetermined(again)) throw new Error('it took off again');
    expect(isUndetermined(again.alongM)).toBe(true);
    expect(isUndetermined(again.timeS)).toBe(false);
  });

  test('[HC12] says nothing of where the strip begins: the log does not show the touch', () => {
    const short = flight.events.problems.filter(({ code }) => code === 'touched-short');
    expect(short).toEqual([]);
  });

  test('[HC13] a touchdown can then be put by hand, under the same entry', async () => {
    const put = { timeS: word.aroundS + 2, alongM: 30 };
    const moved = await flightWith(LOW_PASS, [{ ...word, touchdown: put }]);
    const { touchdown } = moved.events.approaches[0];
    if (isUndetermined(touchdown)) throw new Error('it was put there');
    expect(valueOf(touchdown.alongM)).toBe(30);
    expect(moved.byHand[0].measuredTouchdown).toEqual(flight.byHand[0].measuredTouchdown);
    // What no roll shows teaches nothing of how the pilot arrives.
    expect(moved.lessons).toEqual([]);
  });

  test('[HC12] where the log shows the touch changes nothing but its probability', async () => {
    const measured = await flightWith(CIRCUITS);
    const [first] = measured.events.approaches;
    const said = await flightWith(CIRCUITS, [say(first, true)]);
    const { saidContact, ...rest } = said.events.approaches[0];
    expect(saidContact).toMatchObject({ touched: true, refused: null, againstIt: null });
    expect({ ...rest, saidContact: null }).toEqual({ ...first, contactProbability: 1 });
    expect(said.events.takeOffs).toEqual(measured.events.takeOffs);
  });

  test('[HC14] does not count where the aircraft did not come down to the strip', async () => {
    const measured = await flightWith(FAR_BEFORE);
    const k = measured.events.approaches.findIndex(({ outcome }) => outcome === 'go-around');
    const pass = measured.events.approaches[k];
    const said = await flightWith(FAR_BEFORE, [say(pass, true)]);
    const { saidContact, ...rest } = said.events.approaches[k];
    expect(saidContact?.refused).toMatch(/^the log has the aircraft \d+ m or more above the strip/);
    expect({ ...rest, saidContact: null }).toEqual(pass);
    expect(saidContact && contactWords(saidContact)).toMatch(/does not count: the log has/);
  });
});

describe('a touch that the log does not show', async () => {
  const before = await flightWith(TWO_BROKEN_OFF);
  const [high] = before.events.approaches;
  const flight = await flightWith(TWO_BROKEN_OFF, [say(high, true)]);

  test('[TT5] has no place where the log speaks against it', () => {
    const [now] = flight.events.approaches;
    expect(now.outcome).toBe('touch-and-go');
    expect(now.saidContact?.againstIt).toMatch(/^the log has the aircraft 2\d m or more above/);
    expect(now.touchdown).toEqual({
      undetermined: 'the log speaks against the touch that was told of by hand',
    });
    expect(now.posterior).toBeNull();
  });

  test('[TT5] moves no height of the flight then', () => {
    expect(flight.events.ties).toEqual(before.events.ties);
    expect(flight.events.approaches.slice(1)).toEqual(before.events.approaches.slice(1));
    expect(flight.surroundings.approaches).toEqual(before.surroundings.approaches);
  });

  test('[TT7] is none of the touchdowns whose scatter is told, put by hand it is one', async () => {
    const [pass] = (await flightWith(BEFORE_STRIP)).events.approaches;
    const told = await flightWith(BEFORE_STRIP, [say(pass, true)]);
    const { touchdown } = told.events.approaches[0];
    if (isUndetermined(touchdown)) throw new Error('the touchdown is somewhere');
    expect(isUndetermined(touchdown.crossM)).toBe(true);
    const put = { timeS: valueOf(touchdown.timeS), alongM: -20 };
    const placed = await flightWith(BEFORE_STRIP, [say(pass, true, { touchdown: put })]);
    const count = (flight: Flight): number =>
      directionTouchdowns([flight]).reduce((sum, { touchdowns }) => sum + touchdowns, 0);
    const landings = told.events.approaches.filter(({ touchdown: at }) => !isUndetermined(at));
    expect(count(told)).toBe(landings.length - 1);
    expect(count(placed)).toBe(landings.length);
  });

  test('[TT6] has no chance of having been short of the threshold, told or drawn', async () => {
    const [pass] = (await flightWith(BEFORE_STRIP)).events.approaches;
    const said = await flightWith(BEFORE_STRIP, [say(pass, true)]);
    const { touchdown } = said.events.approaches[0];
    if (isUndetermined(touchdown)) throw new Error('the touchdown is somewhere');
    expect(valueOf(touchdown.alongM)).toBeLessThan(-20);
    expect(touchdown.shortProbability).toBe(0);
    expect(noteLines(said).join(' ')).not.toMatch(/short\s+of\s+the\s+threshold/);
    const meaning = approachMeaning(said, 0, USUAL_UNITS, null).map(({ text }) => text);
    expect(meaning.join(' ')).not.toContain('Short of the threshold');
    const chance = touchdownChancePicture(said, 0, USUAL_UNITS);
    if (isUndetermined(chance)) throw new Error(chance.undetermined);
    expect(chance.shortText).toBeNull();
    // Put by hand it is the pilot who says where it was.
    const put = { timeS: valueOf(touchdown.timeS), alongM: -20 };
    const placed = await flightWith(BEFORE_STRIP, [say(pass, true, { touchdown: put })]);
    expect(noteLines(placed).join(' ')).toMatch(/short\s+of\s+the\s+threshold/);
  });
});

describe('a touch that only the pilot tells of, put by hand where it was', () => {
  test('[HC12] never lies behind the lift-off that follows it', () => {
    let put = 0;
    for (const seed of [930_103, 930_115, 930_216, 930_256, 930_286]) {
      const drawn = flyDrawnPass(seed, seed % 2 === 0);
      const truth = drawn.pass.touchdown;
      if (!truth) throw new Error('drawn without a touch');
      const { timeS: aroundS, alongM } = truth;
      const touch = { aroundS, effort: null, touchdown: { alongM }, rollEnd: null, contact: true };
      const track = record(drawn, { seed });
      const { flights } = debriefTrack(
        { track, headers: new Map(), notes: [], leftOut: [] },
        'drawn',
        '',
        {
          ...{ strips: { ...EMPTY_STRIP_BOOK, strips: [drawn.strip] }, aeroplanes: [] },
          ...{ conditions: null, landings: [touch] },
        },
      );
      const { approaches, takeOffs } = flights[0].events;
      const told = approaches.find(isToldOnly);
      if (!told || isUndetermined(told.touchdown)) throw new Error('the touch has a place');
      const next = takeOffs.find(({ from }) => from >= told.from);
      if (!next || isUndetermined(next.liftOff)) throw new Error('it went on to a take-off');
      const { timeS } = next.liftOff;
      if (isUndetermined(timeS)) throw new Error(timeS.undetermined);
      const touchedS = valueOf(told.touchdown.timeS);
      expect(timeS.low, `seed ${seed}`).toBeGreaterThanOrEqual(touchedS);
      expect(timeS.value).toBeGreaterThanOrEqual(timeS.low);
      expect(timeS.high).toBeGreaterThanOrEqual(timeS.value);
      put++;
    }
    expect(put).toBe(5);
  });
});
