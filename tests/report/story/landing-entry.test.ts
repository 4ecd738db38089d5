/** What the page says of a touchdown put by hand. */
import { describe, expect, test } from 'vitest';
import type { Flight } from '../../../src/debrief/debrief.ts';
import { touchdownChancePicture } from '../../../src/report/pictures/touchdown-chance-picture.ts';
import { USUAL_UNITS } from '../../../src/report/figure-text.ts';
import {
  landingEntryPlaces,
  liftOffEntry,
  whyNotThere,
} from '../../../src/report/story/landing-entry.ts';
import { noteLines } from '../../../src/report/note-lines.ts';
import { isUndetermined } from '../../../src/result.ts';
import { debriefDemo, demoContext } from '../../debrief/demo-flights.ts';

const FILE = '2024-04-20-first-circuits-ternholm.gpx';

async function debriefed(putM: number | null): Promise<{ flight: Flight; index: number }> {
  const bare = (await debriefDemo(FILE, demoContext())).flights[0];
  const index = bare.events.approaches.length - 1;
  const { touchdown } = bare.events.approaches[index];
  if (putM === null || isUndetermined(touchdown) || isUndetermined(touchdown.timeS)) {
    return { flight: bare, index };
  }
  const aroundS = touchdown.timeS.value;
  const mark = { aroundS, effort: null, touchdown: { alongM: putM }, rollEnd: null };
  const [flight] = (await debriefDemo(FILE, { ...demoContext(), landings: [mark] })).flights;
  return { flight, index };
}

describe('a touchdown put by hand', () => {
  test('[HC10] within what the log leaves open stands without a doubt', async () => {
    const { flight, index } = await debriefed(60);
    const entry = landingEntryPlaces(flight, index, USUAL_UNITS);
    expect(entry?.places[0].byHand).not.toBeNull();
    expect(entry?.places[0].doubt).toBeNull();
    const { rollEnd } = flight.events.approaches[index];
    const endM = isUndetermined(rollEnd) || isUndetermined(rollEnd.alongM) ? NaN : rollEnd.alongM;
    expect(entry?.places[0].before?.alongM).toBe(typeof endM === 'number' ? endM : endM.value);
  });

  test('[HC10] which the log all but rules out says so, and that it teaches nothing', async () => {
    const { flight, index } = await debriefed(-300);
    expect(flight.lessons).toEqual([]);
    const touchdown = landingEntryPlaces(flight, index, USUAL_UNITS)?.places[0];
    expect(touchdown?.doubt).toMatch(/teaches nothing/);
  });

  test('[HC11] leaves no chance to be drawn, as the one measured does', async () => {
    const measured = await debriefed(null);
    expect(
      isUndetermined(touchdownChancePicture(measured.flight, measured.index, USUAL_UNITS)),
    ).toBe(false);
    for (const putM of [31, 60, 200]) {
      const { flight, index } = await debriefed(putM);
      expect(touchdownChancePicture(flight, index, USUAL_UNITS)).toEqual({
        undetermined: 'put there by hand: no chance is left',
      });
    }
  });

  test('[HC11] short of the threshold is told as a fact, without its chance', async () => {
    const { flight } = await debriefed(-3);
    const short = noteLines(flight).filter((line) => line.includes('short of the threshold'));
    expect(short).toHaveLength(1);
    expect(short[0]).not.toContain('probability');
  });
});

describe('what can be entered', async () => {
  const { flight } = await debriefed(null);
  const events = flight.events.approaches.map((_, k) => landingEntryPlaces(flight, k, USUAL_UNITS));

  test('[HC12] the contact of a touch-and-go, with what was measured; of a stop nothing', () => {
    const outcomes = flight.events.approaches.map(({ outcome }) => outcome);
    expect(outcomes[0]).toBe('touch-and-go');
    expect(outcomes.at(-1)).toBe('full-stop');
    expect(events[0]?.contact?.hint).toMatch(/^By the log a touch was .*% likely\.$/);
    expect(events.at(-1)?.contact).toBeNull();
    expect(events.at(-1)?.takesEffort).toBe(true);
  });

  test('[HC20] the effort of a touch that the log does not show is not asked, and it teaches nothing', async () => {
    const file = '2024-07-14-gusty-go-around-sedge.gpx';
    const [bare] = (await debriefDemo(file, demoContext())).flights;
    const aroundS = landingEntryPlaces(bare, 0, USUAL_UNITS)?.aroundS ?? NaN;
    const word = { aroundS, effort: null, touchdown: null, rollEnd: null, contact: true };
    const [said] = (await debriefDemo(file, { ...demoContext(), landings: [word] })).flights;
    const entry = landingEntryPlaces(said, 0, USUAL_UNITS);
    expect(entry?.places.map(({ what }) => what)).toEqual(['touchdown']);
    expect(entry).toMatchObject({ takesEffort: false, teaches: false });
    expect(events[0]).toMatchObject({ takesEffort: true, teaches: true });
  });

  test('[UP4] where the ends are guessed a touchdown put by hand teaches nothing', async () => {
    const context = demoContext();
    const guessed = context.strips.strips.map((strip) => ({ ...strip, endsGuessed: true }));
    const strips = { ...context.strips, strips: guessed };
    const [there] = (await debriefDemo(FILE, { ...context, strips })).flights;
    expect(landingEntryPlaces(there, 0, USUAL_UNITS)).toMatchObject({
      takesEffort: true,
      teaches: false,
    });
  });

  test('[HC18] a lift-off lies behind the brake release and before 50 ft', () => {
    const entry = liftOffEntry(flight, 0, USUAL_UNITS);
    const [place] = entry?.places ?? [];
    const { after, before, measured } = place;
    expect(entry?.contact).toBeNull();
    expect(entry?.takesEffort).toBe(false);
    if (!after || !before) throw new Error('both are known');
    expect(after.alongM).toBeLessThan(measured.alongM);
    expect(before.alongM).toBeGreaterThan(measured.alongM);
    expect(whyNotThere(place, measured.alongM, USUAL_UNITS)).toBeNull();
    expect(whyNotThere(place, after.alongM - 1, USUAL_UNITS)).toMatch(
      /^expected a place behind the brake release, at /,
    );
    expect(whyNotThere(place, before.alongM + 1, USUAL_UNITS)).toMatch(
      /^expected a place before 50 ft, at /,
    );
  });

  test('[HC18] of a touch-and-go it lies behind the opening of the power', () => {
    const [place] = liftOffEntry(flight, 1, USUAL_UNITS)?.places ?? [];
    expect(place.after?.words).toBe('the opening of the power');
    expect(place.before?.words).toBe('the end of the climb in line');
  });
});
