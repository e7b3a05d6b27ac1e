import type { DiagnosticDefinition } from './define.ts';
import type { Finding, Location, RelatedFinding } from './finding.ts';

/** Makes a finding of a catalogue entry; `key` is the entry's name in the catalogue. */
export function finding<P>(
  key: string,
  definition: DiagnosticDefinition<P>,
  parameters: P,
  location: Location,
  related: readonly RelatedFinding[] = [],
): Finding {
  const { code, severity } = definition;
  const replacement = definition.replacement?.(parameters);
  return {
    key,
    code,
    severity,
    message: definition.message(parameters),
    location,
    related,
    ...(replacement === undefined ? {} : { replacement }),
  };
}
