/**
 * Where does the wind come from that estimated airspeeds rest on?
 *
 * In: what the final says of it. Out: words for people.
 */
import type { Final } from '../debrief/finals.ts';

/** The wind behind the airspeeds, to stand after "by" or "less". */
export function airspeedWindWords(from: NonNullable<Final['airspeedWind']>): string {
  switch (from) {
    case 'track':
      return 'the wind that the track implies';
    case 'entered':
      return 'the wind entered';
    case 'both':
      return 'the wind that the track implies and the one entered, each by its error';
  }
}
