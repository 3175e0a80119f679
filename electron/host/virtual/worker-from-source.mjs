// Entry of the worker thread when the app runs from its TypeScript sources.
import { register } from 'tsx/esm/api';

register();
await import('./worker.ts');
