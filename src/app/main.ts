/** Start-up only: the logbook, the worker, the store, the frame of the page, the offline worker. */
import { createMemoryStore } from '../logbook/memory-store.ts';
import { AnalysisClient, startWorker } from './analysis-client.ts';
import { AppStore } from './app-store.ts';
import './components/app-shell.ts';
import { openIndexedDbStore } from './indexeddb-store.ts';

// Set before any component measures itself for paper.
addEventListener('beforeprint', () => document.documentElement.classList.add('on-paper'));
addEventListener('afterprint', () => document.documentElement.classList.remove('on-paper'));

const shell = document.querySelector('wr-app');
let store: AppStore | null = null;
const waiting: string[] = [];

const opened = await openIndexedDbStore({
  onBlocked: () => say('An older Windrow is open in another tab: close it, and this one goes on.'),
  onClosed: () => say('The logbook was closed by the browser: open the page again.'),
});
if (!opened.ok) for (const { message } of opened.problems) say(`The logbook: ${message}`);

store = new AppStore({
  // Without storage the page still works until it is closed; the message says so.
  logbook: opened.ok ? opened.value : createMemoryStore(),
  client: new AnalysisClient(startWorker),
  clock: () => Date.now() / 1000,
  fetchDemo: async () => {
    const answer = await fetch('./demo.windrow');
    if (!answer.ok) throw new Error(`${answer.status} ${answer.statusText}`);
    return new Uint8Array(await answer.arrayBuffer());
  },
  saveFile: (fileName, content) => {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(content);
    link.download = fileName;
    link.click();
    // By then the browser has the content; holding it longer only costs memory.
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  },
});
if (shell) shell.store = store;
await store.open();
for (const text of waiting.splice(0)) store.say(text, null, true);

if ('serviceWorker' in navigator) {
  const offline = await navigator.serviceWorker.register('./sw.js').catch(() => null);
  if (offline?.waiting) {
    say('A newer Windrow is ready: close all its tabs and open it again.');
  }
}

/** Says something at the foot of the page, or, before there is a store, in its middle. */
function say(text: string): void {
  if (store) {
    store.say(text, null, true);
    return;
  }
  waiting.push(text);
  if (shell) shell.notice = text;
}
