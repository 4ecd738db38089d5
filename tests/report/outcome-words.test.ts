/** One word for each outcome, wherever it stands. */
import { describe, expect, test } from 'vitest';
import type { Outcome } from '../../src/events/flight-event.ts';
import { eventTables } from '../../src/report/event-table.ts';
import { USUAL_UNITS } from '../../src/report/figure-text.ts';
import { approachPicture } from '../../src/report/pictures/approach-picture.ts';
import { flightLinePicture } from '../../src/report/pictures/flight-line-picture.ts';
import { isUndetermined } from '../../src/result.ts';
import { DEMO_STRIPS } from '../drawings/demo-pictures.ts';
import { demoFlight } from './demo-flight.ts';

const { flight } = await demoFlight('2025-04-06-rejected-and-stop-and-go.igc');

/** The demo flight with its first approach called otherwise. */
function ended(outcome: Outcome) {
  const [first, ...rest] = flight.events.approaches;
  const approaches = [{ ...first, outcome }, ...rest];
  return { ...flight, events: { ...flight.events, approaches } };
}

describe('[OUT1] an outcome', () => {
  test.each<[Outcome, string]>([
    ['full-stop', 'full stop'],
    ['touch-and-go', 'touch-and-go'],
    ['stop-and-go', 'stop-and-go'],
    ['go-around', 'go-around'],
    ['low-pass', 'low pass'],
    ['overflight', 'overflight'],
  ])(
    '[OUT1] %s is called the same on the flight line, by the strip and in tables',
    (outcome, words) => {
      const told = ended(outcome);
      const line = flightLinePicture(told, USUAL_UNITS).events.find(
        ({ key }) => key === 'approach-0',
      );
      expect(line?.text).toMatch(new RegExp(` ${words}(,|$)`));
      expect(eventTables(told).join('\n')).toContain(`  ${words}  `);
      const options = { units: USUAL_UNITS, ownRollFactor: null, aimM: null };
      const ruler = approachPicture(told, 0, DEMO_STRIPS, options);
      if (isUndetermined(ruler)) throw new Error('the demo has this strip');
      expect(ruler.rows.find(({ label }) => label === 'outcome')?.value).toBe(words);
    },
  );

  test('[OUT1] a rejected take-off is called that on the flight line too', () => {
    const texts = flightLinePicture(flight, USUAL_UNITS).events.map(({ text }) => text);
    expect(texts.filter((text) => text.endsWith('rejected take-off'))).toHaveLength(1);
  });
});
