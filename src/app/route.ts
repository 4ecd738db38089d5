/**
 * Where in the page are we? The part of the address after `#`, as a room and its arguments.
 *
 * `#/debrief/LOG/0/2`: the third event of the first flight of a log. Unknown rooms lead to the logbook.
 */

/** Rooms of the page, in the order of the list. */
export const ROOMS = [
  { id: 'logbook', name: 'Logbook' },
  { id: 'debrief', name: 'Debrief' },
  { id: 'side', name: 'Side by side' },
  { id: 'factor', name: 'Own factor' },
  { id: 'visit', name: 'Visit' },
  { id: 'strips', name: 'Strips' },
  { id: 'aeroplanes', name: 'Aeroplanes' },
  { id: 'settings', name: 'Settings' },
] as const;

/** Id of a room. */
export type RoomId = (typeof ROOMS)[number]['id'];

/** A place in the page. */
export interface Route {
  readonly room: RoomId;
  readonly args: readonly string[];
}

/** Reads the part of an address from `#` on. */
export function parseRoute(hash: string): Route {
  const [id, ...args] = hash.replace(/^#\/?/, '').split('/').map(decode);
  const room = ROOMS.find((each) => each.id === id);
  return room ? { room: room.id, args: args.filter((arg) => arg !== '') } : LOGBOOK;
}

/** The address of a place, from `#` on. */
export function routeHash(room: RoomId, ...args: readonly (string | number)[]): string {
  return `#/${[room, ...args.map(encode)].join('/')}`;
}

const LOGBOOK: Route = { room: 'logbook', args: [] };

/** Half a character, as a hostile file may have in an id, has no address: a mark stands for it. */
function encode(part: string | number): string {
  return encodeURIComponent(String(part).replace(/\p{Surrogate}/gu, '\uFFFD'));
}

/** A part of an address that is no valid escape stands for itself. */
function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
