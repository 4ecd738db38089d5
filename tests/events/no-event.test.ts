/** What is no approach and no take-off gives no event; rules in docs/spec/measuring.md. */
import { describe, expect, test } from 'vitest';
import type { FlightEvents } from '../../src/events/detect-events.ts';
import type { Track } from '../../src/track/track.ts';
import { makeTrack, type MadeFix } from '../track/made-track.ts';
import { inventStrip } from '../synthetic/invent-strip.ts';
import { createMap } from '../synthetic/runway.ts';
import { eventsOfTrack } from './simulated.ts';

/** 500 m to the north from the map's origin, where made tracks begin too. */
const STRIP = inventStrip(createMap(), { id: 'north', bearingDeg: 0, lengthM: 500 });

/** Fixes once a second from a rule for the place and height at a time. */
function flown(seconds: number, at: (t: number) => Omit<MadeFix, 't'>): Track {
  return makeTrack(Array.from({ length: seconds }, (_, t) => ({ t, ...at(t) })));
}

function expectNothing({ approaches, takeOffs }: FlightEvents, what: string): void {
  expect(
    [...approaches.map(({ outcome }) => outcome), ...takeOffs.map(({ kind }) => kind)],
    what,
  ).toEqual([]);
}

describe('[UP2] no event', () => {
  test('[UP2] from an hour of circles over the strip, at any height', () => {
    for (const height of [60, 300]) {
      const track = flown(3600, (t) => ({
        north: 250 + 400 * Math.sin(t / 14),
        east: 400 * Math.cos(t / 14),
        height,
      }));
      expectNothing(eventsOfTrack(track, [STRIP]), `${height} m`);
    }
  });

  test('[UP2] from half an hour of a slow wing to and fro over the strip, hanging in the wind', () => {
    for (const height of [40, 100]) {
      const track = flown(1800, (t) => ({
        north: 250 + 100 * Math.sin(t / 45),
        east: 200 * Math.sin(t / 60),
        height: height + 5 * Math.sin(t / 30),
      }));
      expectNothing(eventsOfTrack(track, [STRIP]), `${height} m`);
    }
  });

  test('[UP2] from a level crossing of the strip at right angles, 100 m up', () => {
    const track = flown(300, (t) => ({ north: 250, east: 30 * (t - 150), height: 110 }));
    expectNothing(eventsOfTrack(track, [STRIP]), 'across');
  });

  test('[UP2] from level cruise along the strip 1,000 m up', () => {
    const track = flown(300, (t) => ({ north: 40 * (t - 150), height: 1010 }));
    expectNothing(eventsOfTrack(track, [STRIP]), 'cruise');
  });

  test('[UP2] from standing for half an hour, and from a walk of ten minutes', () => {
    const still = flown(1800, (t) => ({ north: 100 + Math.sin(t), height: 10 }));
    expectNothing(eventsOfTrack(still, [STRIP]), 'standing');
    const walk = flown(600, (t) => ({ north: 1.4 * (300 - Math.abs(t - 300)), height: 10 }));
    expectNothing(eventsOfTrack(walk, [STRIP]), 'walk');
  });

  test('[UP2] from a descent along the strip to a spot 3 km past it', () => {
    const track = flown(240, (t) => ({ north: 35 * t - 3000, height: Math.max(300, 900 - 3 * t) }));
    const { approaches, takeOffs } = eventsOfTrack(track, [STRIP]);
    expect(takeOffs).toEqual([]);
    // Never below 400 ft: at most an overflight.
    for (const { outcome } of approaches) expect(outcome).toBe('overflight');
  });
});
