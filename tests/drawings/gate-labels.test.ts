/** Gates of a final on a phone: each keeps its name and its airspeed, none lies over the axis. */
import { beforeAll, expect, test } from 'vitest';
import { heightAndSpeed } from '../../src/app/drawings/height-and-speed.ts';
import { layOutProfiles } from '../../src/app/drawings/profile-layout.ts';
import type { FinalPicture } from '../../src/report/pictures/final-picture.ts';
import { labelBox } from '../../src/app/drawings/text.ts';
import { faultsOf } from './drawing-faults.ts';
import { finalOf, flightOf, limitedFlightOf } from './demo-pictures.ts';

/** Finals whose highest gate on a phone had no name, because it stands at the beginning of the axis. */
const AT_THE_EDGE: readonly [string, number][] = [
  ['2024-07-28-microlight-wet-mereling.gpx', 1],
  ['2025-04-06-rejected-and-stop-and-go.igc', 0],
  ['2025-06-08-every-two-seconds-mereling.gpx', 1],
  ['2025-06-29-microlight-across-the-wind.gpx', 1],
  ['2025-09-21-last-dry-day-sedge.gpx', 1],
];
/** A phone and the smallest phone. */
const WIDTHS = [358, 288];

const finals: { name: string; picture: FinalPicture }[] = [];
beforeAll(async () => {
  for (const [file, index] of AT_THE_EDGE) {
    finals.push({ name: file, picture: finalOf(await flightOf(file), index) });
    const limited = finalOf(await limitedFlightOf(file), index);
    finals.push({ name: `${file} with limits`, picture: limited });
  }
});

const wordsOf = (picture: FinalPicture, widthPx: number): string[] =>
  heightAndSpeed(picture, widthPx).labels.map(({ parts }) =>
    parts.map(({ text }) => text).join(' '),
  );

function seenGates(picture: FinalPicture, widthPx: number): FinalPicture['gates'] {
  const { along } = layOutProfiles(picture, widthPx);
  return picture.gates.filter(({ alongM }) => alongM >= along.from);
}

test.for(WIDTHS)('[PG29] at %i px every gate that is seen keeps its name', (widthPx) => {
  for (const { name, picture } of finals) {
    const gates = seenGates(picture, widthPx);
    expect(gates.length, name).toBeGreaterThan(1);
    const words = wordsOf(picture, widthPx);
    for (const { label } of gates) {
      expect(words.filter((each) => each.startsWith(label)).length, `${name}, ${label}`).toBe(1);
    }
    expect(faultsOf(heightAndSpeed(picture, widthPx)), name).toEqual([]);
  }
});

test.for(WIDTHS)('[PG29] at %i px no gate lies over the figures of the axis', (widthPx) => {
  for (const { name, picture } of finals) {
    const { along } = layOutProfiles(picture, widthPx);
    for (const { alongM } of seenGates(picture, widthPx)) {
      // A dot out beyond its post reaches 14 px to the left.
      expect(along.at(alongM) - along.at(along.from), name).toBeGreaterThanOrEqual(14);
    }
  }
});

test('[PG29] at 358 px each gate without limits keeps its airspeed', () => {
  let checked = 0;
  for (const { name, picture } of finals) {
    const gates = seenGates(picture, 358);
    if (gates.some(({ paceLimit }) => paceLimit)) continue;
    // Figures are set bold, those of the axes are not.
    const said = heightAndSpeed(picture, 358)
      .labels.filter(({ parts }) => parts[0].weight === 650)
      .map(({ parts }) => parts[0].text);
    for (const { airspeedWords } of gates) {
      expect(said, name).toContain(airspeedWords?.value);
      checked++;
    }
  }
  expect(checked).toBeGreaterThanOrEqual(10);
});

test.each([756, 1216])(
  '[PG29] at %i px no words of a gate stand over another gate',
  async (widthPx) => {
    // At 50 ft there is no room to the threshold: its words stood over the dot of 100 ft.
    const picture = finalOf(await flightOf('2025-04-06-rejected-and-stop-and-go.igc'), 1);
    const { along, speed } = layOutProfiles(picture, widthPx);
    const dots = picture.gates.map(({ alongM }) => along.at(alongM));
    const words = heightAndSpeed(picture, widthPx).labels.filter(
      ({ y, parts }) => y > speed[0] - 10 && parts[0].weight === 650 && parts[0].size !== 17,
    );
    expect(words.length).toBeGreaterThan(1);
    let over = 0;
    for (const label of words) {
      const { left, right } = labelBox(label);
      const under = dots.filter((x) => x > left && x < right);
      expect(under.length, label.parts[0].text).toBeLessThan(2);
      if (under.length === 1) over++;
      // Nearer to its own dot than to any other's.
      if (under.length === 1)
        expect(picture.gates[dots.indexOf(under[0])].airspeedWords?.value).toBe(
          label.parts[0].text,
        );
    }
    expect(over, 'words that stand over a dot').toBeGreaterThan(0);
  },
);
