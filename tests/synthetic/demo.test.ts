/**
 * The demo world: the committed files are what the seed gives, and they hold the stories they should.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { demoEntries, flyDemo, makeDemoFiles } from './demo/demo-files.ts';
import { demoStrips } from './demo/doggerland-strips.ts';
import type { FlownFlight } from './flight.ts';
import { createMap } from './runway.ts';

const FOLDER = 'tracks-sample';
let files = new Map<string, string>();
let flights: FlownFlight[] = [];

beforeAll(() => {
  flights = flyDemo();
  files = makeDemoFiles(flights);
});

describe('the demo world', () => {
  test('[DEMO1] made again in memory equals the committed files byte for byte', () => {
    expect(files.size).toBeGreaterThan(28);
    for (const [name, text] of files) {
      const committed = readFileSync(`${FOLDER}/${name}`);
      // Comparing buffers, because a matcher prints megabytes when it fails.
      expect(Buffer.compare(committed, Buffer.from(text)), `${name} differs: npm run demo`).toBe(0);
    }
    const committed = readdirSync(`${FOLDER}/flights`).sort();
    const made = [...files.keys()].filter((name) => name.startsWith('flights/'));
    expect(committed).toEqual(made.map((name) => name.slice(8)).sort());
  });

  test('[DEMO2] stays below 6 MB with 24 flights or more over two seasons', () => {
    const bytes = [...files.values()].reduce((sum, text) => sum + Buffer.byteLength(text), 0);
    expect(bytes).toBeLessThan(6_000_000);
    const names = demoEntries().map(({ story }) => story.file);
    expect(names.length).toBeGreaterThanOrEqual(24);
    expect(names.filter((name) => name.startsWith('2024')).length).toBeGreaterThan(8);
    expect(names.filter((name) => name.startsWith('2025')).length).toBeGreaterThan(8);
  });

  test('[DEMO3] holds every outcome, every way of joining, a bounce and a landing short', () => {
    const approaches = flights.flatMap(({ truth }) => truth.approaches);
    const outcomes = new Set(approaches.map(({ outcome }) => outcome));
    expect([...outcomes].sort()).toEqual(
      ['full-stop', 'go-around', 'low-pass', 'stop-and-go', 'touch-and-go'].sort(),
    );
    const joins = new Set(flights.flatMap(({ truth }) => truth.joins.map(({ kind }) => kind)));
    expect(joins.size).toBe(5);
    expect(approaches.some(({ bounces }) => bounces.length > 0)).toBe(true);
    expect(approaches.some(({ touchdown }) => touchdown !== null && touchdown.alongM < -5)).toBe(
      true,
    );
    expect(
      flights.flatMap(({ truth }) => truth.takeOffs).some(({ kind }) => kind === 'rejected'),
    ).toBe(true);
  });

  test('[DEMO4] stops every landing on its strip', () => {
    const strips: Record<string, { directions: readonly { designator: string; ldaM: number }[] }> =
      demoStrips(createMap());
    const ends = flights.flatMap(({ truth }) => truth.approaches).filter(({ rollEnd }) => rollEnd);
    expect(ends.length).toBeGreaterThan(30);
    for (const { strip, direction, rollEnd } of ends) {
      const found = strips[strip].directions.find(({ designator }) => designator === direction);
      expect(rollEnd?.alongM ?? NaN).toBeLessThan(found?.ldaM ?? NaN);
    }
  });

  test('[DEMO5] has conditions and truth for every flight, and an aeroplane file for each aeroplane', () => {
    const conditions = JSON.parse(files.get('conditions.json') ?? '') as {
      flights: Record<string, { aeroplane: string }>;
    };
    const truth = JSON.parse(files.get('truth.json') ?? '') as { flights: Record<string, unknown> };
    const names = demoEntries().map(({ story }) => story.file);
    expect(Object.keys(conditions.flights)).toEqual(names);
    expect(Object.keys(truth.flights)).toEqual(names);
    for (const { aeroplane } of Object.values(conditions.flights)) {
      expect(existsSync(`${FOLDER}/aeroplanes/${aeroplane}.json`), aeroplane).toBe(true);
    }
  });

  test('[DEMO6] keeps every fix within the drowned country', () => {
    for (const { map, eastM, northM } of flights) {
      const furthestM = Math.max(...eastM.map(Math.abs), ...northM.map(Math.abs));
      expect(furthestM).toBeLessThan(25_000);
      expect(map.latDeg).toBe(54.7);
    }
  });
});
