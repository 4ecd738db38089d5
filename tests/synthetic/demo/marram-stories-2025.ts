/** The flights of the four-seater in its second season. All invented. */
import type { DemoStory } from './demo-flights.ts';

const ELLIPSOID_IGC: DemoStory['receiver'] = {
  heights: 'ellipsoid',
  filter: 'tracking',
  pressure: { qnhHpa: 1013, staticError: -0.06, lagS: 0.4, whiteM: 0.3 },
};

export const MARRAM_STORIES_2025: readonly DemoStory[] = [
  {
    file: '2025-03-16-short-of-the-threshold.gpx',
    clock: '11:25:00',
    about: 'Rusty after the winter: the wheels touch before the displaced threshold of 25.',
    massKg: 935,
    takeOffMassKg: 950,
    wind: [240, 9, null],
    tempC: 8,
    qnhHpa: 1012,
    wet: true,
    effort: 'normal',
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.circuit();
      pilot.land({ alongM: -45 });
    },
  },
  {
    file: '2025-04-06-rejected-and-stop-and-go.igc',
    clock: '09:55:00',
    about: 'A take-off given up, a second one, a stop-and-go and a landing at Ternholm.',
    massKg: 950,
    takeOffMassKg: 965,
    wind: [80, 7, null],
    tempC: 10,
    qnhHpa: 1026,
    wet: false,
    effort: 'normal',
    receiver: ELLIPSOID_IGC,
    fly: (pilot) => {
      pilot.lineUp('ternholm', '07');
      pilot.rejectTakeOff(15);
      pilot.backtrack(22);
      pilot.takeOff();
      pilot.circuit();
      pilot.stopAndGo({ alongM: 30, ratio: 0.9 });
      pilot.circuit();
      pilot.land();
    },
  },
  {
    file: '2025-04-27-five-fixes-a-second-sedge.gpx',
    clock: '16:00:00',
    about: 'A recorder that writes five fixes a second, at Sedgeholt.',
    massKg: 930,
    takeOffMassKg: 945,
    wind: [30, 8, null],
    tempC: 13,
    qnhHpa: 1018,
    wet: false,
    effort: 'full',
    receiver: { intervalS: 0.2, whiteS: 0.4, filter: 'tracking' },
    fly: (pilot) => {
      pilot.lineUp('sedge', '02', 6);
      pilot.takeOff();
      pilot.circuit();
      pilot.land();
    },
  },
  {
    file: '2025-05-18-wet-hollowmere.igc',
    clock: '12:20:00',
    about: 'Wet grass at Hollowmere Bank: a go-around before the commit point, then a landing.',
    massKg: 940,
    takeOffMassKg: 960,
    wind: [310, 8, null],
    tempC: 13,
    qnhHpa: 1004,
    wet: true,
    effort: 'normal',
    receiver: ELLIPSOID_IGC,
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.goTo('hollowmere', '33', 'downwind');
      pilot.goAround(38);
      pilot.circuit();
      pilot.land({ alongM: 35 });
    },
  },
  {
    file: '2025-06-08-every-two-seconds-mereling.gpx',
    clock: '10:10:00',
    about: 'A recorder that writes every two seconds; Mereling, downhill on 29.',
    massKg: 925,
    takeOffMassKg: 940,
    wind: [280, 9, null],
    tempC: 18,
    qnhHpa: 1016,
    wet: false,
    effort: 'normal',
    receiver: { intervalS: 2, filter: 'tracking' },
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.goTo('mereling', '29', 'crosswind');
      pilot.land({ alongM: 30 });
      pilot.backtrack(25);
      pilot.takeOff();
      pilot.goTo('ternholm', '25', 'downwind');
      pilot.land();
    },
  },
  {
    file: '2025-07-06-every-fix-twice.gpx',
    clock: '13:30:00',
    about: 'A file fault: for some minutes every fix is written twice. Two circuits at Ternholm.',
    massKg: 945,
    takeOffMassKg: 955,
    wind: [270, 10, null],
    tempC: 22,
    qnhHpa: 1014,
    wet: false,
    effort: 'normal',
    doubled: [100, 420],
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.circuit();
      pilot.touchAndGo();
      pilot.circuit();
      pilot.land();
    },
  },
  {
    file: '2025-08-17-hole-on-downwind.igc',
    clock: '09:35:00',
    about: 'A file fault: no fix for 40 seconds about downwind. Sedgeholt and a go-around there.',
    massKg: 935,
    takeOffMassKg: 955,
    wind: [190, 8, null],
    tempC: 19,
    qnhHpa: 1020,
    wet: false,
    effort: 'normal',
    receiver: { ...ELLIPSOID_IGC, holes: [{ afterS: 275, lengthS: 40 }] },
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.goTo('sedge', '20', 'downwind');
      pilot.goAround(15);
      pilot.circuit();
      pilot.land();
    },
  },
  {
    file: '2025-09-21-last-dry-day-sedge.gpx',
    clock: '14:45:00',
    about: 'In and out of Sedgeholt on the last dry day, backtracking between.',
    massKg: 930,
    takeOffMassKg: 945,
    wind: [210, 5, null],
    tempC: 16,
    qnhHpa: 1023,
    wet: false,
    effort: 'full',
    receiver: { filter: 'tracking', speedWhiteMps: 0.15 },
    fly: (pilot) => {
      pilot.lineUp('ternholm', '25');
      pilot.takeOff();
      pilot.goTo('sedge', '20', 'downwind');
      pilot.land();
      pilot.backtrack(20);
      pilot.takeOff();
      pilot.goTo('ternholm', '25', 'crosswind');
      pilot.land();
    },
  },
];
