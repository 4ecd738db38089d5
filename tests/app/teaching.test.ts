/** A touchdown put by hand teaches how the pilot arrives in that aeroplane: which figures move, and when. */
import { describe, expect, test } from 'vitest';
import type { VisitRecord } from '../../src/logbook/entry.ts';
import { addCorrection, takeBackCorrection } from '../../src/logbook/landing-entries.ts';
import type { EventSummary } from '../../src/report/flight-summary.ts';
import { isUndetermined } from '../../src/result.ts';
import { demoOf, openStore, type Bench } from './page-store.ts';

const TEACHER = '2025-09-21-last-dry-day-sedge.gpx';
const SAME_AEROPLANE = '2024-06-02-wet-grass-ternholm.igc';
const SECOND_TEACHER = '2024-06-23-uphill-at-hollowmere.gpx';
const OTHER_AEROPLANE = '2025-05-25-microlight-coasting-ternholm.gpx';

const bench = (): Promise<Bench> =>
  openStore(undefined, () => demoOf(TEACHER, SAME_AEROPLANE, SECOND_TEACHER, OTHER_AEROPLANE));

const logId = ({ store }: Bench, fileName: string): string =>
  store.state.logs.find((log) => log.fileName === fileName)?.id ?? fileName;

const eventsOf = (opened: Bench, fileName: string): readonly EventSummary[] =>
  opened.store.state.analyses.get(logId(opened, fileName))?.flights[0].events ?? [];

function landing(opened: Bench, fileName: string): EventSummary {
  const found = eventsOf(opened, fileName).find(({ outcome }) => outcome === 'full-stop');
  if (!found) throw new Error(`${fileName} ends on its wheels`);
  return found;
}

/** A log's last touchdown moved by so many metres from where it was measured. */
function marked(opened: Bench, byM: number, fileName = TEACHER): VisitRecord {
  const { timeS, placeM } = landing(opened, fileName);
  if (isUndetermined(placeM)) throw new Error('the touchdown is measured');
  const visit = opened.store.state.visits.find(({ logId: id }) => id === logId(opened, fileName));
  if (!visit) throw new Error('the demo has a visit for each flight');
  return addCorrection(visit, timeS, {
    what: 'touchdown',
    measured: { timeS, alongM: placeM.value },
    algorithmVersion: 1,
    corrected: { timeS: timeS + byM / 20, alongM: placeM.value + byM },
    madeS: 1,
  });
}

const save = ({ store }: Bench, visit: VisitRecord): Promise<void> =>
  store.dispatch({ type: 'save-visit', visit });

describe('a touchdown put by hand', () => {
  test('[AS55] moves the other flights of the aeroplane, and no flight of another one', async () => {
    const opened = await bench();
    const [before, other] = [SAME_AEROPLANE, OTHER_AEROPLANE].map((name) => eventsOf(opened, name));
    await save(opened, marked(opened, 12));
    expect(opened.store.state.toMeasure).toBe(0);
    expect(landing(opened, SAME_AEROPLANE).placeM).not.toEqual(
      before.find(({ outcome }) => outcome === 'full-stop')?.placeM,
    );
    expect(eventsOf(opened, OTHER_AEROPLANE)).toEqual(other);
    // Each other flight of the aeroplane and the teacher itself, once.
    const { measured } = opened.standIn;
    await save(opened, marked(opened, 20));
    expect(opened.standIn.measured).toBe(measured + 3);
  });

  test('[AS56] that is taken back leaves every figure as it was', async () => {
    const opened = await bench();
    const all = (): unknown => [TEACHER, SAME_AEROPLANE].map((name) => eventsOf(opened, name));
    const before = all();
    const visit = marked(opened, 12);
    await save(opened, visit);
    expect(all()).not.toEqual(before);
    const { timeS } = landing(opened, TEACHER);
    await save(opened, takeBackCorrection(visit, timeS, 'touchdown', 2));
    expect(all()).toEqual(before);
  });

  test('[AS57] needs no measuring when the page is opened again', async () => {
    const opened = await bench();
    await save(opened, marked(opened, 12));
    const place = landing(opened, SAME_AEROPLANE).placeM;
    const again = await openStore(opened.logbook);
    expect(again.standIn.measured).toBe(0);
    expect(landing(again, SAME_AEROPLANE).placeM).toEqual(place);
  });

  test('[AS59] in two flights: they teach the third, and not each other', async () => {
    const opened = await bench();
    const second = marked(opened, -8, SECOND_TEACHER);
    await save(opened, marked(opened, 12));
    const first = eventsOf(opened, TEACHER);
    const alone = landing(opened, SAME_AEROPLANE).placeM;
    await save(opened, second);
    expect(eventsOf(opened, TEACHER)).toEqual(first);
    expect(landing(opened, SAME_AEROPLANE).placeM).not.toEqual(alone);
    // The second one is measured as if there were no first one.
    const apart = await bench();
    await save(apart, second);
    expect(eventsOf(opened, SECOND_TEACHER)).toEqual(eventsOf(apart, SECOND_TEACHER));
    const { measured } = opened.standIn;
    await opened.store.reload();
    expect(opened.standIn.measured).toBe(measured);
  });

  test('[AS60] counts what is still to be measured down, never up', async () => {
    const opened = await bench();
    const counts: number[] = [];
    opened.store.subscribe(({ toMeasure }) => counts.push(toMeasure));
    await save(opened, marked(opened, 12));
    const since = counts.slice(counts.findIndex((each) => each > 0));
    expect(since[0]).toBeGreaterThanOrEqual(3);
    expect(since).toEqual(since.toSorted((a, b) => b - a));
    expect(since.at(-1)).toBe(0);
  });

  test('[AS58] says in the debrief of the other landing how many landings helped', async () => {
    const opened = await bench();
    const { units } = opened.store.state.settings;
    const question = {
      logId: logId(opened, SAME_AEROPLANE),
      flight: 0,
      key: landing(opened, SAME_AEROPLANE).key,
      options: { units, ownRollFactor: null },
    };
    const notes = async (): Promise<string> => {
      const asked = await opened.store.event(question);
      return asked.ok ? asked.value.notes.join('\n') : 'nothing';
    };
    expect(await notes()).not.toMatch(/put by hand/);
    await save(opened, marked(opened, 12));
    expect(await notes()).toMatch(/one touchdown put by hand in other logs of this aeroplane/i);
  });
});
