/** A flight without any event, without strips, or without a wind: still a debrief, with reasons in it. */
import { describe, expect, test } from 'vitest';
import type { Flight } from '../../../src/debrief/debrief.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';
import { eventDebrief } from '../../../src/report/story/event-debrief.ts';
import { isUndetermined, undetermined, type Measured } from '../../../src/result.ts';
import { EMPTY_STRIP_BOOK } from '../../../src/strips/strip.ts';
import { DEMO_STRIPS } from '../../drawings/demo-pictures.ts';
import { demoFlight } from '../demo-flight.ts';

const { flight } = await demoFlight('2024-07-14-gusty-home-straight-in.igc');
const options = { units: makeSettings(0).units, ownRollFactor: null };
const show = (other: Flight, key: string | null = null) =>
  eventDebrief(other, key, DEMO_STRIPS, options);
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

const EMPTY: Flight = {
  ...flight,
  events: { ...flight.events, approaches: [], takeOffs: [] },
  compared: { approaches: [], takeOffs: [] },
};

describe('a flight without events', () => {
  test('[ST90] says so, shows the flight and its conditions, and has no figure', () => {
    const shown = show(EMPTY);
    expect(shown).toMatchObject({
      key: null,
      kind: 'none',
      place: null,
      offer: null,
      measured: [],
    });
    expect(shown.sentence).toBe('No take-off or landing was found in this flight.');
    expect(shown.timeS).toBe(flight.motion.timeS[0]);
    expect(shown.line.timeS.length).toBeGreaterThan(100);
    expect(shown.block.map(({ label }) => label)).toContain('Wind');
    for (const part of [shown.ruler, shown.final, shown.plan, shown.chance, shown.why]) {
      expect(isUndetermined(part)).toBe(true);
    }
    expect(shown.cursor.from).toBe(0);
    expect(shown.cursor.to).toBe(flight.motion.length);
    expect(() => show(EMPTY, 'approach-0')).toThrow(/approach-0/);
  });

  test('[CO1] says of a recording too slow to show any that it may not show them', () => {
    const source = { ...flight.source, medianIntervalS: 12 };
    expect(show({ ...EMPTY, source }).sentence).toBe(
      'No take-off or landing was found in this flight. One fix every 12 s may not show them.',
    );
  });
});

describe('the usual event', () => {
  test('[ST91] is the last landing, else the last pass, else the last take-off', () => {
    const none = undetermined('the wheels did not touch');
    const { approaches, takeOffs } = flight.events;
    expect(show(flight).key).toBe('approach-0');
    const passes = approaches.map((approach) => ({ ...approach, touchdown: none }));
    expect(show({ ...flight, events: { ...flight.events, approaches: passes } }).key).toBe(
      `approach-${passes.length - 1}`,
    );
    const started = { ...EMPTY, events: { ...EMPTY.events, takeOffs } };
    const compared = { approaches: [], takeOffs: flight.compared.takeOffs };
    expect(show({ ...started, compared }).key).toBe(`take-off-${takeOffs.length - 1}`);
  });
});

describe('the wind from the track', () => {
  const wind = (fromDeg: Measured): string => {
    const speedMps = { value: 5.144, low: 4.116, high: 6.173 };
    return plain(show({ ...flight, wind: { fromDeg, speedMps } }).windFromTrack);
  };
  const about = (value: number): Measured => ({ value, low: value - 5, high: value + 5 });

  test('[ST92] is told in whole degrees, rounded, in three figures', () => {
    // 5.144 m/s are 10.0 kt.
    expect(wind(about(248.7))).toBe(
      'The track suggests a wind from 249° true, 10 kt 8–12, at the heights flown.',
    );
    expect(wind(about(4.4))).toMatch(/ from 004° true/);
    expect(wind(about(359.7))).toMatch(/ from 000° true/);
  });

  test('[ST93] or its direction that cannot be had says why', () => {
    expect(wind(undetermined('only one leg'))).toBe(
      'The track suggests a wind of 10 kt 8–12, direction not told: only one leg.',
    );
    const silent = show({ ...flight, wind: undetermined('no turn') }).windFromTrack;
    expect(silent).toBe('The track does not tell the wind: no turn.');
  });
});

describe('a place nobody has kept', () => {
  test('[ST94] has no ruler but a reason, and offers to be kept only there', async () => {
    const { debrief } = await demoFlight('2024-07-14-gusty-home-straight-in.igc');
    const [known] = debrief.flights;
    expect(show(known).offer).toBeNull();
    const [approach, ...others] = known.events.approaches;
    const unkept = [{ ...approach, strip: null, direction: null }, ...others];
    // No view of a place without a strip is at hand: then there is nothing to offer.
    const shown = show({ ...known, events: { ...known.events, approaches: unkept } });
    expect(shown.place).toBeNull();
    expect(shown.offer).toBeNull();
    expect(isUndetermined(shown.ruler)).toBe(true);
    expect(eventDebrief(EMPTY, null, EMPTY_STRIP_BOOK, options).kind).toBe('none');
  });
});
