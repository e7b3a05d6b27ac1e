import { keepHeapSmall } from './heap.ts';

/** The language as the server sees it. It is evaluated on first use, never before `initialize` has been answered. */

export type Language = typeof import('./language-bundle.ts');

let loading: Promise<Language> | undefined;

/** Loads the language once; later calls get the same promise. */
export function loadLanguage(): Promise<Language> {
  loading ??= import('./language-bundle.ts').then((language) => {
    keepHeapSmall();
    return language;
  });
  return loading;
}
