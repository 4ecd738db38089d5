/**
 * The columns of the season, drawn by Chart.js.
 *
 * In: a canvas in the page, months. Out: the chart, to be destroyed before another is drawn. Colours
 * are read from the page, so that it follows light, dark and the pilot's choice.
 */
import { BarController, BarElement, CategoryScale, Chart, LinearScale } from 'chart.js';
import type { MonthCount } from '../../report/season-counts.ts';

Chart.register(BarController, BarElement, CategoryScale, LinearScale);

/** Draws them. */
export function makeSeasonChart(canvas: HTMLCanvasElement, months: readonly MonthCount[]): Chart {
  const style = getComputedStyle(canvas);
  const colour = (name: string): string => style.getPropertyValue(name).trim();
  const ticks = { color: colour('--ink2'), font: { family: style.fontFamily, size: 13 } };
  return new Chart(canvas, {
    type: 'bar',
    data: {
      labels: months.map(({ name }) => name),
      datasets: [
        {
          data: months.map(({ landings }) => landings),
          backgroundColor: colour('--mown'),
          borderColor: colour('--measured'),
          borderWidth: { top: 2, right: 0, bottom: 0, left: 0 },
          categoryPercentage: 0.9,
          barPercentage: 0.9,
        },
      ],
    },
    options: {
      animation: false,
      maintainAspectRatio: false,
      events: [],
      scales: {
        x: { grid: { display: false }, ticks: { ...ticks, maxRotation: 0, autoSkipPadding: 16 } },
        y: {
          beginAtZero: true,
          grid: { color: colour('--line') },
          ticks: { ...ticks, precision: 0 },
        },
      },
    },
  });
}
