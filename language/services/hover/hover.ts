import type { Analysis } from '../../semantics/analysis.ts';
import { lex } from '../../syntax/tokens.ts';
import { declarationAt, type Node, type Place, placeAt } from '../nodes.ts';
import { markingHover } from './catalogue.ts';
import { type HoverContext, hoverContext } from './context.ts';
import { headHover } from './lines.ts';
import { measureHover, unitOfMeasureHover } from './numbers.ts';
import { nameHover, referenceHover, useHover } from './things.ts';
import { argumentHover, flagHover, wordHover } from './words.ts';

/** What is shown for the word at an offset; the span is absolute. */
export interface Hover {
  readonly markdown: string;
  readonly start: number;
  readonly end: number;
}

/** What stands at an offset and what it comes to, in Markdown; undefined where there is nothing to say. */
export function hover(analysis: Analysis, uri: string, offset: number): Hover | undefined {
  const place = placeAt(analysis, uri, offset);
  if (place?.node === undefined) return grammarHover(analysis, uri, offset);
  const markdown = nodeHover(hoverContext(analysis, place), place, place.node);
  if (markdown === undefined || markdown === '') return undefined;
  const { start } = place.placed;
  return { markdown, start: start + place.node.span.start, end: start + place.node.span.end };
}

function nodeHover(context: HoverContext, place: Place, node: Node): string | undefined {
  switch (node.kind) {
    case 'head':
      return headHover(context, place);
    case 'name':
      return nameHover(context, place);
    case 'reference':
      return referenceHover(context, node);
    case 'keyword':
      return argumentHover(node.span.text);
    case 'flag':
      return flagHover(node.span.text);
    case 'direction':
      return wordHover(node.span.text);
    case 'number':
      return measureHover(node.measures, node.sharedUnit);
    case 'measure-unit':
      return unitOfMeasureHover(node.span.text);
    case 'text':
      return place.path.at(-1)?.spec?.keyword === 'use'
        ? useHover(context)
        : markingHover(node.span.value, context.system);
  }
}

/** Words of the grammar that are no part of the tree: `to`, `between`. */
function grammarHover(analysis: Analysis, uri: string, offset: number): Hover | undefined {
  const placed = declarationAt(analysis, uri, offset);
  if (placed === undefined) return undefined;
  const relative = offset - placed.start;
  const token = lex(placed.declaration.text).tokens.find(
    ({ startOffset, image }) => startOffset <= relative && relative <= startOffset + image.length,
  );
  const markdown = token && wordHover(token.image);
  if (token === undefined || markdown === undefined) return undefined;
  const start = placed.start + token.startOffset;
  return { markdown, start, end: start + token.image.length };
}
