/** What else a page can ask of the store: messages, undo, settings, downloads; and what listeners hear. */
import { describe, expect, test } from 'vitest';
import { makeSettings } from '../../src/logbook/make-entry.ts';
import { loggedFlights, pilotUnits } from '../../src/app/logged-flights.ts';
import type { AppState } from '../../src/app/app-state.ts';
import { openStore, type Bench } from './page-store.ts';

const lastOf = ({ store }: Bench) => {
  const message = store.state.messages.at(-1);
  if (!message) throw new Error('a message');
  return message;
};

describe('undo', () => {
  test('[AS40] brings the demonstration back whole, measured as it was, and only once', async () => {
    const bench = await openStore();
    const { logs, strips, visits, aeroplanes, analyses } = bench.store.state;
    const { measured } = bench.standIn;
    await bench.store.dispatch({ type: 'remove-demo' });
    const { text, deletion } = lastOf(bench);
    expect(text).toBe('The demonstration was taken away.');
    expect(bench.store.state.strips).toEqual([]);
    await bench.store.dispatch({ type: 'undo', deletion: deletion ?? -1 });
    const back = bench.store.state;
    expect(back).toMatchObject({ logs, strips, visits, aeroplanes, hasDemo: true });
    expect(back.analyses).toEqual(analyses);
    expect(bench.standIn.measured).toBe(measured);
    // The offer to undo is gone with the doing; done again it says why not.
    expect(back.messages.some((each) => each.deletion !== null)).toBe(false);
    await bench.store.dispatch({ type: 'undo', deletion: deletion ?? -1 });
    expect(lastOf(bench).text).toMatch(/found no deletion .*expected/);
    expect(lastOf(bench).isCaution).toBe(true);
  });
});

describe('messages', () => {
  test('[AS41] are the last four, each dismissed by its own number', async () => {
    const { store } = await openStore();
    for (let k = 1; k <= 6; k++) store.say(`message ${k}`, null, true);
    expect(store.state.messages.map(({ text }) => text)).toEqual(
      [3, 4, 5, 6].map((k) => `message ${k}`),
    );
    await store.dispatch({ type: 'dismiss', number: store.state.messages[1].number });
    expect(store.state.messages.map(({ text }) => text)).toEqual(
      [3, 5, 6].map((k) => `message ${k}`),
    );
  });

  test('[AS43] of what was done give way to the next one; cautions and what can be undone stay', async () => {
    const { store } = await openStore();
    store.say('wrong', null, true);
    store.say('removed', 7);
    store.say('done');
    store.say('done again');
    expect(store.state.messages.map(({ text }) => text)).toEqual([
      'wrong',
      'removed',
      'done again',
    ]);
  });

  test('[AS44] [NO2] that can be undone all stay, however many come after them', async () => {
    const { store } = await openStore();
    for (let k = 1; k <= 6; k++) store.say(`removed ${k}`, k);
    for (let k = 1; k <= 5; k++) store.say(`wrong ${k}`, null, true);
    const kept = store.state.messages.map(({ text }) => text);
    expect(kept.filter((text) => text.startsWith('removed'))).toHaveLength(6);
    expect(kept.slice(-4)).toEqual([2, 3, 4, 5].map((k) => `wrong ${k}`));
  });

  test('[AS42] name the first three problems, count the others, and leave notes of a success unsaid', async () => {
    const { store } = await openStore();
    const found = (severity: 'note' | 'error', k: number) =>
      ({ code: 'c', severity, where: `line ${k}`, message: 'found a, expected b' }) as const;
    store.report({ ok: true, problems: [found('note', 1)] });
    expect(store.state.messages).toEqual([]);
    store.report({ ok: false, problems: [1, 2, 3, 4, 5].map((k) => found('error', k)) });
    expect(store.state.messages.map(({ text }) => text)).toEqual([
      'line 1: found a, expected b',
      'line 2: found a, expected b',
      'line 3: found a, expected b',
      'and 2 more problems',
    ]);
    store.report({ ok: false, problems: [1, 2, 3, 4].map((k) => found('error', k)) });
    expect(lastOf({ store } as Bench).text).toBe('and 1 more problem');
  });
});

describe('the state', () => {
  test('[AS43] is replaced, never changed in place, and each change is heard until one stops listening', async () => {
    const { store } = await openStore();
    const heard: AppState[] = [];
    const stop = store.subscribe((state) => heard.push(state));
    const before = store.state;
    const copy = { ...before, messages: [...before.messages] };
    store.say('once');
    expect(before).toEqual(copy);
    expect(heard).toEqual([store.state]);
    expect(store.state).not.toBe(before);
    stop();
    store.say('twice');
    expect(heard.length).toBe(1);
  });

  test('[AS44] gives the flights of all measured logs, and the units of the settings', async () => {
    const { store } = await openStore();
    const [log] = store.state.logs;
    expect(loggedFlights(store.state).map(({ id, flightIndex }) => [id, flightIndex])).toEqual([
      [log.id, 0],
    ]);
    expect(loggedFlights({ ...store.state, analyses: new Map() })).toEqual([]);
    const { units } = makeSettings(0);
    const settings = { ...makeSettings(0), units: { ...units, length: 'ft' as const } };
    await store.dispatch({
      type: 'save-settings',
      settings: { ...settings, timeZone: 'Europe/Oslo' },
    });
    expect(pilotUnits(store.state)).toMatchObject({ length: 'ft', timeZone: 'Europe/Oslo' });
  });

  test('[AS45] takes two edits of the same settings in a row, the second over the first', async () => {
    const { store } = await openStore();
    const { settings } = store.state;
    await Promise.all([
      store.dispatch({ type: 'save-settings', settings: { ...settings, theme: 'dark' } }),
      store.dispatch({ type: 'save-settings', settings: { ...settings, theme: 'light' } }),
    ]);
    expect(store.state.settings.theme).toBe('light');
    expect(store.state.settings.changedS).toBeGreaterThan(settings.changedS);
    expect(store.state.messages).toEqual([]);
  });
});

describe('a download', () => {
  test('[AS46] hands the browser the text as it was given, with its name and type', async () => {
    const bench = await openStore();
    const text = 'Ternholm; 25 °C\n';
    const fileName = 'landings.csv';
    await bench.store.dispatch({ type: 'download', fileName, mediaType: 'text/csv', text });
    const [{ name, content }] = bench.saved;
    expect([name, content.type, await content.text()]).toEqual([fileName, 'text/csv', text]);
    await bench.store.dispatch({ type: 'clear-imports' });
    expect(bench.store.state.imports).toEqual([]);
  });
});
