import type { Role } from './drawing.ts';

/**
 * How roles look. Presentation attributes come first, so that a viewer without style sheets shows everything in the colour
 * of the text; the style sheet adds colours. A page around the drawing may set `--drawing-ink`, `--drawing-paper`,
 * `--drawing-growing` and `--drawing-curve-1` … `--drawing-curve-6`.
 */
export const ATTRIBUTES: Readonly<Record<Role, string>> = {
  paper: 'fill="none"',
  grid: 'stroke="currentColor" stroke-opacity="0.16"',
  axis: 'stroke="currentColor" stroke-opacity="0.7"',
  zero: 'stroke="currentColor" stroke-width="1.5"',
  growing: 'fill="currentColor" fill-opacity="0.08"',
  pulse: 'fill="currentColor" fill-opacity="0.08"',
  intended: 'stroke="currentColor" stroke-width="1.5" stroke-dasharray="2 3"',
  curve: 'fill="none" stroke="currentColor" stroke-width="2.5" stroke-linejoin="round"',
  'thin-curve': 'fill="none" stroke="currentColor" stroke-width="1.2" stroke-linejoin="round"',
  hatch: 'stroke="currentColor" stroke-opacity="0.4"',
  leader: 'fill="none" stroke="currentColor" stroke-opacity="0.7"',
  mark: 'fill="none" stroke="currentColor" stroke-width="1.8"',
  heading: 'fill="currentColor" font-size="17" font-weight="600"',
  label: 'fill="currentColor" font-size="13"',
  remark: 'fill="currentColor" font-size="11.5"',
  caption: 'fill="currentColor" font-size="11.5"',
};

/** px; the size of a role's text. */
export const FONT_SIZE = { heading: 17, label: 13, remark: 11.5, caption: 11.5 } as const;

/** Colours of the curves on light and on dark paper; all stand out from it by more than 3 : 1. */
export const LIGHT = {
  ink: '#1b1f24',
  paper: '#ffffff',
  growing: '#c62828',
  curves: ['#0b62a8', '#b64700', '#00755a', '#8e3a78', '#6b5b00', '#4a4a4a'],
} as const;
export const DARK = {
  ink: '#e8eaed',
  paper: '#16191d',
  growing: '#ff7b72',
  curves: ['#6cb6ff', '#ffa366', '#56d6a9', '#e59bd0', '#d9cf5a', '#c8c8c8'],
} as const;

/** Dash patterns, so that curves differ without colour too; the first is unbroken. */
const DASHES = ['', '9 4', '2 3', '12 4 2 4', '5 3', '14 3 2 3 2 3'] as const;

/** Colour number (from 1) and dashes of a series: no two of the first 36 have both in common. */
export function lookOf(series: number): { readonly colour: number; readonly dashes: string } {
  const colour = series % LIGHT.curves.length;
  const dashes = DASHES[(series + Math.floor(series / LIGHT.curves.length)) % DASHES.length] ?? '';
  return { colour: colour + 1, dashes };
}

interface Palette {
  readonly ink: string;
  readonly paper: string;
  readonly growing: string;
  readonly curves: readonly string[];
}

const colours = ({ ink, paper, growing, curves }: Palette): string =>
  [
    `color:var(--drawing-ink,${ink})`,
    `--paper:var(--drawing-paper,${paper})`,
    `--growing:var(--drawing-growing,${growing})`,
    ...curves.map((colour, i) => `--curve-${i + 1}:var(--drawing-curve-${i + 1},${colour})`),
  ].join(';');

/** Where the system limits colours to a few, it chooses them: dashes and labels tell curves apart. */
const FORCED: Palette = {
  ink: 'CanvasText',
  paper: 'Canvas',
  growing: 'CanvasText',
  curves: LIGHT.curves.map(() => 'CanvasText'),
};

/** The style sheet of every drawing; it touches nothing outside of one. */
export const STYLE_SHEET = [
  `.drawing{color-scheme:light dark;font-family:system-ui,"Segoe UI",Roboto,"Liberation Sans",Arial,sans-serif;${colours(LIGHT)}}`,
  `@media (prefers-color-scheme:dark){.drawing{${colours(DARK)}}}`,
  '@media (prefers-contrast:more){.drawing .grid{stroke-opacity:.45}.drawing .hatch{stroke-opacity:.8}.drawing .thin-curve{stroke-width:1.8}}',
  `@media (forced-colors:active){.drawing{forced-color-adjust:none;${colours(FORCED)}}}`,
  '.drawing .paper{fill:var(--paper)}',
  '.drawing .growing{fill:var(--growing)}',
  // A halo of paper keeps figures readable where they cross a line.
  '.drawing text{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}',
  ...LIGHT.curves.map((_, i) => `.drawing .series-${i + 1}{stroke:var(--curve-${i + 1})}`),
  '.drawing .mark{fill:var(--paper)}',
].join('\n');
