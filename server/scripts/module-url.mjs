// Stands in for import.meta.url, which a CommonJS bundle does not have.
import { pathToFileURL } from 'node:url';

export const moduleUrl = pathToFileURL(__filename).href;
