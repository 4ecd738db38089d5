/** The sentence of each event, as a pilot would say it, and what it means. */
import { describe, expect, test } from 'vitest';
import {
  approachMeaning,
  approachSentence,
  takeOffSentence,
} from '../../../src/report/story/sentence.ts';
import { USUAL_UNITS } from '../../../src/report/figure-text.ts';
import { undetermined } from '../../../src/result.ts';
import { allFlights, DEMO_STRIPS, flightOf } from '../../drawings/demo-pictures.ts';
import { about, demoFlight, landingLike } from '../demo-flight.ts';
import { eventDebrief } from '../../../src/report/story/event-debrief.ts';
import { makeSettings } from '../../../src/logbook/make-entry.ts';

const FILE = '2024-04-20-first-circuits-ternholm.gpx';
const { flight } = await demoFlight(FILE);
const [model] = flight.events.approaches;
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const say = (changes: Parameters<typeof landingLike>[1]): string =>
  plain(approachSentence(landingLike(model, changes), USUAL_UNITS));

describe('the sentence of an approach', () => {
  test('[ST1] says where it touched, how far it rolled and what was left', () => {
    expect(say({})).toBe('Touched down 40 m in, rolled 180 m, stopped with 135 m left.');
  });

  test('[ST2] says a touchdown short of the threshold and a stop past the end as plainly', () => {
    const { touchdown } = landingLike(model, {});
    if ('undetermined' in touchdown) throw new Error('made up with a touchdown');
    expect(say({ touchdown: { ...touchdown, alongM: about(-12) }, stripLeftM: about(-8) })).toBe(
      'Touched down 12 m short of the threshold, rolled 180 m, stopped 8 m past the end.',
    );
  });

  test('[ST3] has words for every outcome', () => {
    const goAround = {
      initiationTimeS: about(0),
      lowestTimeS: about(10),
      lowestAboveM: about(3.048),
      lowestAlongM: about(-44),
      contactProbability: 0,
    };
    const touchdown = undetermined('the wheels did not touch');
    expect(say({ outcome: 'touch-and-go' })).toMatch(/, and went again\.$/);
    expect(say({ outcome: 'stop-and-go' })).toMatch(/, and took off again\.$/);
    expect(say({ outcome: 'go-around', goAround, touchdown })).toBe(
      'Went around, lowest 10 ft, 44 m before the threshold.',
    );
    expect(say({ outcome: 'low-pass', goAround, touchdown })).toMatch(/^Flew along the strip/);
    expect(say({ outcome: 'overflight', touchdown })).toBe('Flew over the strip.');
    expect(say({ outcome: undetermined('a gap'), touchdown })).toBe(
      'Touched down or passed: the log cannot tell.',
    );
  });

  test('[ST4] leaves out what the data cannot tell, and never says zero for it', () => {
    const none = undetermined('the log ends in the roll');
    const words = say({ rollEnd: none, groundRollM: none, stripLeftM: none });
    expect(words).toBe('Touched down 40 m in.');
  });

  test('[ST9] says of a landing whose touchdown the log does not show that it landed, no place of it', () => {
    const touchdown = undetermined('the log begins over the strip');
    expect(say({ touchdown, groundRollM: touchdown })).toBe('Landed, stopped with 135 m left.');
  });

  test('[ST5] says a take-off, and one given up', () => {
    const [takeOff] = flight.events.takeOffs;
    const made = { ...takeOff, groundRollM: about(170), stripLeftM: about(379) };
    const liftOff = { timeS: about(0), alongM: about(121), groundSpeedMps: about(25) };
    expect(plain(takeOffSentence({ ...made, liftOff }, USUAL_UNITS))).toBe(
      'Ran 170 m, lifted off 121 m in with 379 m left.',
    );
    expect(plain(takeOffSentence({ ...made, kind: 'rejected' }, USUAL_UNITS))).toBe(
      'Gave up the take-off after 170 m.',
    );
  });
});

describe('what it means', () => {
  test('[ST6] holds the ratio and the place before the latest touchdown point with their bands', () => {
    const lines = approachMeaning(flight, 2, USUAL_UNITS, null).map(({ text, band }) =>
      plain(`${text} ${band}`),
    );
    const ratio = flight.compared.approaches[2].roll.ratio;
    if ('undetermined' in ratio) throw new Error('the demo landing is compared');
    expect(lines).toContainEqual(
      expect.stringContaining(`${ratio.value.toFixed(2)} times the expected roll`),
    );
    expect(lines).toContainEqual(
      expect.stringMatching(/^Down \d+ m before the latest touchdown point/),
    );
  });

  test('[ST7] says why nothing is compared', async () => {
    const bare = await flightOf(FILE);
    const unpredicted = {
      ...bare,
      compared: {
        ...bare.compared,
        approaches: bare.compared.approaches.map((each) => ({
          ...each,
          prediction: undetermined('no conditions'),
          roll: { ...each.roll, ratio: undetermined('no conditions') },
          whole: { ...each.whole, ratio: undetermined('no conditions') },
        })),
      },
    };
    const texts = approachMeaning(unpredicted, 2, USUAL_UNITS, null).map(({ text }) => text);
    expect(texts).toContain('Not compared: no conditions.');
  });

  test('[ST8] never approves: no event of the demo gets a word of praise', async () => {
    const settings = makeSettings(0);
    const options = { units: settings.units, ownRollFactor: 1.2 };
    let events = 0;
    for (const { id } of await allFlights()) {
      const each = await flightOf(id);
      const keys = [
        ...each.events.approaches.map((_, k) => `approach-${k}`),
        ...each.events.takeOffs.map((_, k) => `take-off-${k}`),
      ];
      for (const key of keys) {
        const { sentence, meaning, notes } = eventDebrief(each, key, DEMO_STRIPS, options);
        const said = [sentence, ...meaning.map(({ text }) => text), ...notes].join(' ');
        expect(said).not.toMatch(
          /\b(safe|safely|good|well done|ok|fine|enough|approved|perfect)\b/i,
        );
        expect(sentence).toMatch(/\.$/);
        events++;
      }
    }
    expect(events).toBeGreaterThan(80);
  }, 120_000);
});
