import { expect } from 'vitest';
import type { Analysis } from '../../language/index.ts';

const BAD_NUMBER = /\b(NaN|Infinity|undefined|null|\[object)\b/;

/** What holds for any input: messages without bad numbers, spans inside their texts, finite quantities. */
export function expectSound(analysis: Analysis): void {
  for (const [uri, document] of analysis.workspace.documents) {
    const length = document.kind === 'text' ? document.syntax.text.length : 0;
    let last = 0;
    for (const { start, end, message, related } of analysis.diagnostics(uri)) {
      expect(message).not.toMatch(BAD_NUMBER);
      expect(start).toBeGreaterThanOrEqual(0);
      expect(end).toBeGreaterThanOrEqual(start);
      expect(end).toBeLessThanOrEqual(length);
      expect(start).toBeGreaterThanOrEqual(last);
      last = start;
      for (const place of related) {
        const other = analysis.workspace.documents.get(place.uri);
        const most = other?.kind === 'text' ? other.syntax.text.length : 0;
        expect(place.message).not.toMatch(BAD_NUMBER);
        expect(place.start >= 0 && place.start <= place.end && place.end <= most).toBe(true);
      }
    }
    for (const { entity } of analysis.entities(uri)) {
      if (entity?.kind !== 'unit' && entity?.kind !== 'rig') continue;
      for (const state of entity.result.states)
        for (const { name, value } of state.quantities.values())
          expect([name, Number.isFinite(value)]).toEqual([name, true]);
      for (const { text } of entity.result.assumptions) expect(text).not.toMatch(BAD_NUMBER);
    }
  }
}
