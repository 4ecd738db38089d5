/** Which record holds what was entered about a flight. */
import { expect, test } from 'vitest';
import { emptyState } from '../../../src/app/empty-state.ts';
import { visitOfLog, visitsOfLogs } from '../../../src/app/entry/visit-of-log.ts';
import { entryId } from '../../../src/logbook/entry.ts';
import { makeLog, makeVisit } from '../../../src/logbook/make-entry.ts';

test('[AS48] every record about a flight is found, the newest first; where there is none, one is made', async () => {
  const made = await makeLog('a.gpx', new TextEncoder().encode('<gpx/>'), { nowS: 1, demo: false });
  if (!made.ok) throw new Error('no log');
  const log = made.value;
  const visit = (id: string, nowS: number, of: typeof log | null) =>
    makeVisit(entryId('visit', id), of, { nowS, demo: false });
  const visits = [visit('planned', 5, log), visit('other', 9, null), visit('own', 7, log)];
  const state = { ...emptyState(10), logs: [log], visits };
  expect(visitsOfLogs(state, [log.id]).map(({ id }) => id)).toEqual(['own', 'planned']);
  expect(visitOfLog(state, log.id).id).toBe('own');
  // Of one instant the one that wins in the debrief, which is the one that can be taken back.
  const twins = { visits: [visit('a', 7, log), visit('b', 7, log)] };
  expect(visitsOfLogs(twins, [log.id]).map(({ id }) => id)).toEqual(['b', 'a']);
  const fresh = visitOfLog({ ...state, visits: [] }, log.id);
  expect([fresh.logId, fresh.remarks, fresh.enteredS]).toEqual([log.id, [], null]);
  // The same on every machine, so that two people's copies meet.
  expect(fresh.id).toBe(`of-${log.id.slice(0, 32)}`);
});
