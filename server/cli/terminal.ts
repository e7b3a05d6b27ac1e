/** Everything a command needs of the world outside, so that tests can give it another one. */
export interface Terminal {
  /** Current folder, absolute. */
  readonly cwd: string;
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly out: Output;
  readonly error: Output;
}

export interface Output {
  write(text: string): void;
  readonly isTerminal: boolean;
  /** Characters a line holds; undefined when it is not a terminal. */
  readonly columns?: number;
}

export const COLOR_CHOICES = ['auto', 'always', 'never'] as const;
export type ColorChoice = (typeof COLOR_CHOICES)[number];

export type Style = 'error' | 'warning' | 'information' | 'heading' | 'dim';
/** Puts a text into a style; without colours it gives the text back as it is. */
export type Paint = (style: Style, text: string) => string;

/** SGR parameters, ECMA-48 8.3.117: on and off. */
const SGR: Readonly<Record<Style, readonly [number, number]>> = {
  error: [31, 39],
  warning: [33, 39],
  information: [36, 39],
  heading: [1, 22],
  dim: [2, 22],
};

export const plain: Paint = (_style, text) => text;
const coloured: Paint = (style, text) => {
  const [on, off] = SGR[style];
  return text === '' ? '' : `\u001b[${on}m${text}\u001b[${off}m`;
};

/**
 * Colours only where they were asked for, or on a terminal that does not refuse them: `NO_COLOR` with any content
 * (no-color.org), or a terminal that calls itself dumb.
 */
export function painter(choice: ColorChoice, output: Output, environment: Terminal['environment']): Paint {
  if (choice !== 'auto') return choice === 'always' ? coloured : plain;
  return output.isTerminal && !environment.NO_COLOR && environment.TERM !== 'dumb' ? coloured : plain;
}

const NARROWEST = 60;
const WIDEST = 100;

/** Line length to wrap running text at: that of the terminal within reason, else one that fits on paper. */
export function lineWidth(output: Output, narrowest = NARROWEST): number {
  return Math.min(WIDEST, Math.max(narrowest, output.columns ?? WIDEST));
}
